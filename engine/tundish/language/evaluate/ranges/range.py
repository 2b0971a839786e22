"""Ranges: intervals of quantities and sets of choices, and the points and hulls of them."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from tundish.language.operations.operators import Relation
from tundish.language.operations.values import nearly_equal
from tundish.language.tree.tree import Value


class Interval(NamedTuple):
    """Where a quantity lies [SI units], both ends included."""

    low: float
    high: float


class Choices(frozenset[str]):
    """The texts that a text may be."""

    __slots__ = ()


Range = Value | Interval | Choices | None
"""What a value may be: the value itself where it is one; None where it is unknown or, of a truth,
either."""


def interval(low: float, high: float) -> Range:
    """Return the range between two ends; a value where they are the same."""
    return low if low == high else Interval(low, high)


def point(value: Range) -> Value | None:
    """Return a value that is the same all over its range, else nothing."""
    if isinstance(value, Interval):
        return value.low if not math.isinf(value.high) and nearly_equal(*value) else None
    return None if isinstance(value, Choices) else value


def points(value: Range, with_middle: bool = True) -> tuple[Value | None, ...]:
    """Return the ends of a range, its middle, and zero where operations often turn or fail.

    Args:
        value: The range; all of its choices are returned.
        with_middle: Whether the middle of an interval is wanted.
    """
    if isinstance(value, Choices):
        return tuple(value)
    if not isinstance(value, Interval):
        return (value,)
    turn = (0.0,) if value.low < 0 < value.high else ()
    middle = ((value.low + value.high) / 2,) if with_middle else ()
    return tuple(dict.fromkeys((value.low, *middle, value.high, *turn)))


def low(value: Range) -> Value | None:
    """Return the lower end of an interval, or the one value that there is."""
    return value.low if isinstance(value, Interval) else point(value)


def high(value: Range) -> Value | None:
    """Return the upper end of an interval, or the one value that there is."""
    return value.high if isinstance(value, Interval) else point(value)


def hull(values: Iterable[Range]) -> Range:
    """Return the least range that holds several; None where one of them is unknown."""
    members = list(values)
    if not members or None in members:
        return None
    first = members[0]
    if isinstance(first, float | Interval):
        # They are of one kind, and so all are numbers.
        least, greatest = min(map(low, members)), max(map(high, members))  # type: ignore[type-var]
        return interval(least, greatest)  # type: ignore[arg-type]
    if members.count(first) == len(members):
        return first
    if isinstance(first, str | Choices):
        return Choices(
            text for member in members for text in points(member) if isinstance(text, str)
        )
    return None


def clipped(value: Range, least: float | None, greatest: float | None) -> Range:
    """Return the part of a range that a quantity can have; None where it has none.

    Args:
        value: The range.
        least: The least that the quantity can be; None where nothing bounds it.
        greatest: The most that it can be; None where nothing bounds it.
    """
    if not isinstance(value, float | Interval):
        return value
    ends = value if isinstance(value, Interval) else (value, value)
    first = ends[0] if least is None else max(ends[0], least)
    last = ends[1] if greatest is None else min(ends[1], greatest)
    return interval(first, last) if first <= last else None


def _holds(relation: Relation, first: float, second: float) -> bool | None:
    if math.isinf(first) or math.isinf(second):  # nothing is nearly as great as that
        return bool(relation.holds(first, second, first == second))
    return relation.truth(first, second)


def compared(relation: Relation, left: Range, right: Range) -> bool | None:
    """Return whether a comparison holds, or fails, wherever two quantities lie in their ranges.

    Args:
        relation: The comparison.
        left: The quantity before its sign.
        right: The quantity behind it.
    """
    if not isinstance(left, float | Interval) or not isinstance(right, float | Interval):
        return None
    left_low, left_high = left if isinstance(left, Interval) else (left, left)
    right_low, right_high = right if isinstance(right, Interval) else (right, right)
    truths = {
        _holds(relation, first, second)
        for first in (left_low, left_high)
        for second in (right_low, right_high)
    }
    if len(truths) > 1:
        return None
    # Ends that all differ leave room for equal values between them.
    if not relation.direction and left_low <= right_high and right_low <= left_high:
        at = point(left), point(right)
        if None in at or at[0] != at[1]:
            return None
    return truths.pop()
