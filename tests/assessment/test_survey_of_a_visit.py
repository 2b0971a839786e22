"""A survey by the built-in rules asks what one visit must bring home, and groups by their facts."""

from typing import Any

import pytest

from tundish import Job, Rulebook, assess
from tundish.assessment.survey import Inquiry, inquiries

BOOK = Rulebook.built_in()


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
