"""Editions: rules and tables that hold between two days, chosen by the day of the job.

Of a job without a day the newest edition is taken: the one that does not end.
"""

from __future__ import annotations

import datetime
from collections import ChainMap
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, cast

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.language.tree.kind import DATE, TRUTH
from tundish.rulebook.model.cited_table import CitedTable

if TYPE_CHECKING:
    from tundish.rulebook.files.faults import Faults

_DAY = "job.date"


@dataclass(frozen=True, slots=True)
class Edition:
    """An edition of a table.

    Attributes:
        table: The table, under the name of which it is an edition.
        called: Its own name.
        first: Number of the first day on which it holds, or None.
        last: Number of the last day on which it holds, or None.
    """

    table: Table
    called: str
    first: float | None
    last: float | None

    def holds(self, day: object) -> bool:
        """Say whether it holds on a day, or is the newest where no day is known."""
        if not isinstance(day, float):
            return self.last is None
        begun = self.first is None or self.first <= day
        return begun and (self.last is None or day <= self.last)


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
    found: dict[str, list[Edition]] = {}
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
        found.setdefault(whole, []).append(edition_of(whole, name, cited))
    several = {
        name: tuple(editions)
        for name, editions in found.items()
        if len(editions) > 1 or any(one.first or one.last for one in editions)
    }
    for name, editions in several.items():
        for at, one in enumerate(editions):
            if any(_overlap(one, other) for other in editions[at + 1 :]):
                sentence = f"Two editions of '{name}' hold on one day."
                problems.append(tables[name].source.problem((), sentence))
    return several


def edition_of(whole: str, name: str, cited: CitedTable) -> Edition:
    """Return a table as an edition.

    Args:
        whole: The name that formulas look it up under.
        name: Its own name.
        cited: The table.
    """
    table = replace(cited.table, name=whole)
    return Edition(table, name, _number(cited.holds_from), _number(cited.holds_until))


def edition_tables(
    editions: Mapping[str, tuple[Edition, ...]], tables: Mapping[str, Table], day: object
) -> Mapping[str, Table]:
    """Return tables by name, each in the edition that holds on a day.

    Args:
        editions: Editions of the tables that have several.
        tables: All tables.
        day: Number of the day, or anything else where none is known.
    """
    chosen: dict[str, Table] = {}
    for name, several in editions.items():
        holding = next((one.table for one in several if one.holds(day)), None)
        table = tables[name]
        called = f"the table '{name}', of which no edition holds on the day of the job,"
        chosen[name] = holding or replace(table, tree={}, called=called)
    return ChainMap(chosen, cast("dict[str, Table]", tables))  # nothing is ever put into it


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


def _number(day: datetime.date | None) -> float | None:
    return None if day is None else float(day.toordinal())


def _are_alike(one: Table, other: Table) -> bool:
    keys = [(key.name, key.kind, key.manner) for key in one.keys]
    return keys == [(key.name, key.kind, key.manner) for key in other.keys] and {
        name: column.kind for name, column in one.columns.items()
    } == {name: column.kind for name, column in other.columns.items()}


def _overlap(one: Edition, other: Edition) -> bool:
    first = max(one.first or 0.0, other.first or 0.0)
    last = min(one.last or float("inf"), other.last or float("inf"))
    return first <= last
