"""The shapes of a table that is read by columns, some rows at a time."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tundish.groundwork.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Coded:
    """Cells of which many are equal: the distinct ones, and for each row the index of its own.

    Attributes:
        distinct: The distinct cells.
        places: For each row the position of its cell.
    """

    distinct: list[Any]
    places: Any


Cells = Any
"""A column of some rows: a list of cells, `Coded`, or an array of floats, NaN where empty."""


@dataclass(frozen=True, slots=True)
class RowsByColumn:
    """Some rows of a table.

    Attributes:
        first: The number of the first row in the table, from 1.
        rows: How many there are.
        columns: Their cells, by heading.
    """

    first: int
    rows: int
    columns: dict[str, Cells]


@dataclass(frozen=True, slots=True)
class ColumnFile:
    """A table that is read by columns.

    Attributes:
        columns: The headings.
        numeric: Headings of columns that hold bare numbers, as far as the file itself says so.
        rows: How many rows there are, or None where that is known only after reading.
        parts: Its rows, some at a time.
    """

    columns: list[str]
    numeric: frozenset[str]
    rows: int | None
    parts: Iterator[RowsByColumn]
