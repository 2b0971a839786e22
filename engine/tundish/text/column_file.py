"""Reading tables of jobs by columns, some rows at a time, so that any length fits in memory."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any

from tundish.text.bounds import CHUNK_ROWS
from tundish.text.columns import ColumnFile, RowsByColumn
from tundish.text.problem import refusal
from tundish.text.row_file import read_rows


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
    columns, records = read_rows(path)
    return ColumnFile(columns, frozenset(), None, _by_column(columns, records, rows))


NEEDS_EXTRA = (
    "Parquet needs packages that are not installed here: pip install 'tundish[portfolio]'. "
    "Without them, use a .csv or .jsonl file."
)


def _by_column(
    columns: list[str], records: Iterator[dict[str, Any]], rows: int
) -> Iterator[RowsByColumn]:
    first = 1
    while chunk := list(islice(records, rows)):
        cells = {column: [row.get(column) for row in chunk] for column in columns}
        yield RowsByColumn(first, len(chunk), cells)
        first += len(chunk)
