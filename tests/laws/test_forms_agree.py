"""With the compiled form left out, every job is judged the same."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from laws.by_explaining import by_explaining
from laws.thinning import BOOK, SAMPLES, read_again, sample_facts, thinned
from tundish import Job, Verdict
from verdicts import verdicts, verdicts_by_rule


@pytest.mark.parametrize("at", range(len(SAMPLES)), ids=[path.stem for path in SAMPLES])
def test_a_sample_job_has_the_findings_that_explaining_comes_to(at: int) -> None:
    found: dict[str, list[Verdict]] = {}
    for (rule, _), verdict in verdicts(Job.from_file(SAMPLES[at])).items():
        # A waiver stands over what was judged; what it stands over is a breach.
        waived = verdict is Verdict.WAIVED
        found.setdefault(rule, []).append(Verdict.BREACHED if waived else verdict)
    for name, expected_of_rule in by_explaining(sample_facts(at), BOOK).items():
        each = expected_of_rule if isinstance(expected_of_rule, tuple) else [expected_of_rule]
        # Asked of no item at all, a rule is told once, as not applicable.
        assert sorted(found.pop(name)) == sorted(each or [Verdict.NOT_APPLICABLE]), name
    assert not found


@settings(max_examples=40, deadline=None)
@given(st.integers(0, len(SAMPLES) - 1), st.integers(0), st.sampled_from((0.02, 0.1, 0.3, 0.7)))
def test_a_thinned_job_is_judged_alike(at: int, seed: int, share: float) -> None:
    facts = sample_facts(at)
    values = thinned(Random(seed), facts.values, share, open_ends=0.3)
    assert by_explaining(read_again(values, facts), BOOK) == verdicts_by_rule(values)
