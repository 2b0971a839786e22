"""Parts of a table given to workers come back in order, whole, and alike wherever they went."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import FACTS
from portfolio.test_by_rows import COLUMNS, FILES, row
from rulebook.packs import load
from tundish import Job
from tundish.job.table_columns import read_table_columns
from tundish.portfolio.parallel import (
    Recipe,
    in_order,
    judged,
    on_cluster,
    on_this_machine,
    portfolio_of,
)
from tundish.portfolio.summary import JudgedPart, Summary
from tundish.rulebook.rulebook import Rulebook
from tundish.text.columns import RowsByColumn

ROWS = 5


def parts(number: int) -> Iterator[RowsByColumn]:
    """Give parts of a table, in each of which another number of homes stands too low."""
    for at in range(number):
        rows = [row(height="100 mm" if one <= at % ROWS else "130 mm") for one in range(ROWS)]
        cells = {column: [one[column] for one in rows] for column in COLUMNS}
        yield RowsByColumn(1 + at * ROWS, ROWS, cells)


@pytest.fixture(name="recipe")
def a_recipe(tmp_path: Path) -> Recipe:
    book = load(tmp_path, FILES)
    base = book.facts(Job.from_data(FACTS))
    own = Rulebook.load()  # what workers read: the built-in rules, with no pack on top
    return Recipe(base, tuple(read_table_columns(COLUMNS)), (), own.digest, "lines")


def told(found: Iterator[JudgedPart]) -> list[tuple[int, int, bytes]]:
    return [(one.first, one.rows, one.output) for one in found]


def test_two_processes_find_what_one_finds_in_its_order(recipe: Recipe) -> None:
    one, two = (told(on_this_machine(recipe, parts(9), number)) for number in (1, 2))
    assert one == two
    assert [first for first, _, _ in one] == [1 + ROWS * at for at in range(9)]


def test_no_more_parts_are_under_way_than_may_be() -> None:
    under_way, most = 0, 0

    class Later:
        def __init__(self, part: RowsByColumn) -> None:
            self.part = part

        def result(self) -> JudgedPart:
            nonlocal under_way
            under_way -= 1
            return JudgedPart(self.part.first, self.part.rows, {}, Summary(), None)

    def submit(part: RowsByColumn) -> Later:
        nonlocal under_way, most
        under_way += 1
        most = max(most, under_way)
        return Later(part)

    assert len(list(in_order(submit, parts(20), 4))) == 20
    assert (under_way, most) == (0, 4)


def test_a_worker_with_other_rules_refuses(recipe: Recipe) -> None:
    other = Recipe(recipe.base, recipe.columns, (), "another digest")
    with pytest.raises(ValueError, match="other rules"):
        portfolio_of(other)


def slowly(recipe: Recipe, part: RowsByColumn) -> JudgedPart:
    time.sleep(0.05)
    return judged(recipe, part)


def test_a_worker_that_dies_on_a_cluster_loses_and_doubles_nothing(
    recipe: Recipe, monkeypatch: pytest.MonkeyPatch
) -> None:
    distributed: Any = pytest.importorskip("distributed")
    monkeypatch.setattr("tundish.portfolio.parallel.judged", slowly)
    # The workers load this file by its name from the top of the tree.
    monkeypatch.syspath_prepend(str(Path(__file__).parents[2]))
    number = 40
    cluster = distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, dashboard_address=None, silence_logs=50
    )
    with cluster, distributed.Client(cluster, timeout="20s") as client:
        processes = sorted(client.run(os.getpid).values())
        assert len(set(processes)) == 2
        found = []
        for one in on_cluster(recipe, parts(number), client):
            found.append(one)
            if len(found) == 5:
                os.kill(processes[0], signal.SIGKILL)
    monkeypatch.undo()
    assert told(iter(found)) == told(on_this_machine(recipe, parts(number), 1))
