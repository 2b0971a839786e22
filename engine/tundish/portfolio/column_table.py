"""A table judged by columns, on the processors of this machine or on a cluster."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain, islice
from pathlib import Path
from typing import Any

from tundish.job.facts import Facts
from tundish.job.model.kinds import QuantityKind
from tundish.job.table_columns import NAME, TableColumn, read_table_columns
from tundish.portfolio.by_columns import ColumnPortfolio
from tundish.portfolio.parallel import Recipe, on_cluster, on_this_machine, portfolio_of
from tundish.portfolio.remedies import EvenSample, remedies
from tundish.portfolio.summary import Form, JudgedPart, Summary
from tundish.rulebook.rulebook import Rulebook
from tundish.text.column_file import read_columns
from tundish.text.problem import Problem, Refused


class ColumnTable:
    """Judges a table by columns.

    Args:
        table: The table.
        base: The facts of the base job.
        rulebook: The rules.
        packs: The folders of rules that `rulebook` has on top of the built-in ones.
        workers: How many processes judge; as many as there are processors if left out.
        cluster: The address of a Dask scheduler whose workers judge instead, or "".

    Attributes:
        rows: How many rows the table has, if it says so.

    Raises:
        Refused: If the table cannot be read.
    """

    def __init__(
        self,
        table: Path,
        base: Facts,
        rulebook: Rulebook,
        packs: Sequence[str | Path] = (),
        workers: int | None = None,
        cluster: str = "",
    ) -> None:
        file = read_columns(table)
        declared = {
            declaration.fact.path: declaration.kind for declaration in rulebook.declared.values()
        }
        wanted = [heading for heading in file.columns if heading != NAME]
        columns = tuple(read_table_columns(wanted, str(table), declared))
        _refuse_without_unit(columns, file.numeric, table)
        self.rows = file.rows
        self._parts = file.parts
        self._recipe = Recipe(base, columns, tuple(map(str, packs)), rulebook.digest)
        self._workers = workers or os.cpu_count() or 1
        self._cluster = cluster
        self._sample = EvenSample()

    def judged(self, form: Form) -> Iterator[JudgedPart]:
        """Judge the rows, some at a time, by all processes or the cluster."""
        recipe = replace(self._recipe, form=form)
        parts = self._sample.taken_from(self._parts)
        if self._cluster:
            import distributed

            client: Any = distributed.Client  # it comes without types
            with client(self._cluster, timeout="20s") as connected:
                yield from on_cluster(recipe, parts, connected)
            return
        # A table of one part is judged before another process has begun.
        begun = list(islice(parts, 2))
        workers = self._workers if len(begun) == 2 else 1
        yield from on_this_machine(recipe, chain(begun, parts), workers)

    @property
    def by_columns(self) -> ColumnPortfolio:
        """Return what judges by columns."""
        return portfolio_of(self._recipe)

    def finish(self, summary: Summary) -> None:
        """Add which single change would help most jobs, tried on some of them."""
        summary.remedies = remedies(self.by_columns, self._sample.part())


def _refuse_without_unit(
    columns: Sequence[TableColumn], numeric: frozenset[str], table: Path
) -> None:
    """Refuse columns of bare numbers where the fact is a quantity and nothing names its unit."""
    bare = [
        column.written
        for column in columns
        if column.written in numeric and isinstance(column.kind, QuantityKind) and not column.unit
    ]
    if bare:
        raise Refused(
            Problem(str(table), None, None, f"{_NEEDS_UNIT}'{name} [m]'.", name) for name in bare
        )


_NEEDS_UNIT = "This column holds bare numbers; its heading names their unit, as in "
