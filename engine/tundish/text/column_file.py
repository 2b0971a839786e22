"""Reading tables of jobs by columns, some rows at a time, so that one of any length fits."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.text.bounds import CHUNK_ROWS
from tundish.text.problem import refusal
from tundish.text.row_file import read_rows


@dataclass(frozen=True, slots=True)
class Coded:
    """Cells of which many are alike: the distinct ones, and the place of each cell's among them.

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
        rows: How many rows there are, or None where only reading tells.
        parts: Its rows, some at a time.
    """

    columns: list[str]
    numeric: frozenset[str]
    rows: int | None
    parts: Iterator[RowsByColumn]


def read_columns(path: Path, rows: int = CHUNK_ROWS) -> ColumnFile:
    """Read a table by columns.

    Args:
        path: A file ending in .csv, .jsonl, .ndjson or .parquet.
        rows: How many rows to hold at a time.

    Raises:
        Refused: If it cannot be read, or is of another kind.
    """
    if path.suffix.lower() == ".parquet":
        try:
            from tundish.text.parquet_file import read_parquet
        except ImportError:
            raise refusal(str(path), NEEDS_EXTRA) from None
        return read_parquet(path, rows)
    columns, found = read_rows(path)
    return ColumnFile(columns, frozenset(), None, _by_column(columns, found, rows))


NEEDS_EXTRA = (
    "Parquet needs packages that are not installed here: pip install 'tundish[portfolio]'. "
    "Without them, use a .csv or .jsonl file."
)


def _by_column(
    columns: list[str], found: Iterator[dict[str, Any]], rows: int
) -> Iterator[RowsByColumn]:
    first = 1
    while chunk := list(islice(found, rows)):
        cells = {column: [row.get(column) for row in chunk] for column in columns}
        yield RowsByColumn(first, len(chunk), cells)
        first += len(chunk)
