"""A table judged row by row, where the packages for columns are not installed."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator, Mapping
from itertools import islice
from pathlib import Path

from tundish.job.facts import Facts
from tundish.job.table_columns import NAME, read_table_columns
from tundish.portfolio.portfolio import Judged, Portfolio
from tundish.portfolio.summary import Form, Found, Summary, made_from
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bounds import CHUNK_ROWS
from tundish.text.column_file import NEEDS_EXTRA
from tundish.text.problem import refusal
from tundish.text.row_file import read_rows


class StockRows:
    """Judges a table one row after the other.

    Args:
        arguments: What was asked for.
        base: The facts of the base job.
        rulebook: The rules.

    Attributes:
        rows: None, as only reading tells.
        screening: None, as nothing is judged by columns.
        rules: The names of the rules.
    """

    rows: int | None = None
    screening: None = None

    def __init__(self, arguments: argparse.Namespace, base: Facts, rulebook: Rulebook) -> None:
        table = Path(arguments.table)
        if table.suffix.lower() == ".parquet":
            raise refusal(str(table), NEEDS_EXTRA)
        headings, self._rows = read_rows(table)
        declared = {one.fact.path: one.kind for one in rulebook.declared.values()}
        wanted = [heading for heading in headings if heading != NAME]
        columns = read_table_columns(wanted, str(table), declared)
        self.rules = list(rulebook.rules)
        self._portfolio = Portfolio(base, columns, rulebook)
        self._origin = made_from(base, rulebook)

    def found(self, form: Form) -> Iterator[Found]:
        """Judge the rows, some at a time."""
        first = 1
        while chunk := list(islice(self._rows, CHUNK_ROWS // 16)):
            jobs, summary = self._portfolio.judged(chunk, first)
            problems = {
                number: (one.name, one.problem)
                for number, one in enumerate(jobs, start=first)
                if one.problem
            }
            lines = "".join(_line(one, self._origin) for one in jobs).encode() if form else None
            yield Found(first, len(chunk), problems, summary, lines)
            first += len(chunk)

    def finished(self, summary: Summary) -> None:
        """Leave the summary as it is: changes are not tried one row at a time."""


def _line(judged: Judged, origin: Mapping[str, str]) -> str:
    data = {
        "job": judged.name,
        "breached": judged.breached,
        "undecided": judged.undecided,
        "problem": judged.problem,
        **origin,
    }
    return json.dumps(data) + "\n"
