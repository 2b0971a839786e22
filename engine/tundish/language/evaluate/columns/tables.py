"""Reading a table for many jobs at once; each gets what `Table.read` would give it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np

from tundish.language.evaluate.columns.column import (
    Array,
    Chunk,
    Varying,
    Vocabulary,
    decoded,
    encoded,
    known_in,
    type_of,
)
from tundish.language.operations.table import Table
from tundish.language.operations.values import TOLERANCE
from tundish.language.tree.kind import Kind


def table_reading(
    table: Table, column: str, keys: Sequence[Varying], kind: Kind, words: Vocabulary
) -> Varying:
    """Read one column of a table at some keys.

    Args:
        table: The table.
        column: Name of the column.
        keys: The keys, in the table's order.
        kind: The kind of the column.
        words: Where texts stand.
    """
    reader = _Reader(table, list(table.columns).index(column), kind, words)

    def work(chunk: Chunk) -> Array:
        columns = [np.broadcast_to(key(chunk), chunk.rows) for key in keys]
        known = np.logical_and.reduce([known_in(key) for key in columns])
        if known.all():
            return reader.read(table.tree, columns)
        cells = reader.unknown(chunk.rows)
        cells[known] = reader.read(table.tree, [key[known] for key in columns])
        return cells

    return work


class _Reader:
    """Goes down the levels of a table, at each with the jobs that get to it."""

    def __init__(self, table: Table, position: int, kind: Kind, words: Vocabulary) -> None:
        self._table = table
        self._position = position
        self._kind = kind
        self._words = words

    def unknown(self, rows: int) -> Array:
        return np.full(rows, encoded(None, self._kind, self._words), type_of(self._kind))

    def read(self, level: Any, keys: Sequence[Array], depth: int = 0) -> Array:
        """Read from a level on; all keys are known."""
        rows = len(keys[0])
        if depth == len(self._table.keys):
            cell = encoded(level[self._position], self._kind, self._words)
            return np.full(rows, cell, type_of(self._kind))
        if keys[depth].dtype == np.float64:
            return self._numeric(level, keys, depth)
        cells = self.unknown(rows)
        kind = self._table.keys[depth].kind
        for raw in np.unique(keys[depth]):
            word, chosen = decoded(raw, kind, self._words), keys[depth] == raw
            if word in level:
                cells[chosen] = self.read(level[word], [key[chosen] for key in keys], depth + 1)
        return cells

    def _numeric(self, level: Mapping[Any, object], keys: Sequence[Array], depth: int) -> Array:
        value, manner = keys[depth], self._table.keys[depth].manner
        numbers = np.array([row for row in level if isinstance(row, float)])
        upper = np.searchsorted(numbers, value)
        row = _row_at(numbers, value, upper)
        within = (row < 0) & (upper < len(numbers))
        if manner == "next up":
            row = np.where(within, upper, row)
        cells = self.unknown(len(value))
        self._into(cells, row, level, numbers, keys, depth)
        if manner == "linear":
            between = np.flatnonzero(within & (upper > 0))
            if len(between):
                inner = [key[between] for key in keys]
                cells[between] = self._between(level, numbers, inner, upper[between], depth)
        return cells

    def _between(
        self,
        level: Mapping[Any, object],
        numbers: Array,
        keys: Sequence[Array],
        upper: Array,
        depth: int,
    ) -> Array:
        first, second = self.unknown(len(upper)), self.unknown(len(upper))
        self._into(first, upper - 1, level, numbers, keys, depth)
        self._into(second, upper, level, numbers, keys, depth)
        below, above = numbers[upper - 1], numbers[upper]
        result: Array = first + (second - first) * ((keys[depth] - below) / (above - below))
        return result

    def _into(
        self,
        cells: Array,
        row: Array,
        level: Mapping[Any, object],
        numbers: Array,
        keys: Sequence[Array],
        depth: int,
    ) -> None:
        """Fill cells with what stands below each job's row; leave them where the row is -1."""
        for at, chosen in _groups(row):
            inner = [key[chosen] for key in keys]
            cells[chosen] = self.read(level[float(numbers[at])], inner, depth + 1)


def _row_at(numbers: Array, value: Array, upper: Array) -> Array:
    """Return the row that a value is nearly equal to, the lower of two, or -1."""
    row = np.full(len(value), -1)
    for near in (upper, upper - 1):
        in_table = (near >= 0) & (near < len(numbers))
        number = numbers[np.where(in_table, near, 0)] if len(numbers) else value
        gap = TOLERANCE * np.maximum(np.abs(number), np.abs(value))
        row = np.where(in_table & (np.abs(number - value) <= gap), near, row)
    return row


def _groups(row: Array) -> Iterator[tuple[int, Array]]:
    """Give each row that is asked for, with the positions of the jobs that ask for it."""
    for at in np.flatnonzero(np.bincount(row + 1)):
        if at > 0:
            yield int(at) - 1, np.flatnonzero(row == at - 1)
