"""Which change of one fact helps most homes, told of homes where that can be reckoned by hand."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import FACTS, rule
from rulebook.packs import load
from tundish import Job
from tundish.job.table_columns import read_table_columns
from tundish.portfolio.by_columns import ColumnPortfolio
from tundish.portfolio.remedies import EvenSample, remedies
from tundish.portfolio.summary import Helps, Remedies
from tundish.text.columns import RowsByColumn

HEIGHT, SNOW, ANCHORED = "placement.height_below", "site.snow_depth", "placement.anchored"
FILES = {
    "snow/high.toml": rule(f"{HEIGHT} >= {SNOW}", adjust=f'"{HEIGHT}"'),
    "snow/low.toml": rule(f"{HEIGHT} <= 500 mm", adjust=f'"{HEIGHT}"'),
    "snow/held.toml": rule(ANCHORED, adjust=f'"{ANCHORED}"'),
}


def tried(folder: Path, rows: list[tuple[str, str, str]], files: Any = None) -> Remedies | None:
    book = load(folder, files or FILES)
    columns = read_table_columns([HEIGHT, SNOW, ANCHORED])
    portfolio = ColumnPortfolio(book.facts(Job.from_data(FACTS)), columns, book)
    cells = zip(*rows, strict=True) if rows else ([], [], [])
    table = {one.written: list(each) for one, each in zip(columns, cells, strict=True)}
    return remedies(portfolio, RowsByColumn(1, len(rows), table))


def test_each_fact_is_counted_where_it_could_clear_a_breach_and_where_it_clears_all(
    tmp_path: Path,
) -> None:
    found = tried(
        tmp_path,
        [
            ("100 mm", "300 mm", "yes"),  # higher: all clear
            ("100 mm", "300 mm", "no"),  # higher, or anchored: the other stays breached
            ("400 mm", "300 mm", "no"),  # anchored: all clear
            ("400 mm", "300 mm", "yes"),  # nothing is breached
            ("100 mm", "600 mm", "yes"),  # higher than the snow is too high: one for the other
            ("", "300 mm", "no"),  # anchored: nothing breached is left, though one is undecided
        ],
    )
    assert found is not None
    assert (found.jobs, found.breaching) == (6, 5)
    assert found.helps == (Helps(ANCHORED, 3, 2), Helps(HEIGHT, 3, 1))


def test_a_change_that_is_let_but_clears_nothing_is_not_told(tmp_path: Path) -> None:
    files = {"snow/high.toml": rule(f"{SNOW} <= 0.1 m", adjust=f'"{ANCHORED}"')}
    found = tried(tmp_path, [("1 m", "300 mm", "no")], files)
    assert found == Remedies(1, 1, ())


def test_a_group_that_is_absent_comes_with_the_fact_in_it(tmp_path: Path) -> None:
    volume = "water.volume_vessel.volume"
    files = {"snow/high.toml": rule("present(water.volume_vessel)", adjust=f'"{volume}"')}
    book = load(tmp_path, files)
    base = book.facts(Job.from_data({**FACTS, "water.volume_vessel": "none"}))
    portfolio = ColumnPortfolio(base, [], book)
    assert remedies(portfolio, RowsByColumn(1, 2, {})) == Remedies(2, 2, (Helps(volume, 2, 2),))


def test_without_a_home_nothing_is_told(tmp_path: Path) -> None:
    assert tried(tmp_path, []) is None


@pytest.mark.parametrize("rows", [0, 1, 7, 8, 9, 100, 1000])
def test_a_sample_is_even_and_no_larger_than_asked_for(rows: int) -> None:
    sample = EvenSample(8)
    whole = [RowsByColumn(at + 1, min(13, rows - at), {"n": list(range(at, min(at + 13, rows)))})
             for at in range(0, rows, 13)]  # fmt: skip
    assert list(sample.taken_from(iter(whole))) == whole
    kept = sample.part()
    numbers = kept.columns.get("n", [])
    assert kept.rows == len(numbers) <= 8
    assert len(numbers) >= min(rows, 4)
    steps = {after - before for before, after in pairwise(numbers)}
    assert len(steps) <= 1
