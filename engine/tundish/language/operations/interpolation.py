"""Reading between the items of a job's own list, as between the rows of a table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from tundish.language.operations.table import Cell, Column, Key, Reading, Table, between
from tundish.language.operations.values import row_of
from tundish.language.tree.kind import PLAIN_NUMBER
from tundish.language.tree.tree import Value

Rows = list[tuple[float, ...]]
"""One row an item: its keys, then its value [SI units]."""


def interpolate(
    rows: Rows | None, at: Sequence[Value | None], name: str = "", labels: Sequence[str] = ()
) -> Reading:
    """Read linearly between items, never beyond them.

    Args:
        rows: The keys and value of each item, or None where one of them is unknown.
        at: Where to read, a value for each key.
        name: What the list is called in a reason.
        labels: What each key is called in a reason.

    Returns:
        The value, or why there is none.
    """
    places = [place for place in at if isinstance(place, float)]
    if rows is None or len(places) < len(at):
        return Reading(None)
    if len({row[:-1] for row in rows}) < len(rows):
        return Reading(None, f"two items of the list {name} stand at one place")
    return table_of(rows, name, labels or ["key"] * len(at)).read("value", places)


def table_of(rows: Rows, name: str, labels: Sequence[str]) -> Table:
    """Return the items of a list as a table with a column "value".

    Args:
        rows: The keys and value of each item, no two at one place.
        name: What the list is called in a reason.
        labels: What each key is called in a reason.
    """
    keys = tuple(Key(label, PLAIN_NUMBER, "linear") for label in labels)
    columns = {"value": Column("value", PLAIN_NUMBER)}
    return Table(name, name, keys, columns, _nested(rows), f"the list {name}")


def by_place(rows: Rows | None) -> Mapping[Any, float] | None:
    """Return rows as `interpolated` takes them."""
    if rows is None:
        return None
    placed = {row[0] if len(row) == 2 else row[:-1]: row[-1] for row in rows}
    return placed if len(placed) == len(rows) else None


def interpolated(rows: Mapping[Any, float] | None, at: Sequence[Value | None]) -> Value | None:
    """Read as `interpolate` does, without a reason.

    Args:
        rows: The value of each item by its key, or by its keys where there are several; None where
            one of them is unknown, or two items stand at one place.
        at: Where to read, a value for each key.
    """
    if rows is None or None in at:
        return None
    if len(at) > 1:
        return interpolate([(*keys, value) for keys, value in rows.items()], at).value
    place, keys = at[0], sorted(rows)
    assert isinstance(place, float)
    upper, hits = row_of(keys, place)
    if hits:
        return rows[keys[upper]]
    if not 0 < upper < len(keys):
        return None
    below, above = keys[upper - 1], keys[upper]
    return between(rows[below], rows[above], (place - below) / (above - below))


def _nested(rows: Rows) -> dict[Cell, object]:
    """Nest rows by their keys, each level in ascending order."""
    groups: dict[float, Rows] = {}
    for row in sorted(rows):
        groups.setdefault(row[0], []).append(row[1:])
    return {
        key: _nested(inner) if len(inner[0]) > 1 else (inner[0][0],)
        for key, inner in groups.items()
    }
