"""What operations mean on values, for the compiled and the explained form alike.

Unknown is None throughout: strong three-valued logic after Kleene, Introduction to
Metamathematics, 1952. Quantities are SI floats; a result that is no finite number is unknown.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence

TOLERANCE = 1e-9
"""Relative difference below which two quantities are one: 150 mm is 15 cm at every limit."""

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


def less(left: float | None, right: float | None) -> Truth:
    """Return whether `left` is less than `right` by more than the tolerance."""
    if left is None or right is None:
        return None
    return left < right and not nearly_equal(left, right)


def at_most(left: float | None, right: float | None) -> Truth:
    """Return whether `left` is less than or nearly equal to `right`."""
    if left is None or right is None:
        return None
    return left <= right or nearly_equal(left, right)


def same(left: object, right: object) -> Truth:
    """Return whether two values of one kind are equal, quantities within the tolerance."""
    if left is None or right is None:
        return None
    if isinstance(left, float) and isinstance(right, float):
        return nearly_equal(left, right)
    return left == right


def different(left: object, right: object) -> Truth:
    """Return whether two values of one kind differ."""
    return opposite(same(left, right))


def more(left: float | None, right: float | None) -> Truth:
    """Return whether `left` is greater than `right` by more than the tolerance."""
    return less(right, left)


def at_least(left: float | None, right: float | None) -> Truth:
    """Return whether `left` is greater than or nearly equal to `right`."""
    return at_most(right, left)


COMPARE: dict[str, Callable[..., Truth]] = {
    "<": less,
    "<=": at_most,
    ">": more,
    ">=": at_least,
    "==": same,
    "!=": different,
}


def opposite(truth: Truth) -> Truth:
    """Return Kleene's negation."""
    return None if truth is None else not truth


def member(value: object, options: tuple[object, ...] | None) -> Truth:
    """Return whether a value is one of some options."""
    if value is None or options is None:
        return None
    return any(same(value, option) for option in options)


def product(left: float | None, right: float | None) -> float | None:
    """Return the product of two quantities."""
    return None if left is None or right is None else finite(left * right)


def total(left: float | None, right: float | None) -> float | None:
    """Return the sum of two quantities."""
    return None if left is None or right is None else finite(left + right)


def difference(left: float | None, right: float | None) -> float | None:
    """Return the difference of two quantities."""
    return None if left is None or right is None else finite(left - right)


def quotient(left: float | None, right: float | None) -> float | None:
    """Return the quotient of two quantities; unknown where the divisor is zero."""
    if left is None or right is None or right == 0:
        return None
    return finite(left / right)


def power(radix: float | None, exponent: float | None) -> float | None:
    """Return a power; unknown where it is no real number."""
    if radix is None or exponent is None:
        return None
    return apply(math.pow, radix, exponent)


def apply(function: Callable[..., float], *values: float | None) -> float | None:
    """Return a function's value; unknown where an argument is, or where it does not hold."""
    if any(value is None for value in values):
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


CALCULATE: dict[str, Callable[[float | None, float | None], float | None]] = {
    "+": total,
    "-": difference,
    "*": product,
    "/": quotient,
}
