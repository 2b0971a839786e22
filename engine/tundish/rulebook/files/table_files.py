"""Reading table files: cited rows, checked for order, width and kind."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from tundish.language.operations.table import Cell, Column, Key, Level, Table
from tundish.language.tree.kind import Kind, quantity_kind, text_kind
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import TableShape
from tundish.rulebook.files.read_file import read_shape
from tundish.rulebook.files.sources_file import cited
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.model.source import Source
from tundish.text.problem import Problem
from tundish.units.quantity import Quantity
from tundish.units.unit import MeasureError, Unit, read_unit


def read_table(
    name: str, file: RuleFile, sources: Mapping[str, Source], problems: Faults
) -> CitedTable | None:
    """Read a table file.

    Args:
        name: The name that `lookup` takes.
        file: The file.
        sources: The bibliography.
        problems: Gets what is wrong.

    Returns:
        The table, or nothing where its shape is wrong.
    """
    shape, wrong = read_shape(TableShape, file.file.data, file, (), "table")
    problems.extend(wrong)
    if shape is None:
        return None
    citations = cited(shape.cite, sources, file, (), problems)
    before = len(problems)
    keys = [
        Key(key.name, _kind(key.unit, file, ("keys", at), problems), key.read, _unit(key.unit))
        for at, key in enumerate(shape.keys)
    ]
    columns = {
        column.name: Column(
            column.name, _kind(column.unit, file, ("gives", at), problems), _unit(column.unit)
        )
        for at, column in enumerate(shape.gives)
    }
    for at, key in enumerate(shape.keys):
        if key.read != "exact" and key.unit is None:
            problems.append(file.problem(("keys", at), f"A text is read exactly, not {key.read}."))
    names = [*(key.name for key in shape.keys), *(column.name for column in shape.gives)]
    if len(set(names)) < len(names):
        problems.append(file.problem((), "Every key and column has a name of its own."))
    if any(key.manner == "linear" for key in keys):
        for at, column in enumerate(shape.gives):
            if column.unit is None:
                sentence = "A text cannot be read linearly between rows."
                problems.append(file.problem(("gives", at), sentence))
    if len(problems) > before:
        return None
    tree = _tree(shape, keys, list(columns.values()), file, problems)
    return CitedTable(
        Table(name, shape.title, tuple(keys), columns, tree),
        citations,
        file,
        shape.edition_of,
        shape.holds_from,
        shape.holds_until,
    )


def _unit(text: str | None) -> Unit | None:
    try:
        return None if text is None else read_unit(text)
    except MeasureError:
        return None


def _kind(
    text: str | None, file: RuleFile, at: tuple[str | int, ...], problems: list[Problem]
) -> Kind:
    if text is None:
        return text_kind()
    try:
        unit = read_unit(text)
    except MeasureError as error:
        problems.append(file.problem((*at, "unit"), str(error)))
        return text_kind()
    return quantity_kind(unit.dimension, unit.point)


def _tree(
    shape: TableShape,
    keys: list[Key],
    columns: list[Column],
    file: RuleFile,
    problems: list[Problem],
) -> dict[Cell, object]:
    """Nest the rows by key, in ascending order of numbers, refusing a row that stands twice."""
    tree: dict[Cell, object] = {}
    units = [key.unit for key in keys] + [column.unit for column in columns]
    width = len(units)
    for at, row in enumerate(shape.rows):
        if len(row) != width:
            problems.append(
                file.problem(("rows", at), f"This row has {len(row)} cells; each has {width}.")
            )
            continue
        cells = [_cell(value, unit) for value, unit in zip(row, units, strict=True)]
        if None in cells:
            problems.append(
                file.problem(
                    ("rows", at),
                    "A cell does not fit its column: a number stands where there is a unit, "
                    "a text where there is none.",
                )
            )
            continue
        _put(tree, [cell for cell in cells if cell is not None], len(keys), file, at, problems)
    return _sorted(tree, len(keys))


def _put(
    tree: dict[Cell, object],
    cells: list[Cell],
    depth: int,
    file: RuleFile,
    at: int,
    problems: list[Problem],
) -> None:
    level = tree
    for cell in cells[: depth - 1]:
        inner = level.setdefault(cell, {})
        assert isinstance(inner, dict)
        level = inner
    if cells[depth - 1] in level:
        problems.append(file.problem(("rows", at), "A row with these keys already stands above."))
    level[cells[depth - 1]] = tuple(cells[depth:])


def _sorted(level: dict[Cell, object], depth: int) -> dict[Cell, object]:
    ordered = sorted(level, key=lambda cell: (isinstance(cell, str), cell))
    return Level(
        {
            cell: _sorted(inner, depth - 1) if isinstance(inner := level[cell], dict) else inner
            for cell in ordered
        }
    )


def _cell(value: float | str | bool, unit: Unit | None) -> Cell | None:
    """Return a cell as an SI value, or nothing where it does not fit its column."""
    if isinstance(value, str) or unit is None:
        return value if isinstance(value, str) and unit is None else None
    if isinstance(value, bool):
        return None
    try:
        return Quantity(Decimal(str(value)), unit).si
    except (ValueError, OverflowError):  # a TOML number may be infinite, or too large for a float
        return None
