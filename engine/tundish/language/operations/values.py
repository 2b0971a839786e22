"""What operations mean on values, for the compiled and the explained form alike.

Unknown is None throughout: strong three-valued logic after Kleene, Introduction to
Metamathematics, 1952. Quantities are SI floats; a result that is no finite number is unknown.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence

TOLERANCE = 1e-9
"""Relative difference up to which two quantities count as equal: 150 mm is 15 cm at a limit."""

Truth = bool | None

DOES_NOT_HOLD = (ValueError, OverflowError, ZeroDivisionError)
"""What a function raises for values that it does not hold for."""


def nearly_equal(left: float, right: float) -> bool:
    """Say whether two finite quantities are equal as an engineer means it."""
    return abs(left - right) <= TOLERANCE * max(abs(left), abs(right))


def row_of(rows: Sequence[float], value: float) -> tuple[int, bool]:
    """Find a quantity among rows.

    Args:
        rows: Finite quantities, ascending.
        value: The quantity.

    Returns:
        The position of the row that is as good as equal to it, the lower of two, and True;
        otherwise that of the next row above, or behind the last, and False.
    """
    above = bisect_left(rows, value)
    # Of two that are in order, the greater size is that of the upper or the negative of the lower.
    if above:
        lower = rows[above - 1]
        off = value - lower
        if off <= TOLERANCE * value or off <= -TOLERANCE * lower:
            return above - 1, True
    if above < len(rows):
        upper = rows[above]
        off = upper - value
        if off <= TOLERANCE * upper or off <= -TOLERANCE * value:
            return above, True
    return above, False


def opposite(truth: Truth) -> Truth:
    """Return Kleene's negation."""
    return None if truth is None else not truth


def member(value: object, options: tuple[object, ...] | None) -> Truth:
    """Return whether a value is one of some options."""
    if value is None or options is None:
        return None
    if not isinstance(value, float):
        return value in options
    return any(isinstance(other, float) and nearly_equal(value, other) for other in options)


def apply(function: Callable[..., float], *values: float | None) -> float | None:
    """Return a function's value; unknown where an argument is, or where it does not hold."""
    if None in values:
        return None
    try:
        return finite(float(function(*values)))
    except DOES_NOT_HOLD:
        return None


def agreed(first: object, second: object) -> object:
    """Return the value of a choice with an unknown condition: known only where both agree.

    They must agree exactly: nearly equal ways would let a later fact change a decided value.
    """
    return first if first == second else None


def finite(value: float) -> float | None:
    """Return a number, or unknown where it is infinite or not a number."""
    return value if math.isfinite(value) else None
