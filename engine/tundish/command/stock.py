"""A table judged by columns, on the processors of this machine or on a cluster."""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any

from tundish.job.facts import Facts
from tundish.job.model.kinds import QuantityKind
from tundish.job.table_columns import NAME, read_table_columns
from tundish.portfolio.by_columns import Screening
from tundish.portfolio.parallel import Recipe, on_cluster, on_this_machine, screening_of
from tundish.portfolio.remedies import EvenSample, remedies
from tundish.portfolio.summary import Form, Found, Summary
from tundish.rulebook.rulebook import Rulebook
from tundish.text.column_file import NEEDS_EXTRA, read_columns
from tundish.text.columns import RowsByColumn
from tundish.text.problem import Problem, Refused, refusal


class Stock:
    """Judges a table by columns.

    Args:
        arguments: What was asked for.
        base: The facts of the base job.
        rulebook: The rules.

    Attributes:
        rows: How many rows the table has, if it says so.
        rules: The names of the rules.
    """

    def __init__(self, arguments: argparse.Namespace, base: Facts, rulebook: Rulebook) -> None:
        path = Path(arguments.table)
        if arguments.to and arguments.to.suffix == ".parquet" and not _has("pyarrow"):
            raise refusal(str(arguments.to), NEEDS_EXTRA)
        if arguments.cluster and not _has("distributed"):
            raise refusal(arguments.cluster, "A cluster needs pip install 'tundish[cluster]'.")
        file = read_columns(path)
        declared = {one.fact.path: one.kind for one in rulebook.declared.values()}
        wanted = [heading for heading in file.columns if heading != NAME]
        columns = tuple(read_table_columns(wanted, str(path), declared))
        bare = [
            one.written
            for one in columns
            if one.written in file.numeric and isinstance(one.kind, QuantityKind) and not one.unit
        ]
        if bare:
            raise Refused(
                Problem(str(path), None, None, f"{_NEEDS_UNIT}'{one} [m]'.", one) for one in bare
            )
        self.rows = file.rows
        self.rules = list(rulebook.rules)
        self._arguments = arguments
        self._parts = file.parts
        self._base, self._columns, self._digest = base, columns, rulebook.digest
        self._sample = EvenSample()

    def found(self, form: Form) -> Iterator[Found]:
        """Judge the rows, some at a time, by all processes or the cluster."""
        recipe = self._recipe(form)
        parts = self._sample.taken_from(self._parts)
        if self._arguments.cluster:
            import distributed

            client: Any = distributed.Client  # it comes without types
            with client(self._arguments.cluster, timeout="20s") as connected:
                yield from on_cluster(recipe, parts, connected)
            return
        processes = self._arguments.processes or os.cpu_count() or 1
        # A table of one part is judged before another process has begun.
        begun = list(islice(parts, 2))
        if len(begun) < 2:
            processes = 1
        yield from on_this_machine(recipe, _both(begun, parts), processes)

    @property
    def screening(self) -> Screening:
        """Return what judges by columns."""
        return screening_of(self._recipe(""))

    def finished(self, summary: Summary) -> None:
        """Add which single change would help most jobs, tried on some of them."""
        summary.remedies = remedies(self.screening, self._sample.part())

    def _recipe(self, form: Form) -> Recipe:
        packs = tuple(map(str, self._arguments.rules))
        return Recipe(self._base, self._columns, packs, self._digest, form)


_NEEDS_UNIT = "This column holds bare numbers; its heading names their unit, as in "


def _both(begun: list[RowsByColumn], more: Iterator[RowsByColumn]) -> Iterator[RowsByColumn]:
    yield from begun
    yield from more


def _has(package: str) -> bool:
    from importlib.util import find_spec

    return find_spec(package) is not None
