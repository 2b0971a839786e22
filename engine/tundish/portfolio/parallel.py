"""A portfolio judged by several processes, on this machine or on a cluster, in order.

Each worker makes its own portfolio from a recipe that can be sent to it, once; parts of the table
go out, and the results come back in the same order, no row lost or doubled.
"""

from __future__ import annotations

import multiprocessing
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from typing import Any, Protocol

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.table_columns import TableColumn
from tundish.portfolio.by_columns import ColumnPortfolio
from tundish.portfolio.summary import Form, JudgedPart
from tundish.portfolio.verdict_file import as_json_lines
from tundish.rulebook.rulebook import Rulebook
from tundish.text.columns import RowsByColumn

_AHEAD = 3
"""Parts a worker has waiting, so that it need not wait itself; they bound the memory used."""

_MOST_PORTFOLIOS = 4
"""Portfolios that a worker holds at a time; the oldest goes first."""


@dataclass(frozen=True, slots=True)
class Recipe:
    """What a worker needs to make its portfolio.

    Attributes:
        base: The facts of the base job.
        columns: The columns of the table, without that of the names.
        packs: Folders of rules on top of the built-in ones, as each worker can read them.
        digest: The digest of the rulebook, so that nobody judges by another.
        form: What is made of the verdicts.
    """

    base: Facts
    columns: tuple[TableColumn, ...]
    packs: tuple[str, ...]
    digest: str
    form: Form = ""


_PORTFOLIOS: dict[str, ColumnPortfolio] = {}


def portfolio_of(recipe: Recipe) -> ColumnPortfolio:
    """Return the portfolio of a recipe, made once a process.

    Raises:
        ValueError: If the rules that this worker reads are not those of the recipe.
    """
    # Of a column its heading tells all; how its kind is shown may differ from process to process.
    key = f"{recipe.digest} {[column.written for column in recipe.columns]} {recipe.base!r}"
    portfolio = _PORTFOLIOS.get(key)
    if portfolio is None:
        rulebook = Rulebook.load(*recipe.packs)
        if rulebook.digest != recipe.digest:
            raise ValueError("A worker reads other rules than were asked for; install the same.")
        while len(_PORTFOLIOS) >= _MOST_PORTFOLIOS:
            _PORTFOLIOS.pop(next(iter(_PORTFOLIOS)), None)
        portfolio = _PORTFOLIOS[key] = ColumnPortfolio(recipe.base, recipe.columns, rulebook)
    return portfolio


def judged(recipe: Recipe, part: RowsByColumn) -> JudgedPart:
    """Judge some rows: what a worker does."""
    portfolio = portfolio_of(recipe)
    jobs = portfolio.judged(part, named=bool(recipe.form))
    output: Any = None
    if recipe.form == "lines":
        output = as_json_lines(portfolio, jobs)
    elif recipe.form == "verdicts":
        output = jobs
    problems = {
        part.first + at: (jobs.names[at], text) for at, text in sorted(jobs.problems.items())
    }
    return JudgedPart(part.first, part.rows, problems, jobs.summary, output)


class Pending(Protocol):
    """A result that is still being worked out, by a process pool or a cluster."""

    def result(self) -> Any:
        """Wait for it and return it."""


def in_order(
    submit: Callable[[RowsByColumn], Pending], parts: Iterable[RowsByColumn], ahead: int
) -> Iterator[JudgedPart]:
    """Hand parts to workers, some at a time, and give the results in the order of the parts.

    Args:
        submit: Hands a part to a worker.
        parts: The parts.
        ahead: How many may be under way.
    """
    waiting: deque[tuple[RowsByColumn, Pending]] = deque()
    for part in parts:
        waiting.append((part, submit(part)))
        if len(waiting) >= ahead:
            yield _taken(*waiting.popleft())
    while waiting:
        yield _taken(*waiting.popleft())


def _taken(part: RowsByColumn, pending: Pending) -> JudgedPart:
    judged_part: JudgedPart = pending.result()
    # No row is lost, none doubled.
    assert (judged_part.first, judged_part.rows) == (part.first, part.rows)
    return judged_part


def on_this_machine(
    recipe: Recipe, parts: Iterable[RowsByColumn], processes: int
) -> Iterator[JudgedPart]:
    """Judge a table by some processes of this machine.

    Args:
        recipe: What to judge, and how.
        parts: The table, some rows at a time.
        processes: How many; with one, no other process is started.
    """
    if processes < 2:
        for part in parts:
            yield judged(recipe, part)
        return
    # Forked workers have what is made before them; it is made here, once.
    portfolio_of(recipe)
    with _pool(processes) as pool:

        def submit(part: RowsByColumn) -> Future[JudgedPart]:
            return pool.submit(judged, recipe, part)

        yield from in_order(submit, parts, processes * _AHEAD)


@contextmanager
def _pool(processes: int) -> Iterator[Executor]:
    ways = multiprocessing.get_all_start_methods()
    way = "fork" if "fork" in ways and ways[0] != "spawn" else "spawn"
    pool = ProcessPoolExecutor(processes, multiprocessing.get_context(way))
    try:
        yield pool
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def on_cluster(recipe: Recipe, parts: Iterable[RowsByColumn], client: Any) -> Iterator[JudgedPart]:
    """Judge a table on a Dask cluster; what a worker that dies had in hand is done again.

    Args:
        recipe: What to judge, and how. The workers need the same program and rules.
        parts: The table, some rows at a time.
        client: A `distributed.Client`.
    """
    threads: Sequence[int] = list(client.nthreads().values())
    shared = client.scatter(recipe, broadcast=True, hash=False)

    def submit(part: RowsByColumn) -> Pending:
        pending: Pending = client.submit(judged, shared, part, pure=False)
        return pending

    yield from in_order(submit, parts, max(1, sum(threads)) * _AHEAD)
