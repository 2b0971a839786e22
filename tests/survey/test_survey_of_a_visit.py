"""A survey by the built-in rules asks what one visit must bring home, and groups by their facts."""

from typing import Any

import pytest

from tundish import Job, Rulebook, assess
from tundish.findings.finding import SEVERITIES
from tundish.survey.survey import Inquiry, inquiries

BOOK = Rulebook.built_in()
RUNS = {"water.run": [{"name": "a"}, {"name": "b"}]}


def survey(stage: str, **facts: Any) -> dict[str, Inquiry]:
    job = Job.from_data({"job.stage": stage, "job.region": "GB", **facts})
    return {inquiry.asked.path: inquiry for inquiry in inquiries(assess(job, BOOK), BOOK)}


@pytest.mark.parametrize("stage", ["enquiry", "survey", "design", "order", "installation"])
def test_an_empty_job_is_asked_about_at_every_stage(stage: str) -> None:
    assert len(survey(stage)) > 10


@pytest.mark.parametrize(
    "path",
    [
        "placement.clearance.front",
        "electricity.service_fuse",
        "electricity.earthing",
        "site.snow_depth",
        "water.emitter",
    ],
)
def test_a_survey_asks_what_is_due_at_design_only(path: str) -> None:
    inquiry = survey("survey")[path]
    assert any(finding.stage != "survey" for finding in inquiry.findings)


def test_an_enquiry_asks_nothing_that_takes_a_visit() -> None:
    asked = survey("enquiry")
    assert "electricity.service_fuse" in asked
    assert "electricity.earthing" not in asked
    assert "placement.clearance.front" not in asked


def test_a_list_is_asked_for_by_the_facts_of_one_item() -> None:
    inside = [entry.path for entry in survey("survey")["water.run"].inside]
    assert inside == [f"water.run.{key}" for key in ("name", "pipe", "length", "place")]


def test_a_group_is_asked_for_by_its_few_facts() -> None:
    inside = survey("survey")["hot_water.cylinder"].inside
    assert 1 <= len(inside) <= 6
    assert all(entry.path.startswith("hot_water.cylinder.") for entry in inside)


def test_a_fact_has_no_questions_in_it() -> None:
    assert survey("survey")["site.snow_depth"].inside == ()


def test_a_list_known_to_be_empty_is_not_asked_for() -> None:
    assert "water.emitter" not in survey("survey", **{"water.emitter": []})


@pytest.mark.parametrize("stage", ["survey", "design", "commissioning"])
def test_the_most_serious_is_asked_first_and_then_what_decides_something_alone(stage: str) -> None:
    asked = list(survey(stage, **RUNS).values())
    ranks = [(SEVERITIES.index(one.severity), one.alone == 0) for one in asked]
    assert ranks == sorted(ranks)


def test_items_alike_are_one_question() -> None:
    place = survey("design", **RUNS)["water.run[1].place"]
    assert place.places == ("water.run[1].place", "water.run[2].place")
    assert {fact.path for fact in place.facts} == set(place.places)


def test_a_pipe_is_asked_for_once_and_not_its_measures() -> None:
    asked = survey("design", **RUNS)
    pipe = asked["water.run[1].pipe"]
    assert pipe.places == ("water.run[1].pipe", "water.run[2].pipe")
    assert {fact.path for fact in pipe.facts} > {"water.run[1].pipe.wall"}
    assert not any(".pipe." in path for path in asked)
    assert pipe.asked.question == "What pipe is it?"
    assert pipe.through and not pipe.directly  # a figure is worked out from it first


def test_it_is_told_whether_a_figure_stands_between() -> None:
    snow = survey("design")["site.snow_depth"]
    assert "clearances/above-snow" in {one.rule for one in snow.through}
    height = survey("design")["placement.height_below"]
    assert "clearances/above-snow" in {one.rule for one in height.directly}


def test_what_can_wait_is_asked_for_on_request_alone() -> None:
    assessment = assess(Job.from_data({"job.stage": "design", "job.region": "GB"}), BOOK)
    now, later = inquiries(assessment, BOOK), inquiries(assessment, BOOK, later=True)
    paths = {fact.path for inquiry in now for fact in inquiry.facts}
    assert paths < {fact.path for inquiry in later for fact in inquiry.facts}
    assert not any(path.startswith("readings.") for path in paths)
