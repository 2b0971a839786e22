"""Reading tables of jobs: comma-separated values, or JSON lines."""

from __future__ import annotations

import csv
import json
from collections.abc import Collection, Iterator
from pathlib import Path
from typing import IO, Any

from tundish.text.bounds import LARGEST_FILE, MOST_COLUMNS
from tundish.text.problem import refusal
from tundish.text.quoted import quoted

Row = dict[str, Any]

_ESCAPED = "surrogateescape"
"""How bytes that are not UTF-8 are read, so that the error can name their line."""


def read_rows(path: Path) -> tuple[list[str], Iterator[Row]]:
    """Read a table row by row, so that one of any length fits in memory.

    Args:
        path: A file ending in .csv, or in .jsonl or .ndjson.

    Returns:
        The names of the columns, and the rows by column.

    Raises:
        Refused: If it cannot be read, or is of another kind.
    """
    try:
        if path.exists() and not path.is_file():
            # A pipe that nobody writes to would be waited for without end.
            raise refusal(str(path), "This is no plain file; name a table.")
    except (OSError, ValueError) as error:  # a name that no file can have
        raise refusal(str(path), f"The table cannot be read: {error}.") from None
    if path.suffix.lower() == ".csv":
        return _comma_separated(path)
    if path.suffix.lower() in (".jsonl", ".ndjson"):
        return _json_lines(path)
    raise refusal(str(path), "A table is a .csv file, or .jsonl with one object a line.")


def _comma_separated(path: Path) -> tuple[list[str], Iterator[Row]]:
    try:
        with path.open(encoding="utf-8-sig", errors=_ESCAPED, newline="") as file:
            columns = next(csv.reader(_lines(file, path)), [])
    except (OSError, csv.Error) as error:
        raise refusal(str(path), f"The table cannot be read: {error}.") from None
    if not columns or len(set(columns)) < len(columns):
        raise refusal(str(path), "The first row names the columns, each once.", 1)
    _refuse_many(columns, path)
    return columns, _rows_of_csv(path, columns)


def _rows_of_csv(path: Path, columns: list[str]) -> Iterator[Row]:
    with path.open(encoding="utf-8-sig", errors=_ESCAPED, newline="") as file:
        rows = csv.reader(_lines(file, path))
        next(rows)
        try:
            for cells in rows:
                if len(cells) != len(columns):
                    sentence = f"This row has {len(cells)} cells; there are {len(columns)} columns."
                    raise refusal(str(path), sentence, rows.line_num)
                yield dict(zip(columns, cells, strict=True))
        except csv.Error as error:
            raise refusal(str(path), f"This row cannot be read: {error}.", rows.line_num) from None


def _json_lines(path: Path) -> tuple[list[str], Iterator[Row]]:
    columns: dict[str, None] = {}
    for row in _objects(path):
        columns.update(dict.fromkeys(row))
        _refuse_many(columns, path)
    if not columns:
        raise refusal(str(path), "There is no row in this table.")
    return list(columns), _objects(path)


def _objects(path: Path) -> Iterator[Row]:
    try:
        with path.open(encoding="utf-8", errors=_ESCAPED) as file:
            for number, line in enumerate(_lines(file, path), start=1):
                if line.strip():
                    yield _object(path, line, number)
    except OSError as error:
        raise refusal(str(path), f"The table cannot be read: {error}.") from None


def _lines(file: IO[str], path: Path) -> Iterator[str]:
    """Yield the lines of a file; none is read past the bound."""
    number = 0
    while line := file.readline(LARGEST_FILE + 1):
        number += 1
        if len(line) > LARGEST_FILE:
            raise refusal(str(path), "This line is too long.", number)
        _refuse_other_encodings(line, path, number)
        yield line


def _refuse_other_encodings(line: str, path: Path, number: int) -> None:
    try:
        line.encode()
    except UnicodeEncodeError as error:
        byte = ord(line[error.start]) - 0xDC00
        sentence = f"The table is not UTF-8: byte 0x{byte:02X} does not belong; save it as UTF-8."
        raise refusal(str(path), sentence, number, error.start + 1) from None


def _refuse_many(columns: Collection[str], path: Path) -> None:
    if len(columns) > MOST_COLUMNS:
        sentence = f"The table has more than {MOST_COLUMNS:,} columns; leave out what is no fact."
        raise refusal(str(path), sentence)


def _object(path: Path, line: str, number: int) -> Row:
    try:
        row = json.loads(line)
    except (ValueError, RecursionError) as error:
        raise refusal(str(path), f"This line is not JSON: {error}.", number) from None
    if isinstance(row, dict):
        return row
    raise refusal(str(path), f"A line is an object of facts, not {quoted(row)}.", number)
