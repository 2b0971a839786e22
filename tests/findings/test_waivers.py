"""A waiver sets a breach aside while it holds, and says who answers for it."""

import datetime
from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import FACTS, book, rule
from rulebook.packs import load
from tundish import Job, Refused, Verdict, assess

BREACH, OPEN, MET = "site.snow_depth > 1 m", "site.altitude > 1 m", "site.snow_depth < 1 m"


def waiver(**keys: Any) -> dict[str, Any]:
    held = {
        "rule": "snow/base",
        "reason": "it never snows",
        "by": "designer",
        "until": "2027-01-01",
    }
    facts = {**held, **keys}
    return {**FACTS, "waiver": [{k: _day(v) for k, v in facts.items() if v is not None}]}


def _day(value: str) -> Any:
    return datetime.date.fromisoformat(value) if value[:2] == "20" else value


def test_a_waived_breach_is_told_after_what_is_open_with_who_answers(tmp_path: Path) -> None:
    files = {"snow/base.toml": rule(BREACH), "snow/open.toml": rule(OPEN)}
    assessment = assess(Job.from_data(waiver()), load(tmp_path, files))
    assert [each.verdict for each in assessment.findings] == [Verdict.UNDECIDED, Verdict.WAIVED]
    for part in ("designer", "2027-01-01", "it never snows"):
        assert part in assessment.findings[1].waiver
    assert assessment.worst() is None


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"until": "2026-11-01"}, "ended on 2026-11-01"),
        ({"since": "2026-11-03"}, "begins on 2026-11-03"),
        ({"reason": None}, "lacks a reason."),
        ({"by": None}, "lacks the role of who answers for it."),
        ({"until": None, "reason": None}, "lacks a reason and a day on which it ends."),
    ],
)
def test_a_waiver_that_does_not_hold_sets_nothing_aside(
    tmp_path: Path, keys: dict[str, str | None], said: str
) -> None:
    (found,) = assess(Job.from_data(waiver(**keys)), book(tmp_path, BREACH)).findings
    assert found.verdict is Verdict.BREACHED and said in found.waiver


def test_a_danger_is_set_aside_by_a_named_competent_person_alone(tmp_path: Path) -> None:
    danger = book(tmp_path, BREACH, severity='"danger"')
    (nobody,) = assess(Job.from_data(waiver()), danger).findings
    assert nobody.verdict is Verdict.BREACHED
    assert "name of a competent person" in nobody.waiver
    (named,) = assess(Job.from_data(waiver(person="N. N., structural engineer")), danger).findings
    assert named.verdict is Verdict.WAIVED
    assert "N. N., structural engineer" in named.waiver


@pytest.mark.parametrize("keys", [{"until": "2026-11-02"}, {"since": "2026-11-02"}])
def test_a_waiver_holds_on_its_first_and_its_last_day(tmp_path: Path, keys: dict[str, str]) -> None:
    (found,) = assess(Job.from_data(waiver(**keys)), book(tmp_path, BREACH)).findings
    assert found.verdict is Verdict.WAIVED


def test_what_is_met_cannot_be_waived(tmp_path: Path) -> None:
    (found,) = assess(Job.from_data(waiver()), book(tmp_path, MET)).findings
    assert found.verdict is Verdict.MET and not found.waiver


def test_a_waiver_may_be_for_one_item_alone(tmp_path: Path) -> None:
    rulebook = book(tmp_path, "run.length < 1 m", each='"water.run as run"')
    assessment = assess(Job.from_data(waiver(item="flow")), rulebook)
    assert {each.item: each.verdict for each in assessment.findings} == {
        "flow": Verdict.WAIVED,
        "run 2": Verdict.BREACHED,
    }


def test_a_waiver_of_no_rule_is_refused_with_the_nearest(tmp_path: Path) -> None:
    with pytest.raises(Refused, match=r"'snow/bass'\. Did you mean 'snow/base'\?"):
        assess(Job.from_data(waiver(rule="snow/bass")), book(tmp_path, BREACH))


def test_a_waiver_of_no_rule_is_told_at_its_place(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(
        '[[waiver]]\nrule = "snow/bass"\nreason = "x"\nby = "designer"\nuntil = 2027-01-01\n'
    )
    with pytest.raises(Refused) as caught:
        assess(Job.from_file(path), book(tmp_path / "rules", BREACH))
    (problem,) = caught.value.problems
    assert (problem.file, problem.line) == (str(path), 2)


def test_a_waiver_by_a_former_name_stays_with_the_item_that_the_name_meant() -> None:
    side = {"unit.clearance": {"left": "300 mm", "right": "300 mm"}}
    here = {"placement.clearance": {"left": "200 mm", "right": "200 mm"}}
    job = Job.from_data({**waiver(rule="clearances/left"), **side, **here})
    verdicts = {
        finding.item: finding.verdict
        for finding in assess(job).findings
        if finding.rule == "clearances/sides"
    }
    assert verdicts["left"] is Verdict.WAIVED
    assert verdicts["right"] is Verdict.BREACHED
