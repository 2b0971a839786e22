"""Columns of a table of jobs: headings with and without units, and what their cells say."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from tundish import Refused
from tundish.job.table_columns import read_table_columns
from tundish.text.bounds import MOST_PROBLEMS


def said(heading: str, cell: Any) -> dict[str, Any]:
    (column,) = read_table_columns([heading])
    return column.read(cell)


@pytest.mark.parametrize(
    ("heading", "cell", "value"),
    [
        ("site.snow_depth", "12 cm", 0.12),
        ("site.snow_depth [cm]", "12", 0.12),
        ("site.snow_depth [cm]", "12,5", 0.125),
        ("site.snow_depth [cm]", 12, 0.12),
        ("site.snow_depth [cm]", 12.5, 0.125),
        ("site.design_air_temperature [degC]", -5, 268.15),
        ("unit.sound_power.day [dB]", 60, 60.0),
        ("placement.anchored", "YES", True),
        ("placement.anchored", False, False),
        ("placement.feet.count", "4", 4.0),
        ("placement.feet.count", 4.0, 4.0),
        ("job.date", datetime.date(2026, 11, 2), float(datetime.date(2026, 11, 2).toordinal())),
        ("job.date", "2026-11-02", float(datetime.date(2026, 11, 2).toordinal())),
        ("water.treatment", "inhibitor; biocide", ("inhibitor", "biocide")),
        ("water.treatment", ["inhibitor"], ("inhibitor",)),
        ("water.treatment", "none", ()),
    ],
)
def test_a_cell_says_what_a_job_file_would(heading: str, cell: Any, value: Any) -> None:
    (found,) = said(heading, cell).values()
    assert found == value


@pytest.mark.parametrize("cell", [None, "", float("nan")])
def test_an_empty_cell_says_nothing(cell: Any) -> None:
    assert said("site.snow_depth", cell) == {}


def test_a_pipe_says_several_things_at_once() -> None:
    found = said("water.bypass.pipe", "copper 28 x 0.9")
    assert found["water.bypass.pipe"] is True
    assert found["water.bypass.pipe.material"] == "copper"
    assert found["water.bypass.pipe.wall"] == 0.0009


@pytest.mark.parametrize(
    ("heading", "cell", "sentence"),
    [
        ("site.snow_depth", 3, "has no unit"),
        ("site.snow_depth [mm]", "3 mm", "the heading gives the unit, mm"),
        ("site.snow_depth [mm]", True, "Write a number of mm"),
        ("site.snow_depth [mm]", -0.1, "'-0.1 mm' cannot be"),
        ("site.snow_depth [mm]", float("inf"), "no number"),
        ("placement.feet.count", 4.5, "whole number"),
        ("placement.anchored", 1, "true or false"),
    ],
)
def test_a_wrong_cell_says_what_would_be_right(heading: str, cell: Any, sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence.replace("(", r"\(")):
        said(heading, cell)


def test_all_wrong_headings_are_told_at_once() -> None:
    wrong = ["site.snow_depht", "water.run.length", "water.bypass.pipe", "water.bypass.pipe.name"]
    with pytest.raises(Refused) as caught:
        read_table_columns(wrong, "homes.csv")
    sentences = [problem.sentence for problem in caught.value.problems]
    assert len(sentences) == 3
    assert any("Did you mean 'site.snow_depth'?" in sentence for sentence in sentences)


def test_wrong_headings_past_the_bound_are_not_looked_at() -> None:
    with pytest.raises(Refused) as caught:
        read_table_columns(map("site.snow_depht_{}".format, range(1_000)), "homes.csv")
    assert len(caught.value.problems) == MOST_PROBLEMS + 1
    assert "what comes after was not looked at" in caught.value.problems[0].sentence


def test_a_part_of_a_pipe_cannot_stand_beside_it() -> None:
    with pytest.raises(Refused, match="no fact outside a list"):
        read_table_columns(["water.bypass.pipe.wall"])
