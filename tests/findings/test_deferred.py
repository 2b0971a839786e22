"""What is told of a finding later is what would be told at once."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from findings.judged_job import FACTS, book
from rulebook.packs import QUANTITY, RULE, load
from tundish import Finding, Job, Verdict, assess
from tundish.text.bundled_folders import bundled_folder

BREACH = "site.snow_depth > 1 m"
BARN = bundled_folder("sample_jobs") / "three-phase-barn.toml"
FIELDS = [field.name for field in dataclasses.fields(Finding)]


@pytest.mark.parametrize("first", FIELDS)
def test_it_makes_no_difference_what_is_looked_at_first(tmp_path: Path, first: str) -> None:
    rulebook = book(tmp_path, BREACH)
    looked, other = (assess(Job.from_data(FACTS), rulebook).findings[0] for _ in range(2))
    getattr(looked, first)
    assert [getattr(looked, name) for name in FIELDS] == [getattr(other, name) for name in FIELDS]
    assert looked == other


def test_what_is_no_field_is_no_field(tmp_path: Path) -> None:
    (found,) = assess(Job.from_data(FACTS), book(tmp_path, BREACH)).findings
    with pytest.raises(AttributeError, match="'Finding' has no attribute 'verdikt'"):
        _ = found.verdikt  # type: ignore[attr-defined]
    assert not hasattr(found, "__missing__")


def test_a_finding_can_be_kept_copied_and_changed(tmp_path: Path) -> None:
    (found,) = assess(Job.from_data(FACTS), book(tmp_path, BREACH)).findings
    assert pickle.loads(pickle.dumps(found)) == found == copy.deepcopy(found)
    changed = dataclasses.replace(found, verdict=Verdict.WAIVED)
    assert (changed.verdict, changed.statement) == (Verdict.WAIVED, found.statement)
    with pytest.raises(dataclasses.FrozenInstanceError):
        found.statement = "nothing"  # type: ignore[misc]


def test_an_assessment_can_be_kept(tmp_path: Path) -> None:
    made = assess(Job.from_data(FACTS), book(tmp_path, BREACH))
    kept = pickle.loads(pickle.dumps(made))
    assert kept == made
    assert (
        kept.job_digest == assess(Job.from_data(FACTS), book(tmp_path / "again", BREACH)).job_digest
    )


def test_threads_that_look_at_one_assessment_see_the_same() -> None:
    job = Job.from_file(BARN)
    told = [finding.statement for finding in assess(job).findings]
    shared = assess(job)

    def look(order: int) -> list[str]:
        findings = shared.findings[::order]
        return [finding.statement for finding in findings][::order]

    with ThreadPoolExecutor(8) as pool:
        assert all(seen == told for seen in pool.map(look, [1, -1] * 8))


def test_facts_are_made_once(tmp_path: Path) -> None:
    job, rulebook = Job.from_data(FACTS), book(tmp_path, BREACH)
    assert rulebook.facts(job) is rulebook.facts(job)
    assert rulebook.facts(copy.deepcopy(job)) == rulebook.facts(job)


def test_the_order_of_rules_never_decides_which_runs_out_of_steps(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    nested = "all(all(b.length > 0 m for b in water.run) for a in water.run)"
    texts = {
        name: RULE.replace("placement.height_below >= site.snow_depth", nested)
        for name in ("snow/a.toml", "snow/b.toml")
    }
    rulebook = load(tmp_path, {**texts, "snow/quantities.toml": QUANTITY})
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_STEPS", 300)
    for count, verdict in ((9, Verdict.MET), (10, Verdict.UNDECIDED)):
        job = Job.from_data({"water.run": [{"length": "1 m"}] * count})
        assert [one.verdict for one in assess(job, rulebook).findings] == [verdict, verdict]
