"""Editions of tables: each holds between two days, and the day of the job chooses one.

For a job without a day the newest edition is taken: the one that does not end.
"""

from __future__ import annotations

import datetime
from collections import ChainMap
from collections.abc import Mapping
from dataclasses import replace
from typing import cast

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.table import Table
from tundish.rulebook.model.cited_table import CitedTable


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
        holding = next((edition.table for edition in several if edition.holds(day)), None)
        table = tables[name]
        called = f"the table '{name}', of which no edition holds on the day of the job,"
        chosen[name] = holding or replace(table, tree={}, called=called)
    return ChainMap(chosen, cast("dict[str, Table]", tables))  # nothing is ever put into it


def _number(day: datetime.date | None) -> float | None:
    return None if day is None else float(day.toordinal())
