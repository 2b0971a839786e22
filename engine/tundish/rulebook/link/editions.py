"""Linking editions: tables of which several hold in turn, and rules that hold for a time."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.language.tree.kind import DATE, TRUTH
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.model.editions import Edition, edition_of

_DAY = "job.date"


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
        if len(editions) > 1 or any(one.first or one.last for one in editions)
    }
    for name, editions in several.items():
        for at, one in enumerate(editions):
            if any(_overlap(one, other) for other in editions[at + 1 :]):
                sentence = f"Two editions of '{name}' hold on one day."
                problems.append(tables[name].source.problem((), sentence))
    return several


def held_between(
    condition: t.Node, first: datetime.date | None, last: datetime.date | None
) -> t.Node:
    """Return a condition that is asked between two days alone.

    Args:
        condition: The condition.
        first: The first day on which it is asked, or None.
        last: The last day on which it is asked, or None.
    """
    day = t.Read(DATE, 0, 0, _DAY, "day of the description")
    known = t.Known(TRUTH, 0, 0, day)
    parts: list[t.Node] = [
        t.Comparison(TRUTH, 0, 0, sign, day, _constant(limit))
        for sign, limit in ((">=", first), ("<=", last))
        if limit is not None
    ]
    if not parts:
        return condition
    holds = parts[0] if len(parts) == 1 else t.Logic(TRUTH, 0, 0, "and", tuple(parts))
    newest = t.Constant(TRUTH, 0, 0, last is None, "true" if last is None else "false")
    # Whether the day is known is always known, so nobody is asked for it.
    on_its_day = t.Choice(TRUTH, 0, 0, known, holds, newest)
    return t.Logic(TRUTH, 0, condition.end, "and", (on_its_day, condition))


def _constant(day: datetime.date) -> t.Constant:
    return t.Constant(DATE, 0, 0, float(day.toordinal()), day.isoformat())


def _are_alike(one: Table, other: Table) -> bool:
    keys = [(key.name, key.kind, key.manner) for key in one.keys]
    return keys == [(key.name, key.kind, key.manner) for key in other.keys] and {
        name: column.kind for name, column in one.columns.items()
    } == {name: column.kind for name, column in other.columns.items()}


def _overlap(one: Edition, other: Edition) -> bool:
    first = max(one.first or 0.0, other.first or 0.0)
    last = min(one.last or float("inf"), other.last or float("inf"))
    return first <= last
