"""The columns of a table of jobs, each a fact, and what its cells say."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts, Value, add_fact
from tundish.job.job import Job
from tundish.job.model.kinds import FactKind, QuantityKind, WholeKind
from tundish.job.model.paths import outer_paths
from tundish.job.model.pipe_size import PipeKind
from tundish.job.model.schema import Fact, Items
from tundish.job.schema import job_schema
from tundish.job.text_answers import parse_answer
from tundish.text.nearest import did_you_mean
from tundish.text.problem import Problem, Problems, Refused
from tundish.text.quoted import quoted
from tundish.units.quantity import MeasureError, Quantity, parse_quantity
from tundish.units.unit import Unit, read_unit

NAME = "job"
"""The column that names each job; the number of its row stands in where there is none."""

_OF_A_PIPE = ("name", "material", "size", "outside_diameter", "wall")


@dataclass(frozen=True, slots=True)
class TableColumn:
    """A column of a table of jobs.

    Attributes:
        written: The heading as it stands in the table.
        path: The path of the fact.
        kind: What the fact can be.
        unit: The unit of bare numbers in the column, where the heading names one.
    """

    written: str
    path: str
    kind: FactKind
    unit: Unit | None = None

    @property
    def paths(self) -> tuple[str, ...]:
        """Return the paths of all facts that a cell says: several of a pipe."""
        if isinstance(self.kind, PipeKind):
            return (self.path, *(f"{self.path}.{name}" for name in _OF_A_PIPE))
        return (self.path,)

    @property
    def groups(self) -> tuple[str, ...]:
        """Return the groups of facts around it, which are there where the fact is."""
        return tuple(outer_paths(self.path))

    def read(self, cell: Any) -> dict[str, Value]:
        """Return what a cell says, by path, as rules meet it; nothing where it is empty.

        Raises:
            ValueError: If it is no such fact; the text says what would be right.
        """
        if is_empty(cell):
            return {}
        facts = Facts()
        add_fact(self._read(cell), self.path, facts)
        return facts.values

    def _read(self, cell: Any) -> Any:
        if self.unit is None:
            return self.kind.read(_as_in_file(cell, self.kind))
        if isinstance(cell, int | float) and not isinstance(cell, bool):
            return self._number(cell)
        if not isinstance(cell, str):
            raise ValueError(f"Write a number of {self.unit}, not {quoted(cell)}.")
        try:
            quantity = parse_quantity(f"{cell} {self.unit}")
        except MeasureError:
            raise ValueError(
                f"{quoted(cell)} is no number; the heading gives the unit, {self.unit}."
            ) from None
        return self.kind.read(quantity)

    def _number(self, cell: float) -> Any:
        """Read a binary number as exactly what it is; a complaint shows it as people write it."""
        assert self.unit is not None
        if isinstance(cell, float) and not math.isfinite(cell):
            raise ValueError(f"{cell} is no number that can be measured.")
        try:
            return self.kind.read(Quantity(Decimal(cell), self.unit))
        except ValueError:
            return self.kind.read(Quantity(Decimal(repr(cell)), self.unit))


def is_empty(cell: Any) -> bool:
    """Say whether a cell leaves its fact not known; not-a-number does."""
    return cell is None or cell == "" or (isinstance(cell, float) and math.isnan(cell))


def read_table_columns(
    columns: Iterable[str], file: str = "", declared: Mapping[str, FactKind] | None = None
) -> list[TableColumn]:
    """Read the headings of a table, without that of the names.

    Args:
        columns: The headings: paths of facts, each with the unit of its numbers if they have one,
            as in ``site.snow_depth [mm]``.
        file: The name of the table.
        declared: Kinds of facts that packs of rules declare, by path.

    Raises:
        Refused: If one is no fact of a job, stands there twice, or has a wrong unit.

    Example:
        >>> read_table_columns(["site.snow_depth [mm]"])[0].read(120)
        {'site.snow_depth': 0.12}
    """
    headings: dict[str, TableColumn] = {}
    problems = Problems()
    for column in columns:
        try:
            heading = _heading(column, declared or {})
            if heading.path in headings:
                raise ValueError(f"The column {quoted(heading.path)} stands there twice.")
            headings[heading.path] = heading
        except ValueError as error:
            problems.append(Problem(file, 1 if file else None, None, str(error), column))
    if problems:
        raise Refused(problems)
    return list(headings.values())


def _heading(column: str, declared: Mapping[str, FactKind]) -> TableColumn:
    path, bracket, in_brackets = column.partition(" [")
    path = path.strip()
    kind = declared.get(path) or _kind(path)
    if kind is None:
        hint = did_you_mean(path, _paths())
        raise ValueError(f"The column {quoted(column)} is no fact outside a list.{hint}")
    if not bracket:
        return TableColumn(column, path, kind)
    if not in_brackets.rstrip().endswith("]"):
        raise ValueError(f"The unit in {quoted(column)} stands in square brackets at the end.")
    if not isinstance(kind, QuantityKind):
        raise ValueError(f"The column {quoted(path)} has no unit.")
    unit = read_unit(in_brackets.rstrip().removesuffix("]").strip())
    if unit.dimension != kind.dimension or (unit.point != kind.point and not kind.difference):
        raise ValueError(
            f"The column {quoted(path)} cannot be in '{unit}': "
            f"it is {kind.noun} such as '{_example(path, kind)}'."
        )
    return TableColumn(column, path, kind, unit)


@lru_cache(maxsize=1)
def _paths() -> tuple[str, ...]:
    """Return the paths of all facts, which many wrong headings are compared with."""
    return tuple(fact.path for fact in job_schema().facts())


def _example(path: str, kind: QuantityKind) -> str:
    fact = job_schema().find(path)
    return fact.example if isinstance(fact, Fact) else kind.example


def _kind(path: str) -> FactKind | None:
    """Return the kind of a fact outside lists, or None where there is none."""
    if not path or "[" in path:
        return None
    entries = map(job_schema().find, (*outer_paths(path), path))
    outside_lists = all(entry and not isinstance(entry, Items) for entry in entries)
    return Job.kind_at(path) if outside_lists else None


def _as_in_file(cell: Any, kind: FactKind) -> Any:
    """Return a cell as a job file would have it: tables know texts where files know truths."""
    if isinstance(cell, float) and isinstance(kind, WholeKind) and cell.is_integer():
        return int(cell)
    return parse_answer(cell, kind) if isinstance(cell, str) else cell
