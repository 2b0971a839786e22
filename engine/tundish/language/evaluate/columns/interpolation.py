"""Reading between the items of a list for many jobs at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tundish.language.evaluate.columns.calls import Argument, by_distinct
from tundish.language.evaluate.columns.column import (
    NOT_KNOWN,
    ColumnValue,
    Uniform,
    Vocabulary,
    as_varying,
)
from tundish.language.evaluate.columns.tables import table_reading
from tundish.language.operations.interpolation import Rows, by_place, interpolated, table_of
from tundish.language.tree import tree as t
from tundish.language.tree.kind import Kind


def interpolation(
    places: Sequence[Argument], cells: Sequence[Argument], width: int, kind: Kind, words: Vocabulary
) -> ColumnValue:
    """Read between items.

    Args:
        places: Where to read, a part for each key; none is unknown for all jobs.
        cells: For each item that may count: whether it does, its keys, its value.
        width: How many cells there are an item.
        kind: The kind of what is read.
        words: Where texts stand.
    """
    constants = [part.value for part, _ in cells if isinstance(part, Uniform)]
    if len(constants) < len(cells) or all(isinstance(part, Uniform) for part, _ in places):
        return by_distinct(_reading(len(places), width), [*places, *cells], kind, words)
    rows = _rows(constants, width)
    if not rows or len({row[:-1] for row in rows}) < len(rows):
        return NOT_KNOWN
    table = table_of(rows, "", ["key"] * len(places))
    keys = [as_varying(part, of, words) for part, of in places]
    return table_reading(table, "value", keys, kind, words)


def _reading(places: int, width: int) -> Callable[..., object]:
    """Return a function of the places to read at and of the cells of all items."""

    def read(*values: t.Value | None) -> object:
        return interpolated(by_place(_rows(values[places:], width)), values[:places])

    return read


def _rows(cells: Sequence[t.Value | None], width: int) -> Rows | None:
    """Return the keys and value of each item that counts, or None where one is unknown."""
    rows: Rows = []
    for at in range(0, len(cells), width):
        test, *inner = cells[at : at + width]
        if test is False:
            continue
        numbers = tuple(cell for cell in inner if isinstance(cell, float))
        if test is None or len(numbers) < len(inner):
            return None
        rows.append(numbers)
    return rows
