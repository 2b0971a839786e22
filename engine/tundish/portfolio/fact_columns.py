"""Cells made into columns of facts: texts are read once for each that is distinct."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from tundish.job.facts import Facts
from tundish.job.model.kinds import QuantityKind
from tundish.job.table_columns import TableColumn, is_empty
from tundish.language.evaluate.columns.column import (
    FALSE,
    TRUE,
    UNKNOWN,
    Array,
    Vocabulary,
    encoded,
    known_in,
    type_of,
)
from tundish.language.tree.kind import Kind
from tundish.text.columns import Cells, Coded, RowsByColumn

_MOST_REMEMBERED = 100_000
"""Distinct cells of a column that are remembered from chunk to chunk."""

_EXACT = 2**53

Problems = dict[int, str]
"""What is wrong in rows, by their place in the chunk."""


class FactColumns:
    """Makes the columns of a table into columns of facts, as a judge takes them.

    Args:
        headings: The columns, without that of the names.
        base: The facts of the job that the rows differ from.
        kinds: The kinds of facts as rules know them, by path.
        words: Where texts stand.
    """

    def __init__(
        self,
        headings: Sequence[TableColumn],
        base: Facts,
        kinds: Mapping[str, Kind],
        words: Vocabulary,
    ) -> None:
        self._columns = [_Column(heading, kinds, words) for heading in headings]
        self._groups: dict[str, int] = {}
        for heading in headings:
            for group in heading.groups:
                presence = base.values.get(group)
                truth = UNKNOWN if presence is None else TRUE if presence else FALSE
                self._groups[group] = truth

    def read(self, part: RowsByColumn) -> tuple[dict[str, Array], Problems]:
        """Return facts by path, and what is wrong in which row; a wrong cell is not known."""
        facts: dict[str, Array] = {}
        problems: Problems = {}
        known: dict[str, list[Array]] = {group: [] for group in self._groups}
        for column in self._columns:
            is_known = column.read(part.columns[column.heading.written], facts, problems)
            for group in column.heading.groups:
                known[group].append(is_known)
        for group, truth in self._groups.items():
            # What is said of a part of a group says that the group is there.
            stated = np.logical_or.reduce(known[group])
            facts[group] = np.where(stated, np.uint8(TRUE), np.uint8(truth))
        return facts, problems


def varying_paths(headings: Sequence[TableColumn]) -> frozenset[str]:
    """Return the facts and groups of facts that differ where a table has these columns."""
    return frozenset(path for heading in headings for path in (*heading.paths, *heading.groups))


class _Column:
    """One column, with what it has read so far."""

    def __init__(self, heading: TableColumn, kinds: Mapping[str, Kind], words: Vocabulary) -> None:
        self.heading = heading
        self._kinds = {path: kinds[path] for path in heading.paths}
        self._words = words
        self._forget()

    def _forget(self) -> None:
        self._places: dict[Any, int] = {None: 0, "": 0}
        self._values: dict[str, list[float | int]] = {
            path: [encoded(None, kind, self._words)] for path, kind in self._kinds.items()
        }
        self._wrong: dict[int, str] = {}
        self._arrays: dict[str, Array] = {}

    def read(self, cells: Cells, facts: dict[str, Array], problems: Problems) -> Array:
        """Add the facts of the cells, and what is wrong; return where something is known."""
        if isinstance(cells, np.ndarray):
            return self._numbers(cells, facts, problems)
        if len(self._places) > _MOST_REMEMBERED:
            self._forget()
        if isinstance(cells, Coded):
            rows = np.array([self._place(cell) for cell in cells.distinct])[cells.places]
        else:
            rows = self._looked_up(cells)
        arrays = self._as_arrays()
        for path, array in arrays.items():
            facts[path] = array[rows]
        for place in self._wrong.keys() & set(rows.tolist()) if self._wrong else ():
            for row in np.flatnonzero(rows == place).tolist():
                problems.setdefault(row, self._wrong[place])
        return known_in(facts[self.heading.path])

    def _looked_up(self, cells: list[Any]) -> Array:
        keys = cells if set(map(type, cells)) <= _PLAIN else list(map(_key, cells))
        new = set(keys) - self._places.keys()
        if new:
            for key, cell in zip(keys, cells, strict=True):
                if key in new:
                    self._place(cell)
        return np.fromiter(map(self._places.__getitem__, keys), np.int64, len(keys))

    def _place(self, cell: Any) -> int:
        """Return where what a cell says is kept, reading it if it is new."""
        key = _key(cell)
        place = self._places.get(key)
        if place is not None:
            return place
        if is_empty(cell):
            self._places[key] = 0
            return 0
        place = self._places[key] = len(self._values[self.heading.path])
        try:
            facts = self.heading.read(cell)
        except ValueError as error:
            facts = {}
            self._wrong[place] = f"{self.heading.written}: {error}"
        for path, kind in self._kinds.items():
            value = True if isinstance(facts.get(path), list) else facts.get(path)
            self._values[path].append(encoded(value, kind, self._words))
        self._arrays = {}
        return place

    def _as_arrays(self) -> dict[str, Array]:
        if not self._arrays:
            self._arrays = {
                path: np.array(values, type_of(self._kinds[path]))
                for path, values in self._values.items()
            }
        return self._arrays

    def _numbers(self, cells: Array, facts: dict[str, Array], problems: Problems) -> Array:
        """Read bare numbers as an array where that rounds as reading each of them would."""
        unit, kind = self.heading.unit, self.heading.kind
        if unit is None or not isinstance(kind, QuantityKind) or unit.zero:
            return self._each_number(cells, facts, problems)
        factor = unit.factor
        if factor.denominator == 1 and factor.numerator <= _EXACT:
            numbers = cells * float(factor.numerator)
        elif factor.numerator == 1 and factor.denominator <= _EXACT:
            numbers = cells / float(factor.denominator)
        else:
            return self._each_number(cells, facts, problems)
        least, most = kind.bounds_in_si
        # At a bound the rounded number cannot tell, and beyond it there is something to say.
        doubtful = (numbers <= least) | (numbers >= most) | np.isinf(cells)
        if doubtful.any():
            at = np.flatnonzero(doubtful)
            some: dict[str, Array] = {}
            wrong: Problems = {}
            self._each_number(cells[at], some, wrong)
            numbers[at] = some[self.heading.path]
            for row, sentence in wrong.items():
                problems.setdefault(int(at[row]), sentence)
        facts[self.heading.path] = numbers
        return known_in(numbers)

    def _each_number(self, cells: Array, facts: dict[str, Array], problems: Problems) -> Array:
        distinct, places = np.unique(cells, return_inverse=True)
        return self.read(Coded(distinct.tolist(), places), facts, problems)


_PLAIN = {str, type(None)}
_NUMBERS = {int, float, bool}


def _key(cell: Any) -> Any:
    """Return what tells a cell apart: 1 is not true, and lists cannot be looked up."""
    kind = type(cell)
    return cell if kind in _PLAIN else (kind, cell if kind in _NUMBERS else repr(cell))
