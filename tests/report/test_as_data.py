"""Assessments as JSON."""

import dataclasses
import json

import pytest

from report.made import assessment, everything, finding
from tundish.findings.finding import NOT_DATA, Finding, Margin
from tundish.results.as_data import FORM, as_data, as_json, several_as_data
from tundish.text.problem import Problem


def test_what_is_written_is_read_back_the_same() -> None:
    data = as_data(everything())
    assert json.loads(as_json(data)) == data


def test_a_finding_has_all_fields_under_their_own_names() -> None:
    data = as_data(everything())["findings"][0]
    names = [field.name for field in dataclasses.fields(Finding) if field.metadata != NOT_DATA]
    assert list(data) == names


def test_the_form_stands_first() -> None:
    data = as_data(everything())
    assert next(iter(data.items())) == ("form", FORM)


def test_values_are_text_as_they_are_shown() -> None:
    data = as_data(assessment(finding()))
    only = data["findings"][0]
    assert only["margin"] == {
        "amount": "3.8 L",
        "share": -0.19,
        "value": "16.2 L",
        "limit": "20 L",
    }
    assert only["verdict"] == "breached"
    assert only["workings"][0]["result"] == "16.2 L"
    assert only["workings"][0]["sources"][0]["source"]["title"] == "Invented standard 1"
    assert only["from_memory"] is True
    assert data["date"] == "2026-11-02"


def test_counts_agree_with_the_findings() -> None:
    data = as_data(everything())
    assert data["counts"]["breached"] == 3
    assert data["counts"]["not applicable"] == 1
    assert data["counts"]["breached by severity"]["danger"] == 1


def test_the_same_assessment_gives_the_same_text() -> None:
    assert as_json(as_data(everything())) == as_json(as_data(everything()))


@pytest.mark.parametrize("share", [float("inf"), float("nan"), None])
def test_a_share_that_is_no_number_is_null(share: float | None) -> None:
    data = as_data(assessment(finding(margin=Margin("1 L", share, "1 L", "0 L"))))
    assert json.loads(as_json(data))["findings"][0]["margin"]["share"] is None


def test_json_is_ascii_whatever_the_job_holds() -> None:
    evil = "caf\u00e9 \x9b2J \u202e \ud800 \U0001f525"
    data = as_data(assessment(job=evil))
    assert as_json(data).isascii()
    assert as_json(data).isprintable() is False  # line breaks, and nothing else
    assert as_json(data).replace("\n", "").isprintable()
    assert json.loads(as_json(data))["job"] == evil


def test_several_assessments_stand_beside_what_was_refused() -> None:
    problem = Problem("b.toml", 2, None, "This is not TOML.")
    data = several_as_data([everything()], [problem])
    assert data["form"] == FORM
    assert len(data["assessments"]) == 1
    assert data["problems"] == [
        {
            "file": "b.toml",
            "line": 2,
            "column": None,
            "sentence": "This is not TOML.",
            "key": "",
        }
    ]
