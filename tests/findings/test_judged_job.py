"""A judged job is rows; what explains a row is worked out when it is asked for, and once."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from pathlib import Path

import pytest

from findings.judged_job import FACTS, book
from rulebook.packs import QUANTITY, RULE, load
from tundish import Job, Verdict, assess
from tundish.findings.judged_job import JudgedJob

BREACH = "site.snow_depth > 1 m"


def test_a_row_is_explained_when_asked_and_once(tmp_path: Path) -> None:
    judged = JudgedJob(Job.from_data(FACTS), book(tmp_path, BREACH))
    (row,) = judged.judgements
    assert (row.rule, row.item, row.verdict) == ("snow/base", "", Verdict.BREACHED)
    assert not judged.explained
    finding = judged.explain(row)
    assert judged.explained == {row: finding} and judged.explain(row) is finding
    assert assess(Job.from_data(FACTS), judged.rulebook).findings == (finding,)


def test_only_the_verdicts_asked_for_are_explained(tmp_path: Path) -> None:
    rulebook = book(tmp_path, BREACH)
    some = assess(Job.from_data(FACTS), rulebook, verdicts=(Verdict.MET,))
    assert some.findings == () == some.of(Verdict.MET)
    assert some.count(Verdict.BREACHED) == 1
    with pytest.raises(LookupError, match="breached was not explained"):
        some.of(Verdict.BREACHED)


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
