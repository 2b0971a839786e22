"""Rows of a table merged over a base job, judged as the jobs they stand for."""

from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import FACTS, rule
from rulebook.packs import load
from tundish import Job, Verdict, assess
from tundish.job.table_columns import read_table_columns
from tundish.portfolio.by_rows import JudgedRow, RowPortfolio
from tundish.portfolio.summary import Summary
from tundish.rulebook.rulebook import Rulebook

HEIGHT = "placement.height_below"
FILES = {
    "snow/a.toml": rule(f"{HEIGHT} >= site.snow_depth", adjust=f'"{HEIGHT}"'),
    "snow/b.toml": rule("placement.anchored and placement.feet.count >= 4"),
    "snow/run.toml": rule("run.length <= 5 m", each='"water.run as run"'),
}
COLUMNS = [HEIGHT, "placement.anchored", "placement.feet.count", "placement.on"]


def row(height: str = "130 mm", anchored: str = "true", feet: str = "4", on: str = "ground") -> Any:
    return dict(zip(COLUMNS, (height, anchored, feet, on), strict=True))


def judged(folder: Path, *rows: Any) -> tuple[list[JudgedRow], Summary, Rulebook]:
    book = load(folder, FILES)
    facts = book.facts(Job.from_data(FACTS))
    found, summary = RowPortfolio(facts, read_table_columns(COLUMNS), book).judged(rows)
    return found, summary, book


@pytest.mark.parametrize(
    "cells",
    [
        row(),
        row(height="100 mm"),
        row(height=""),
        row(anchored="no"),
        row(anchored="", feet="3"),
        row(feet="", on=""),
    ],
)
def test_a_row_is_judged_as_the_job_it_stands_for(tmp_path: Path, cells: Any) -> None:
    (one,), _, book = judged(tmp_path, cells)
    facts: dict[str, Any] = {key: value for key, value in FACTS.items() if key not in cells}
    written = {"true": True, "no": False, "4": 4, "3": 3}
    facts |= {key: written.get(cell, cell) for key, cell in cells.items() if cell}
    assessment = assess(Job.from_data(facts), book)
    breached = {each.rule for each in assessment.of(Verdict.BREACHED)}
    undecided = {each.rule for each in assessment.of(Verdict.UNDECIDED)} - breached
    assert (set(one.breached), set(one.undecided)) == (breached, undecided)


def test_the_summary_adds_up(tmp_path: Path) -> None:
    rows = [row(), row(height="100 mm"), row(height=""), row(height="wide")]
    found, summary, _ = judged(tmp_path, *rows)
    assert [one.name for one in found] == ["row 1", "row 2", "row 3", "row 4"]
    assert "wide" in found[3].problem
    assert (summary.jobs, summary.refused, summary.clean) == (4, 1, 0)
    assert summary.breaches == {"snow/run": 3, "snow/a": 1}
    assert summary.unknown == {HEIGHT: 1}
    assert summary.adjustable == {HEIGHT: 1}


def test_rows_are_called_as_they_say(tmp_path: Path) -> None:
    found, _, _ = judged(tmp_path, {"job": "Home 7", **row()})
    assert [one.name for one in found] == ["Home 7"]
