"""The order of an interview that goes through a house rather than by what decides the most."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from tundish.job.job import Job
from tundish.job.model.paths import without_positions

Order = Callable[[str], Any]
"""Gives for the path of a fact, without positions, what it is sorted by."""

_BEHIND_ALL = 10_000


def schema_order(path: str) -> tuple[int, ...]:
    """Return where a fact stands in the job model, as positions from the outermost part in.

    Args:
        path: A dotted path without positions.

    Example:
        >>> schema_order("site.altitude") < schema_order("water.fluid")
        True
    """
    part: Any = Job
    places = []
    for name in path.split("."):
        names = list(part.members) if part is not None else []
        places.append(names.index(name) if name in names else _BEHIND_ALL)
        member = part.members[name] if name in names else None
        try:
            part = member.part if member is not None else None
        except TypeError:
            part = None
    return tuple(places)


def walking_key(path: str, order: Order) -> tuple[Any, tuple[int, ...], Any]:
    """Return what questions are sorted by: the items of a list one after the other.

    Args:
        path: The path of a fact, positions counted from 1.
        order: The order of facts.
    """
    plain = without_positions(path)
    outermost = path.partition("[")[0]
    positions = tuple(int(number) for number in re.findall(r"\[([0-9]+)\]", path))
    return (order(outermost), positions, order(plain))
