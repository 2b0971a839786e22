"""A portfolio is judged by calling the library, with plain arguments."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from findings.judged_job import FACTS
from tundish import Job, Refused, Rulebook
from tundish.portfolio.portfolio import judge_table, open_table
from tundish.portfolio.summary import JudgedPart
from tundish.text.new_file import AlreadyThereError

HOMES = "job,placement.height_below [mm]\nLow,100\nHigh,900\nUnknown,\n"


@pytest.fixture(name="table")
def a_table(tmp_path: Path) -> Path:
    path = tmp_path / "homes.csv"
    path.write_text(HOMES)
    return path


def test_a_table_is_judged_and_its_verdicts_written(tmp_path: Path, table: Path) -> None:
    rulebook = Rulebook.built_in()
    base = rulebook.facts(Job.from_data(FACTS))
    parts: list[JudgedPart] = []
    to = tmp_path / "verdicts.jsonl"
    summary = judge_table(open_table(table, base, rulebook, workers=1), to, parts.append)
    assert summary.jobs == sum(part.rows for part in parts) == 3
    verdicts = [json.loads(line) for line in to.read_text().splitlines()]
    assert [job["job"] for job in verdicts] == ["Low", "High", "Unknown"]
    breached = [name for job in verdicts for name in job["breached"]]
    assert {name: breached.count(name) for name in breached} == summary.breaches


def test_verdicts_are_not_written_over(tmp_path: Path, table: Path) -> None:
    rulebook = Rulebook.built_in()
    base = rulebook.facts(Job.from_data(FACTS))
    with pytest.raises(AlreadyThereError):
        judge_table(open_table(table, base, rulebook, workers=1), table)
    assert table.read_text() == HOMES


def test_a_table_that_cannot_be_read_is_refused(tmp_path: Path) -> None:
    rulebook = Rulebook.built_in()
    with pytest.raises(Refused, match="cannot be read"):
        open_table(tmp_path / "none.csv", rulebook.facts(Job.from_data(FACTS)), rulebook)
