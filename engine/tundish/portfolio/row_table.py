"""A table judged row by row, where the packages for columns are not installed."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from itertools import islice
from pathlib import Path

from tundish.job.facts import Facts
from tundish.job.table_columns import NAME, read_table_columns
from tundish.portfolio.by_rows import JudgedRow, RowPortfolio
from tundish.portfolio.summary import Form, JudgedPart, Summary, made_from
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bounds import CHUNK_ROWS
from tundish.text.column_file import NEEDS_EXTRA
from tundish.text.problem import refusal
from tundish.text.row_file import read_rows


class RowTable:
    """Judges a table one row after the other.

    Args:
        table: The table.
        base: The facts of the base job.
        rulebook: The rules.

    Attributes:
        rows: None, as only reading tells how many rows there are.
        by_columns: None, as nothing is judged by columns.

    Raises:
        Refused: If the table cannot be read.
    """

    rows: int | None = None
    by_columns: None = None

    def __init__(self, table: Path, base: Facts, rulebook: Rulebook) -> None:
        if table.suffix.lower() == ".parquet":
            raise refusal(str(table), NEEDS_EXTRA)
        headings, self._rows = read_rows(table)
        declared = {
            declaration.fact.path: declaration.kind for declaration in rulebook.declared.values()
        }
        wanted = [heading for heading in headings if heading != NAME]
        columns = read_table_columns(wanted, str(table), declared)
        self._portfolio = RowPortfolio(base, columns, rulebook)
        self._origin = made_from(base, rulebook)

    def judged(self, form: Form) -> Iterator[JudgedPart]:
        """Judge the rows, some at a time."""
        first = 1
        while chunk := list(islice(self._rows, CHUNK_ROWS // 16)):
            jobs, summary = self._portfolio.judged(chunk, first)
            problems = {
                number: (job.name, job.problem)
                for number, job in enumerate(jobs, start=first)
                if job.problem
            }
            lines = "".join(_line(job, self._origin) for job in jobs).encode() if form else None
            yield JudgedPart(first, len(chunk), problems, summary, lines)
            first += len(chunk)

    def finish(self, summary: Summary) -> None:
        """Leave the summary as it is: changes are not tried one row at a time."""


def _line(job: JudgedRow, origin: Mapping[str, str]) -> str:
    data = {
        "job": job.name,
        "breached": job.breached,
        "undecided": job.undecided,
        "problem": job.problem,
        **origin,
    }
    return json.dumps(data) + "\n"
