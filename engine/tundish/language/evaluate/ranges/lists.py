"""What functions over a list come to where its items, or how many there are, have ranges."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence

from tundish.language.evaluate.ranges.range import (
    Interval,
    Range,
    high,
    hull,
    interval,
    low,
    point,
    points,
)
from tundish.language.operations.aggregates import Aggregate, Spread
from tundish.language.operations.interpolation import by_place, interpolated
from tundish.language.tree.tree import Value

Round = tuple[bool | str | None, Range]
"""Whether an item counts, and the range of its term."""

LOST: Round = ("lost", None)
"""The round of an item of which neither may ever be known."""


def truth_over(aggregate: Aggregate, rounds: Sequence[Round], more: Round | None) -> Value | None:
    """Return what a function of conditions comes to.

    Args:
        aggregate: The function.
        rounds: The rounds of the items.
        more: The round of any further item; None where there are no more.
    """
    truths = [_truths(test, term) for test, term in rounds]
    if more is not None and more[0] is not False:
        # Whether there is a further item is not known, so it counts for certain in nothing.
        truths.append((None, _truths(*more)[1]))
    return aggregate.value(truths)


def _truths(test: bool | str | None, term: Range) -> tuple[bool | None, bool | None]:
    return (
        test if isinstance(test, bool) else None,
        term if isinstance(term, bool) else None,
    )


def number_over(aggregate: Aggregate, rounds: Sequence[Round], more: Round | None) -> Range:
    """Return the range of a function that gives a quantity.

    Args:
        aggregate: The function.
        rounds: The rounds of the items.
        more: The round of any further item; None where there are no more.
    """
    if LOST in (*rounds, more):
        return None
    if aggregate.ends is None:
        settled = [
            (test is True or None, point(term)) for test, term in rounds if test is not False
        ]
        return aggregate.value(settled) if more is None else None
    counting = [(test is True, _ends(term)) for test, term in rounds if test is not False]
    spreads: list[Spread] = [(counts, *ends) for counts, ends in counting]
    if more is not None and more[0] is not False:
        least, most = _ends(more[1])
        if aggregate.is_total:  # there may be any number of them
            least, most = -math.inf if least < 0 else 0.0, math.inf if most > 0 else 0.0
        spreads.append((False, least, most))
    both = aggregate.ends(spreads)
    return None if both is None else interval(*both)


def _ends(term: Range) -> tuple[float, float]:
    """Return the ends of a quantity, or how often a condition holds."""
    if term is None:
        return 0.0, 1.0
    if isinstance(term, Interval):
        return term
    assert isinstance(term, float | bool)
    return float(term), float(term)


def interpolated_over(rows: Sequence[Sequence[Range]], at: Sequence[Range]) -> Range:
    """Return the range of a reading between the items of a list.

    Between two items it lies between their values, so it is read at each item inside a range and
    at both ends.

    Args:
        rows: The keys and the value of each item.
        at: Where to read, a range for each key.
    """
    if any(not isinstance(key, float) for row in rows for key in row[:-1]):
        return None
    places = itertools.product(*(_places(place, rows, key) for key, place in enumerate(at)))
    return hull(list(_readings(rows, places)))


def _places(place: Range, rows: Sequence[Sequence[Range]], key: int) -> list[Value | None]:
    ends = points(place, with_middle=False)
    if not isinstance(place, Interval):
        return list(ends)
    keys = {row[key] for row in rows}
    return [*ends, *(at for at in keys if isinstance(at, float) and place.low < at < place.high)]


def _readings(
    rows: Sequence[Sequence[Range]], places: Iterator[tuple[Value | None, ...]]
) -> Iterator[Range]:
    both: tuple[Callable[[Range], Value | None], ...] = (low, high)
    ends = [[tuple(map(end, row)) for row in rows] for end in both]
    for at in places:
        for cells in ends:
            if any(not isinstance(cell, float) for row in cells for cell in row):
                yield None
            else:
                yield interpolated(by_place(cells), at)  # type: ignore[arg-type]
