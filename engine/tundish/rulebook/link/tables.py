"""Linking the tables of all packs, and editions of which several hold in turn."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language.operations.table import Table
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.table_files import read_table
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.model.editions import Edition, edition_of
from tundish.rulebook.model.source import Source


def link_tables(
    packs: list[Pack], sources: Mapping[str, Source], faults: Faults
) -> dict[str, CitedTable]:
    """Read the tables of all packs; two of one name are refused."""
    tables: dict[str, CitedTable] = {}
    for pack in packs:
        for name, file in pack.tables.items():
            if name in tables:
                faults.append(file.problem((), f"Another pack already has a table '{name}'."))
                continue
            table = read_table(name, file, sources, faults)
            if table is None:
                faults.refuse("table", name)
            else:
                tables[name] = table
    return tables


def link_editions(
    tables: Mapping[str, CitedTable], problems: Faults
) -> dict[str, tuple[Edition, ...]]:
    """Gather the editions of each table that has several, or holds for a time only.

    Args:
        tables: All tables, by their own names.
        problems: What is wrong so far.

    Returns:
        Editions by the name that formulas look them up under.
    """
    by_table: dict[str, list[Edition]] = {}
    for name, cited in tables.items():
        whole = cited.edition_of or name
        if whole not in tables and problems.has_refused("table", whole):
            continue
        if whole not in tables:
            sentence = f"There is no table '{whole}' that this could be an edition of."
            problems.append(cited.source.problem(("edition_of",), sentence))
            continue
        if not _are_alike(cited.table, tables[whole].table):
            sentence = f"An edition has the keys and columns of '{whole}'."
            problems.append(cited.source.problem(("edition_of",), sentence))
            continue
        by_table.setdefault(whole, []).append(edition_of(whole, name, cited))
    several = {
        name: tuple(editions)
        for name, editions in by_table.items()
        if len(editions) > 1 or any(edition.first or edition.last for edition in editions)
    }
    for name, editions in several.items():
        for at, edition in enumerate(editions):
            if any(_overlap(edition, other) for other in editions[at + 1 :]):
                sentence = f"Two editions of '{name}' hold on one day."
                problems.append(tables[name].source.problem((), sentence))
    return several


def _are_alike(table: Table, other: Table) -> bool:
    keys = [(key.name, key.kind, key.manner) for key in table.keys]
    return keys == [(key.name, key.kind, key.manner) for key in other.keys] and {
        name: column.kind for name, column in table.columns.items()
    } == {name: column.kind for name, column in other.columns.items()}


def _overlap(edition: Edition, other: Edition) -> bool:
    first = max(edition.first or 0.0, other.first or 0.0)
    last = min(edition.last or float("inf"), other.last or float("inf"))
    return first <= last
