"""Days that stand in the files of a pack: when something holds, and when it was reviewed."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any

from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.place import Path
from tundish.text.problem import Problem

_PROGRAM_WRITTEN = datetime.date(2026, 12, 1)
"""A machine whose clock is behind this day has a wrong one, and nothing is refused for that."""

_GRACE = datetime.timedelta(days=1)
"""East of here it is tomorrow already."""


def today() -> datetime.date:
    """Return the day by the machine's clock."""
    return datetime.date.today()


def day_problems(data: Mapping[str, Any], source: RuleFile, at: Path) -> list[Problem]:
    """Find days of a table that cannot be meant.

    Args:
        data: The table, of whatever shape.
        source: The file it comes from.
        at: Where in the file it stands.
    """
    problems = []
    reviewed, first, last = (
        _day(data.get(key)) for key in ("reviewed", "holds_from", "holds_until")
    )
    if reviewed is not None and reviewed > max(today(), _PROGRAM_WRITTEN) + _GRACE:
        sentence = (
            f"'reviewed' is {reviewed}, which is still to come: write the day on which it was last "
            "read against its sources."
        )
        problems.append(source.problem((*at, "reviewed"), sentence))
    if first is not None and last is not None and first > last:
        sentence = f"It would hold on no day: 'holds_from' is {first}, after 'holds_until', {last}."
        problems.append(source.problem((*at, "holds_until"), sentence))
    return problems


def _day(value: object) -> datetime.date | None:
    """Return a day; nothing of what is none, or a moment of one."""
    is_day = isinstance(value, datetime.date) and not isinstance(value, datetime.datetime)
    return value if is_day and isinstance(value, datetime.date) else None
