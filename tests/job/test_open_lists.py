"""A list that is still being written says nothing of what it does not hold yet."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from tundish import Job, Refused, Rulebook, Verdict, assess
from tundish.groundwork.open_list import OpenList
from tundish.job.model.schema import Items, Record
from tundish.job.parts.heading import GrowingList, Heading
from tundish.job.schema import job_schema

VALVE = {"water.fittings": [{"kind": "isolation valve", "on": "return"}]}
MISSED = ("filters-and-valves/drain-at-lowest-point", "filters-and-valves/air-separator")


def lists(record: Record) -> set[str]:
    """Return the paths of all lists of items in a record."""
    paths = set[str]()
    for entry in record.fields.values():
        inner = entry.item if isinstance(entry, Items) else entry
        paths |= {entry.path} if isinstance(entry, Items) else set()
        paths |= lists(inner) if isinstance(inner, Record) else set()
    return paths


def test_every_list_of_a_job_can_be_open_but_those_that_are_copied_whole() -> None:
    copied = {"unit.rating", "unit.water.pump_head", "unit.placing.protective_zone"}
    of_the_file = {"order", "tolerance", "waiver"}
    assert {*get_args(GrowingList)} - {"all"} == lists(job_schema()) - copied - of_the_file


@pytest.mark.parametrize(
    ("heading", "is_open"),
    [
        ({}, False),
        ({"stage": "enquiry"}, True),
        ({"stage": "survey"}, True),
        ({"stage": "design"}, False),
        ({"stage": "commissioning"}, False),
        ({"stage": "survey", "complete_lists": ["water.fittings"]}, False),
        ({"stage": "survey", "complete_lists": ["water.run"]}, True),
        ({"stage": "survey", "complete_lists": ["all"]}, False),
        ({"stage": "survey", "complete_lists": ["all"], "open_lists": ["water.fittings"]}, True),
        ({"stage": "design", "open_lists": ["water.fittings"]}, True),
        ({"stage": "design", "open_lists": ["all"], "complete_lists": ["water.fittings"]}, False),
        ({"open_lists": ["all"]}, True),
    ],
)
def test_the_stage_and_the_heading_say_whether_a_list_is_complete(
    heading: dict[str, Any], is_open: bool
) -> None:
    facts = Job.from_data({"job": heading, **VALVE}).facts
    assert isinstance(facts.values["water.fittings"], OpenList) is is_open
    assert Heading(**heading).leaves_open("unit.rating") is False


def test_an_empty_list_says_that_there_are_none_at_any_stage() -> None:
    facts = Job.from_data({"job.stage": "survey", "water.fittings": []}).facts
    assert not isinstance(facts.values["water.fittings"], OpenList)


def test_a_list_is_not_both_complete_and_open() -> None:
    with pytest.raises(Refused, match=r"'water\.run' cannot be both complete and open"):
        Heading(complete_lists=["water.run"], open_lists=["water.run"])
    with pytest.raises(Refused, match=r"Did you mean 'water\.fittings'"):
        Heading(complete_lists=["water.fitting"])


def test_one_valve_written_at_the_survey_misses_no_other_yet() -> None:
    def verdicts(heading: dict[str, Any]) -> dict[str, tuple[Verdict, str]]:
        assessment = assess(Job.from_data({"job": heading, **VALVE}), Rulebook.built_in())
        return {one.rule: (one.verdict, one.statement) for one in assessment.findings}

    at_survey, at_design = verdicts({"stage": "survey"}), verdicts({"stage": "design"})
    for rule in MISSED:
        verdict, statement = at_survey[rule]
        assert verdict is Verdict.UNDECIDED
        assert "whether more fittings are to be listed" in statement
        assert "name water.fittings in job.complete_lists" in statement
        assert at_design[rule][0] is Verdict.BREACHED
    complete = verdicts({"stage": "survey", "complete_lists": ["water.fittings"]})
    assert all(complete[rule][0] is Verdict.BREACHED for rule in MISSED)


def test_one_circuit_written_at_the_survey_does_not_leave_the_heater_without() -> None:
    data = {
        "unit.electricity.backup_heater": {"power": "3 kW", "fitted": True},
        "electricity.circuit": [{"serves": ["outdoor unit"]}],
    }
    for stage, expected in (("survey", Verdict.UNDECIDED), ("design", Verdict.BREACHED)):
        assessment = assess(Job.from_data({"job.stage": stage, **data}), Rulebook.built_in())
        (verdict,) = [
            finding.verdict
            for finding in assessment.findings
            if finding.rule == "supply-circuits/backup-heater-circuit"
        ]
        assert verdict is expected
