"""A table with where it comes from, and when it holds."""

from __future__ import annotations

import datetime

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.table import Table
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.model.source import Citation


@dataclass(frozen=True, slots=True)
class CitedTable:
    """A table with where it comes from.

    Attributes:
        table: The table.
        citations: On whose authority.
        source: The file it stands in.
        edition_of: The table that this is another edition of, or None.
        holds_from: The first day on which it holds, or None.
        holds_until: The last day on which it holds, or None.
    """

    table: Table
    citations: tuple[Citation, ...]
    source: RuleFile
    edition_of: str | None = None
    holds_from: datetime.date | None = None
    holds_until: datetime.date | None = None
