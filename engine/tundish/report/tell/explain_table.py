"""Explaining a table of the rulebook: how it is entered, what it gives, its rows, who uses it."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.language.operations.table import Cell, Column, Table
from tundish.report.page.line import GAP, Line, entries, items, section
from tundish.report.tell.citations import citation_lines
from tundish.report.tell.dependencies import rules_that_use
from tundish.report.tell.explain_fact import key_of
from tundish.report.tell.phrases import counted, day
from tundish.rulebook.link.facts_read import tables_read
from tundish.rulebook.model.choices import SEVERITIES
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.rulebook import Rulebook
from tundish.units.format import show
from tundish.units.unit import Unit

_MOST_ROWS = 12
_SOME_ROWS = 8
_MOST_COLUMNS = 8
_DIGITS = 6

_MANNERS = {
    "exact": "exactly",
    "next up": "at the next larger row",
    "linear": "between two rows on a straight line",
}


def table_lines(cited: CitedTable, rulebook: Rulebook) -> Iterator[Line]:
    """Give all that a table says and rests on.

    Args:
        cited: The table, with where it comes from.
        rulebook: What looks things up in it.
    """
    table = cited.table
    yield Line("heading", table.title)
    yield Line("under", f"table {table.name}")
    yield GAP
    yield from entries("entered by", [_key(table, at) for at in range(len(table.keys))])
    yield from entries("gives", [_column(column) for column in table.columns.values()])
    yield from _editions(cited)
    yield from citation_lines(cited.citations)
    yield Line("entry", cited.source.file.name, "written in")
    yield from _rows(table)
    yield from _users(cited.edition_of or table.name, rulebook)


def _column(column: Column) -> str:
    if column.unit is None:
        return f"{column.name}, a text"
    plain = column.unit.symbol == "1"
    return f"{column.name}, a plain number" if plain else f"{column.name} in {column.unit}"


def _key(table: Table, depth: int) -> str:
    """Say what a key is, how it is read, and from where to where."""
    key, values = table.keys[depth], _values_at(table, depth)
    manner = f"read {_MANNERS[key.manner]}"
    numbers = [value for value in values if isinstance(value, float)]
    if key.unit and numbers:
        least, most = (show(value, key.unit, _DIGITS) for value in (min(numbers), max(numbers)))
        return f"{key.name}, {manner}, from {least} to {most}"
    return f"{key.name}, {manner}: {', '.join(str(value) for value in values)}"


def _values_at(table: Table, depth: int) -> list[Cell]:
    return list(dict.fromkeys(keys[depth] for keys, _ in _all_rows(table)))


def _all_rows(table: Table) -> list[tuple[tuple[Cell, ...], tuple[Cell, ...]]]:
    """Return the keys and cells of every row [SI units]."""
    levels: list[tuple[tuple[Cell, ...], object]] = [((), table.tree)]
    for _ in table.keys:
        levels = [
            ((*keys, key), inner)
            for keys, level in levels
            for key, inner in level.items()  # type: ignore[attr-defined]
        ]
    return levels  # type: ignore[return-value]


def _editions(cited: CitedTable) -> Iterator[Line]:
    if cited.edition_of:
        yield Line("entry", f"an edition of {cited.edition_of}", "edition")
    if cited.holds_from:
        yield Line("entry", f"from {day(cited.holds_from)} on", "holds")
    if cited.holds_until:
        yield Line("entry", f"until {day(cited.holds_until)}", "holds")


def _rows(table: Table) -> Iterator[Line]:
    rows = _all_rows(table)
    shown = rows if len(rows) <= _MOST_ROWS else rows[:_SOME_ROWS]
    name = "its rows" if shown is rows else f"the first of its {counted(len(rows), 'row')}"
    yield from (GAP, Line("section", name))
    columns = list(table.columns.values())
    for keys, cells in shown:
        at = ", ".join(_cell(value, key.unit) for value, key in zip(keys, table.keys, strict=True))
        values = [
            f"{f'{column.name} ' * (len(columns) > 1)}{_cell(cell, column.unit)}"
            for cell, column in zip(cells, columns, strict=True)
        ]
        more = f"; and {len(values) - _MOST_COLUMNS} more" if len(values) > _MOST_COLUMNS else ""
        yield Line("item", f"{at}: {'; '.join(values[:_MOST_COLUMNS])}{more}")


def _cell(value: Cell, unit: Unit | None) -> str:
    return show(value, unit, _DIGITS) if isinstance(value, float) and unit else str(value)


def _users(name: str, rulebook: Rulebook) -> Iterator[Line]:
    quantities = [
        quantity for quantity in rulebook.quantities.values() if name in tables_read(quantity)
    ]
    texts = (f"{quantity.label}  ({quantity.name})" for quantity in quantities)
    yield from section("quantities that use it", items(texts))
    through = {rule.name for rule in rules_that_use(quantities, rulebook)}
    rules = [
        rule
        for rule in rulebook.rules.values()
        if rule.name in through or name in tables_read(rule)
    ]
    rules.sort(key=lambda rule: (SEVERITIES.index(rule.severity), rule.name))
    lines = (
        Line("finding", f"{rule.title}  ({rule.name})", severity=rule.severity) for rule in rules
    )
    yield from section("rules that use it, themselves or through a quantity", lines)
    parts = [part for part in rulebook.provisions.values() if name in tables_read(part)]
    texts = (f"{part.part}  ({key_of(part)})" for part in parts)
    yield from section("parts of the order list that use it", items(texts))
