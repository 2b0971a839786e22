"""Which change of one fact would help most homes: tried, on homes taken evenly from a portfolio.

For each fact that a breached rule lets change, values are tried over the whole of what it can be,
and all rules that read it are asked again. A value between those that are tried may do what none
of them does, so the counts are the least that can be said.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from tundish.job.model.kinds import ChoiceKind, NumberKind, QuantityKind, TruthKind, WholeKind
from tundish.job.table_columns import TableColumn, read_table_columns
from tundish.language.evaluate.columns.column import TRUE, Array, encoded, known_in, type_of
from tundish.portfolio.by_columns import ColumnPortfolio
from tundish.portfolio.fact_columns import varying_paths
from tundish.portfolio.summary import Helps, Remedies
from tundish.rulebook.evaluate.columns import BREACHED, MET, ColumnJudge
from tundish.rulebook.link.facts_read import facts_read
from tundish.text.columns import Coded, RowsByColumn
from tundish.text.problem import Refused
from tundish.units.quantity import parse_quantity

MOST_TRIED = 512
"""Homes that changes are tried on at most."""

_COUNTS = (0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 24, 32)
_GROWTH, _STEPS = 1.25, 24
_POINTS = np.arange(-60.0, 121.0, 2.5)
_ROWS_AT_ONCE = 32_768


class EvenSample:
    """Keeps some rows of a table that goes by, evenly spaced, however long it turns out to be."""

    def __init__(self, most: int = MOST_TRIED) -> None:
        self._most = most
        self._step = 1
        self._sample: list[tuple[int, dict[str, Any]]] = []

    def taken_from(self, parts: Iterator[RowsByColumn]) -> Iterator[RowsByColumn]:
        """Pass parts of a table on, and keep some of their rows."""
        for part in parts:
            self._take(part)
            yield part

    def _take(self, part: RowsByColumn) -> None:
        start = -(part.first - 1) % self._step
        for at in range(start, part.rows, self._step):
            number = part.first - 1 + at
            if number % self._step:
                continue  # the step has grown meanwhile
            row = {name: _cell(cells, at) for name, cells in part.columns.items()}
            self._sample.append((number, row))
            if len(self._sample) > self._most:
                self._step *= 2
                self._sample = [taken for taken in self._sample if taken[0] % self._step == 0]

    def part(self) -> RowsByColumn:
        """Return the rows that were kept."""
        rows = [row for _, row in self._sample]
        names = rows[0] if rows else {}
        return RowsByColumn(1, len(rows), {name: [row[name] for row in rows] for name in names})


def _cell(cells: Any, at: int) -> Any:
    if isinstance(cells, Coded):
        return cells.distinct[cells.places[at]]
    return cells[at].item() if isinstance(cells, np.ndarray) else cells[at]


def remedies(portfolio: ColumnPortfolio, part: RowsByColumn) -> Remedies | None:
    """Say what each single change would do.

    Args:
        portfolio: What judges the homes.
        part: Some homes.

    Returns:
        What the changes would do; None where there is no home.
    """
    if not part.rows:
        return None
    facts, problems = portfolio.facts.read(part)
    is_readable = np.ones(part.rows, bool)
    is_readable[list(problems)] = False
    facts = {path: column[is_readable] for path, column in facts.items()}
    rows = int(is_readable.sum())
    verdicts = _all_verdicts(portfolio.judge, rows, facts)
    trials = _Trials(portfolio, facts, verdicts)
    helps = [change for change in map(trials.helps, trials.candidates()) if change.clears]
    helps.sort(key=lambda change: (-change.cleans, -change.clears, change.path))
    breaching = int((verdicts == BREACHED).any(axis=0).sum())
    return Remedies(rows, breaching, tuple(helps))


def _all_verdicts(judge: ColumnJudge, rows: int, facts: dict[str, Array]) -> Array:
    """Return the verdicts of all rules, those that all rows share too: a row a rule."""
    verdicts = np.empty((len(judge.open) + len(judge.settled), rows), np.uint8)
    for rule, code in judge.settled.items():
        verdicts[rule] = code
    verdicts[judge.open] = judge.verdicts(rows, facts)
    return verdicts


class _Trials:
    """Tries changes on some homes."""

    def __init__(
        self, portfolio: ColumnPortfolio, facts: dict[str, Array], verdicts: Array
    ) -> None:
        self._portfolio = portfolio
        self._facts = facts
        self._breached = verdicts == BREACHED
        book = portfolio.rulebook
        self._rules = list(book.rules.values())
        self._reads = [facts_read(rule, book.quantities) for rule in self._rules]

    def candidates(self) -> list[TableColumn]:
        """Return the facts outside lists that a breached rule lets change."""
        book = self._portfolio.rulebook
        declared = {
            declaration.fact.path: declaration.kind for declaration in book.declared.values()
        }
        breached = np.flatnonzero(self._breached.any(axis=1)).tolist()
        columns = []
        for path in sorted({path for rule in breached for path in self._rules[rule].adjust}):
            try:
                columns += read_table_columns([path], declared=declared)
            except Refused:
                continue  # a fact of each item of a list
        return columns

    def helps(self, column: TableColumn) -> Helps:
        """Count the homes in which a change of one fact clears a breach, or all of them."""
        lets = [at for at, rule in enumerate(self._rules) if column.path in rule.adjust]
        homes = np.flatnonzero(self._breached[lets].any(axis=0))
        raw = self._values(column)
        moved = {column.path, *column.groups}
        asked = [at for at, reads in enumerate(self._reads) if not reads.isdisjoint(moved)]
        judge = self._judge(asked, column)
        before = self._breached[asked][:, homes]
        others = self._breached[:, homes].sum(axis=0) - before.sum(axis=0)
        clears, cleans = np.zeros(len(homes), bool), np.zeros(len(homes), bool)
        for some in _blocks(raw, len(homes)):
            after = self._after(judge, column, some, homes)
            cleared = ((after == MET) & before[:, None, :]).any(axis=0)
            left = others + (after == BREACHED).sum(axis=0)
            clears |= cleared.any(axis=0)
            cleans |= (cleared & (left == 0)).any(axis=0)
        return Helps(column.path, int(clears.sum()), int(cleans.sum()))

    def _judge(self, rules: Sequence[int], column: TableColumn) -> ColumnJudge:
        base = self._portfolio
        some = {self._rules[at].name: self._rules[at] for at in rules}
        varying = varying_paths([*base.columns, column])
        book = replace(base.rulebook, rules=some)
        return ColumnJudge(book, base.base, varying, base.judge.words)

    def _after(self, judge: ColumnJudge, column: TableColumn, some: Array, homes: Array) -> Array:
        """Judge homes with each of some values: rules by values by homes."""
        rows = len(some) * len(homes)
        facts = {path: np.tile(fact[homes], len(some)) for path, fact in self._facts.items()}
        facts[column.path] = np.repeat(some, len(homes))
        for group in column.groups:
            facts[group] = np.full(rows, TRUE, np.uint8)
        verdicts = _all_verdicts(judge, rows, facts)
        return verdicts.reshape(len(verdicts), len(some), len(homes))

    def _values(self, column: TableColumn) -> Array:
        """Return values to try, as a column has them."""
        portfolio = self._portfolio
        kind = portfolio.rulebook.scope.facts[column.path].kind
        read = []
        for cell in self._cells(column):
            try:
                read.append(column.read(cell)[column.path])
            except ValueError:
                continue  # beyond what can be
        raw = [encoded(value, kind, portfolio.judge.words) for value in read]
        return np.array(raw, type_of(kind))

    def _cells(self, column: TableColumn) -> Sequence[Any]:
        match column.kind:
            case TruthKind():
                return (True, False)
            case ChoiceKind(choices=choices):
                return choices
            case WholeKind(options=options):
                return options or _COUNTS
            case NumberKind():
                return [0.0, *self._grid(column.path, 1.0)]
            case QuantityKind(example=example):
                sizes = self._portfolio.rulebook.sizes.get(column.path)
                if sizes is not None and sizes.values:
                    return [text for text, _ in sizes.values]
                unit = parse_quantity(example).unit
                if column.kind.point:
                    return [f"{number:g} {unit}" for number in _POINTS]
                scale = parse_quantity(example).si
                grid = (value / float(unit.factor) for value in self._grid(column.path, scale))
                return [f"{number:.6g} {unit}".removesuffix(" 1") for number in (0.0, *grid)]
        return ()

    def _grid(self, path: str, scale: float) -> list[float]:
        """Return values in even ratios around what is usual in these homes."""
        own = self._portfolio.base.values.get(path)
        if path in self._facts and known_in(self._facts[path]).any():
            own = float(np.nanmedian(self._facts[path]))
        middle = own if isinstance(own, float) and own > 0 else scale
        return [middle * _GROWTH**step for step in range(-_STEPS, _STEPS + 1)]


def _blocks(values: Array, homes: int) -> Iterator[Array]:
    """Give the values in blocks, so that not too many trials are held at a time."""
    if not homes:
        return
    size = max(1, _ROWS_AT_ONCE // homes)
    for start in range(0, len(values), size):
        yield values[start : start + size]
