"""A rule that is decided though not all is known comes out so in every completion of the job."""

from __future__ import annotations

from collections import Counter
from itertools import islice, product
from pathlib import Path
from random import Random
from typing import Any

import pytest

from findings.judged_job import book
from laws.thinning import BOOK, SAMPLES, read_again, sample_facts, thinned
from tundish import Job, Verdict, assess
from tundish.findings.finding_builder import FindingBuilder
from tundish.job.changes import Change, changed
from tundish.job.facts import Facts
from tundish.job.model.paths import outer_paths
from tundish.job.model.schema import Items
from tundish.job.schema import entry_at
from tundish.job.sides import SIDES
from tundish.rulebook.evaluate.completions import Completions
from tundish.rulebook.evaluate.judge import Judgement, judge
from tundish.rulebook.evaluate.probes import Probe
from tundish.rulebook.link.facts_read import facts_read

PROBES = range(100, 112)
"""Numbers of completions other than those that judging itself looks at."""


def undecided(at: int, share: float) -> tuple[Facts, list[Judgement]]:
    facts = sample_facts(at)
    values = thinned(Random(at), facts.values, share)
    values[SIDES] = facts.values[SIDES]  # every job has them
    facts = read_again(values, facts)
    rows = BOOK.evaluator.judgements(facts)
    return facts, [row for row in rows if row.verdict is Verdict.UNDECIDED and not row.obstacle]


def verdict_in(probe: Probe, facts: Facts, row: Judgement) -> Verdict:
    """Return the verdict of a rule, on the item of a judgement, in a completion."""
    session = BOOK.session(probe)
    rows = judge(BOOK.rules[row.rule], Facts(probe, {}, facts.names), session)  # type: ignore[arg-type]
    return next(other.verdict for other in rows if other.position == row.position)


@pytest.mark.parametrize("at", range(len(SAMPLES)), ids=[path.stem for path in SAMPLES])
@pytest.mark.parametrize("share", [0.1, 0.3])
def test_what_is_decided_early_is_so_in_other_completions(at: int, share: float) -> None:
    facts, rows = undecided(at, share)
    early = [row for row in Completions(facts, BOOK).judged(rows) if row.early]
    probes = [Probe(facts.values, BOOK.possible, number) for number in PROBES]
    for row in early:
        for probe in probes:
            assert verdict_in(probe, facts, row) in (row.verdict, Verdict.UNDECIDED), row


def is_plain(group: str, facts: Facts) -> bool:
    """Say whether a group is surely there, and no list."""
    is_there = facts.values.get(group) is True or BOOK.possible.presence(group) is True
    return is_there and not isinstance(entry_at(group), Items)


@pytest.mark.parametrize("at", range(len(SAMPLES)), ids=[path.stem for path in SAMPLES])
@pytest.mark.parametrize("share", [0.1, 0.3])
def test_what_is_decided_early_stays_so_when_all_is_learnt(at: int, share: float) -> None:
    facts, rows = undecided(at, share)
    whole = sample_facts(at)
    later = {(row.rule, row.position): row for row in BOOK.evaluator.judgements(whole)}
    granted = frozenset(BOOK.taken_for_granted)
    for row in Completions(facts, BOOK).judged(rows):
        reads = facts_read(BOOK.rules[row.rule], BOOK.quantities)
        # What stands in for a fact does so until it is known, and the finding says so.
        if row.early and reads.isdisjoint(granted):
            learnt = later[row.rule, row.position]
            assert learnt.verdict in (row.verdict, Verdict.UNDECIDED), (row, learnt)


@pytest.mark.parametrize("at", range(len(SAMPLES)), ids=[path.stem for path in SAMPLES])
def test_what_is_decided_early_says_what_changes_nothing(at: int) -> None:
    job = Job.from_file(SAMPLES[at])
    for share in (0.1, 0.3, 0.6):
        facts, rows = undecided(at, share)
        completions = Completions(facts, BOOK)
        builder = FindingBuilder(facts, BOOK, "", job, completions)
        for row in completions.judged(rows):
            finding = builder.build(row)
            assert bool(finding.whatever) is row.early
            if row.verdict in (Verdict.MET, Verdict.BREACHED):
                assert finding.statement.startswith("Whatever is still to be known (")
                assert all(label in finding.statement for label in finding.whatever)
                assert "inf" not in finding.statement.split()
            assert not any("inf " in working.result for working in finding.workings)


