"""Tables: cited rows of values, read exactly, at the next size up, or linearly between rows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from typing import Any, Literal

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.values import nearly_equal, row_of
from tundish.language.tree.kind import Kind
from tundish.units.unit import Unit

Manner = Literal["exact", "next up", "linear"]
Cell = float | str | bool
Rows = Mapping[Any, Cell]
"""What stands in a column by the key that hits a row, or by a tuple of keys where there are
several."""


@dataclass(frozen=True, slots=True)
class Key:
    """A column that a table is entered by.

    Attributes:
        name: What it is called.
        kind: The kind of value looked up.
        manner: How a value between two rows is read.
        unit: Of a quantity, the unit its rows are written in.
    """

    name: str
    kind: Kind
    manner: Manner
    unit: Unit | None = None


@dataclass(frozen=True, slots=True)
class Column:
    """A column that a table gives."""

    name: str
    kind: Kind
    unit: Unit | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """What a table gave, or why it gave nothing."""

    value: Cell | None
    why: str = ""


class Level(dict[Cell, object]):
    """One level of nested rows, by key; its numbers are gathered once, for every reading."""

    def __init__(self, rows: Mapping[Cell, object]) -> None:
        super().__init__(rows)
        self.numbers = _numbers(self)


@dataclass(frozen=True)
class Table:
    """A table of the rulebook, its quantities as SI values.

    Attributes:
        name: The name that `lookup` takes.
        title: What it lists.
        keys: The columns it is entered by, in the order of `lookup`'s arguments.
        columns: The columns it gives.
        tree: Rows nested by key: key value to the next key's level, in the end to the cells.
        called: How it is called in a reason; by its name where this is left out.
    """

    name: str
    title: str
    keys: tuple[Key, ...]
    columns: Mapping[str, Column]
    tree: Mapping[Cell, object]
    called: str = ""

    def read(self, column: str, values: Sequence[Cell]) -> Reading:
        """Read one column at some key values; never beyond the rows.

        Args:
            column: Name of the column to read.
            values: A value for each key [SI units], in the table's order.

        Returns:
            The value, or the reason why the table does not give one.
        """
        cell = self._at(self.tree, 0, values, self.positions[column])
        return Reading(cell, "" if cell is not None else self._why_not(self.tree, 0, values))

    def near(self, column: str, values: tuple[Cell | None, ...]) -> Cell | None:
        """Return what `read` gives, without a reason, where the values may hit no row.

        Args:
            column: Name of the column to read.
            values: A value for each key [SI units], in the table's order; None where one is not
                known, for which there is no row.
        """
        if None in values:
            return None
        return self._at(self.tree, 0, values, self.positions[column])  # type: ignore[arg-type]

    def rows(self, column: str) -> Rows:
        """Return the rows of one column.

        Args:
            column: Name of the column.
        """
        position, depth = self.positions[column], len(self.keys)
        rows = {keys: cells[position] for keys, cells in _rows_of(self.tree, depth)}
        return {keys[0]: cell for keys, cell in rows.items()} if depth == 1 else rows

    def keys_within(self, position: int, ends: tuple[float, float]) -> list[float]:
        """Return the numbers that a key has in the rows between two ends, in order.

        Args:
            position: The position of the key.
            ends: The ends, which are left out [SI units].
        """
        depth = len(self.keys)
        numbers = {keys[position] for keys, _ in _rows_of(self.tree, depth)}
        least, greatest = ends
        return sorted(key for key in numbers if isinstance(key, float) and least < key < greatest)

    @cached_property
    def positions(self) -> Mapping[str, int]:
        """Return where each column stands in a row."""
        return {column: position for position, column in enumerate(self.columns)}

    def _at(self, level: Any, depth: int, values: Sequence[Cell], position: int) -> Cell | None:
        """Return what stands below a level at the values from a depth on."""
        for at in range(depth, len(self.keys)):
            row = values[at]
            if row.__class__ is float:
                near = self._near(level, at, row)
                if len(near) > 1:
                    return self._between(level, at, near, values, position)
                if not near:
                    return None
                row = near[0]
            level = level.get(row)
            if level is None:
                return None
        cell: Cell = level[position]
        return cell

    def _between(
        self, level: Any, depth: int, near: Sequence[float], values: Sequence[Cell], position: int
    ) -> Cell | None:
        """Return what stands at a value between two rows of a level."""
        lower, upper = near
        first = self._at(level[lower], depth + 1, values, position)
        second = self._at(level[upper], depth + 1, values, position)
        if first is None or second is None:
            return None
        share = (values[depth] - lower) / (upper - lower)  # type: ignore[operator]
        return between(first, second, share)  # type: ignore[arg-type]

    def _near(self, level: Any, depth: int, value: float) -> Sequence[float]:
        """Return the row to read at, the two rows to read between, or none."""
        rows = level.numbers if isinstance(level, Level) else _numbers(level)
        at, hits = row_of(rows, value)
        manner = self.keys[depth].manner
        if hits or (manner == "next up" and at < len(rows)):
            return (rows[at],)
        if manner == "linear" and 0 < at < len(rows):
            return rows[at - 1], rows[at]
        return ()

    def _why_not(self, level: Any, depth: int, values: Sequence[Cell]) -> str:
        """Return why nothing stands below a level at the values from a depth on."""
        if depth == len(self.keys):
            return ""
        key, value = self.keys[depth], values[depth]
        if value.__class__ is not float:
            if value not in level:
                return f"{self._called} has no row for {key.name} '{value}'"
            return self._why_not(level[value], depth + 1, values)
        near = self._near(level, depth, value)
        if not near:
            return f"{self._called} does not reach that {key.name}"
        reasons = (self._why_not(level[row], depth + 1, values) for row in near)
        return next(filter(None, reasons), "")

    @property
    def _called(self) -> str:
        return self.called or f"the table '{self.name}'"


class RowsOfTables(dict[tuple[str, str], Rows]):
    """The rows of tables by the name of a table and of a column, gathered as each is asked for.

    Args:
        tables: The tables by name.

    Attributes:
        tables: The tables by name.

    Example:
        >>> from tundish.language.tree.kind import PLAIN_NUMBER, text_kind
        >>> key = Key("colour", text_kind(), "exact")
        >>> columns = {"width": Column("width", PLAIN_NUMBER)}
        >>> rows = RowsOfTables({"t": Table("t", "t", (key,), columns, {"red": (1.0,)})})
        >>> rows["t", "width"].get("red")
        1.0
    """

    def __init__(self, tables: Mapping[str, Table]) -> None:
        super().__init__()
        self.tables = tables

    def __missing__(self, key: tuple[str, str]) -> Rows:
        """Gather the rows of a column, and keep them."""
        table, column = key
        return self.setdefault(key, self.tables[table].rows(column))


def _numbers(level: Mapping[Cell, object]) -> list[float]:
    return [row for row in level if isinstance(row, float)]


def _rows_of(level: Any, depth: int) -> Iterator[tuple[tuple[Cell | None, ...], tuple[Cell, ...]]]:
    """Give the cells of each row with the keys that hit it."""
    if not depth:
        yield (), level
        return
    lower: float | None = None
    for key, below in level.items():
        before, lower = lower, key if isinstance(key, float) else None
        # A number that hits two rows, as good as equal, is read at the lower one.
        if before is not None and lower is not None and nearly_equal(before, lower):
            continue
        if depth == 1:
            yield (key,), below
            continue
        for keys, cells in _rows_of(below, depth - 1):
            yield (key, *keys), cells


def between(first: float, second: float, share: float) -> float:
    """Return the value at a share of the way from one to another."""
    return first + (second - first) * share
