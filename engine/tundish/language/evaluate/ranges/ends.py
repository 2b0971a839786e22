"""The ends of what an operation or a table gives, from the ends of its arguments."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from tundish.language.evaluate.ranges.range import Interval, Range, hull, points
from tundish.language.operations import values as v
from tundish.language.operations.operators import ARITHMETIC
from tundish.language.operations.table import Table
from tundish.language.tree.operation import Operation
from tundish.language.tree.tree import Value

_MOST_POINTS = 256  # four arguments at four points each


def count_of(choices: Sequence[Sequence[object]]) -> int:
    """Return how many combinations there are; 0 where they are too many to be tried."""
    count = math.prod(map(len, choices))
    return count if count <= _MOST_POINTS else 0


def tried(
    function: Callable[..., Value | None], choices: Sequence[Sequence[Value | None]]
) -> Range:
    """Return the hull of what a function gives at all combinations of its arguments.

    Args:
        function: The function.
        choices: The points to try of each argument.

    Returns:
        The hull; None where it has no value at one of them, or where they are too many.
    """
    if not count_of(choices):
        return None
    return hull([function(*at) for at in itertools.product(*choices)])


def is_monotone(operation: Operation, parts: Sequence[Range]) -> bool:
    """Say whether the ends of an operation's arguments give the ends of what it gives."""
    if operation is not ARITHMETIC["^"]:
        return operation.is_monotone
    base = parts[0]
    # A power of what is not negative rises or falls steadily with both.
    return (base.low if isinstance(base, Interval) else base) >= 0  # type: ignore[operator]


def operated(operation: Operation, parts: Sequence[Range]) -> Range:
    """Return the range of a monotone operation from those of its arguments, which may be endless.

    Args:
        operation: The operation.
        parts: The ranges of its arguments, numbers all of them.
    """
    choices = [points(part, with_middle=False) for part in parts]
    if not count_of(choices):
        return None
    return hull(list(_at_corners(operation, itertools.product(*choices))))


def _at_corners(operation: Operation, corners: Iterator[tuple[Any, ...]]) -> Iterator[Range]:
    for corner in corners:
        if all(map(math.isfinite, corner)):
            yield v.apply(operation.calculate, *corner)
            continue
        value = _at_infinity(operation, corner)
        if value is None or not math.isnan(value):
            yield value
        elif operation is ARITHMETIC["*"]:
            yield 0.0  # nothing, however often it is taken
        # Elsewhere, as of inf - inf, the other corners hold all that there is between.


def _at_infinity(operation: Operation, corner: Sequence[float]) -> float | None:
    try:
        return float(operation.calculate(*corner))
    except OverflowError:
        return corner[0]  # what cannot be rounded stays as great as it is
    except v.DOES_NOT_HOLD:
        return None


def looked_up(table: Table, column: str, parts: Sequence[Range]) -> Range:
    """Return the range of a table's column at keys that have ranges.

    Between two rows a table lies between what stands in them, so it is read at each row inside a
    range and at both ends.

    Args:
        table: The table.
        column: The column to read.
        parts: The ranges of the keys.
    """
    choices = [
        (*points(part, with_middle=False), *table.keys_within(at, part))
        if isinstance(part, Interval)
        else points(part)
        for at, part in enumerate(parts)
    ]
    if any(
        isinstance(part, Interval) and key.manner == "exact"
        for part, key in zip(parts, table.keys, strict=True)
    ):
        return None  # between its rows such a table has no value
    return tried(lambda *at: table.near(column, at), choices)