def options_of(row: Judgement, facts: Facts) -> dict[str, Any] | None:
    """Return what each unknown fact of a rule can be; None where one is not one of a few."""
    rule = BOOK.rules[row.rule]
    if rule.each is not None:
        return None
    options: dict[str, Any] = {}
    for path in facts_read(rule, BOOK.quantities):
        if path in facts.values:
            continue
        if any(not is_plain(group, facts) for group in outer_paths(path)):
            return None
        options[path] = BOOK.possible.options(path)
        if not options[path]:
            return None
    return options


def completions_of(options: dict[str, Any], facts: Facts) -> list[Facts]:
    choices = product(*options.values())
    return [
        changed(
            facts, [Change(path, value, "") for path, value in zip(options, choice, strict=True)]
        )
        for choice in islice(choices, 65)
    ]


def test_what_is_one_of_a_few_is_decided_wherever_all_completions_agree() -> None:
    count = Counter[bool]()
    for at in range(len(SAMPLES)):
        for share in (0.1, 0.3, 0.6):
            facts, rows = undecided(at, share)
            completions = Completions(facts, BOOK)
            for row in rows:
                options = options_of(row, facts)
                jobs = completions_of(options, facts) if options else []
                if not 0 < len(jobs) <= 64:
                    continue
                verdicts = {
                    next(iter(judge(BOOK.rules[row.rule], job, BOOK.session(job.values)))).verdict
                    for job in jobs
                }
                alike = verdicts.pop() if len(verdicts) == 1 else None
                expected = None if alike is Verdict.UNDECIDED else alike
                assert completions.verdict(row) is expected, (row, options)
                count[expected is not None] += 1
    assert count[False] > 20, count


def test_the_fuse_is_too_small_whatever_the_heaters_take() -> None:
    job = Job.from_data(
        {
            "job.stage": "survey",
            "electricity": {"phases": 1, "existing_demand": "38 A", "service_fuse": "60 A"},
            "unit.electricity": {"phases": 1, "highest_current": "29.5 A"},
        }
    )
    (finding,) = [
        finding
        for finding in assess(job, BOOK).findings
        if finding.rule == "supply-capacity/service-fuse"
    ]
    assert finding.verdict is Verdict.BREACHED
    assert "at least 67.5 A" in finding.statement
    assert "60 A" in finding.statement
    assert {"backup heater", "booster heater", "immersion heater"} <= set(finding.whatever)
    assert finding.open == ()
    results = {working.name: working.result for working in finding.workings}
    assert results["greatest_demand"] == "at least 67.5 A"


def test_a_figure_that_may_still_fit_stays_open() -> None:
    data = {
        "electricity": {"phases": 1, "existing_demand": "30 A", "service_fuse": "60 A"},
        "unit.electricity": {"phases": 1, "highest_current": "29.5 A"},
    }
    (finding,) = [
        finding
        for finding in assess(Job.from_data(data), BOOK).findings
        if finding.rule == "supply-capacity/service-fuse"
    ]
    assert finding.verdict is Verdict.UNDECIDED


@pytest.mark.parametrize(
    ("requires", "verdict"),
    [
        ("site.drifting or not site.drifting", Verdict.MET),
        ("site.drifting and not site.drifting", Verdict.BREACHED),
        ("site.exposure == site.exposure", Verdict.MET),
        ("site.snow_depth == site.snow_depth", Verdict.UNDECIDED),
        ("site.drifting", Verdict.UNDECIDED),
        ("if site.drifting then site.snow_depth >= 0 m else site.snow_depth > -1 m", Verdict.MET),
        (
            "placement.on in ['ground', 'wall'] or placement.on not in ['ground', 'wall']",
            Verdict.MET,
        ),
        ("present(placement.feet) or not present(placement.feet)", Verdict.MET),
        ("not present(placement.feet) or placement.feet.count >= 0", Verdict.MET),
        ("placement.feet.count >= 0", Verdict.UNDECIDED),
    ],
)
def test_what_every_completion_makes_true_or_false_is_decided(
    tmp_path: Path, requires: str, verdict: Verdict
) -> None:
    (finding,) = assess(Job.from_data({"site.altitude": "1 m"}), book(tmp_path, requires)).findings
    assert finding.verdict is verdict
