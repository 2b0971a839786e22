"""A list to which more items may still be written, so that nobody knows what it lacks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

Item = TypeVar("Item")


class OpenList(list[Item]):
    """A list that need not be all there is.

    What one of its items settles is settled: a condition that must hold for all fails where it
    fails for one. All else is unknown, as a count is: the next item may change it.
    """

    __slots__ = ()


def like(items: list[Item], others: list[Item]) -> list[Item]:
    """Return items as a list that is open where another is.

    Args:
        items: The items.
        others: The other list.
    """
    return OpenList(items) if isinstance(others, OpenList) else items


def number_of(items: Sequence[object] | None) -> float | None:
    """Return how many items a list has; None where it is unknown or need not be complete."""
    return None if items is None or isinstance(items, OpenList) else float(len(items))
