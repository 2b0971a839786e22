"""Ranges of what runs over a list: counts, loops, readings between items."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Protocol

from tundish.groundwork.open_list import OpenList, number_of
from tundish.language.evaluate.environment import Binding, Bound, path_at
from tundish.language.evaluate.ranges import either
from tundish.language.evaluate.ranges.either import is_either
from tundish.language.evaluate.ranges.lists import (
    LOST,
    Round,
    interpolated_over,
    number_over,
    truth_over,
)
from tundish.language.evaluate.ranges.range import Interval, Range
from tundish.language.evaluate.session import Item
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.tree import tree as t
from tundish.language.tree.kind import TRUTH


class Walker(either.Walker, Protocol):
    """What evaluates the parts of a tree over ranges."""

    unsettled: dict[str, Sequence[t.Value]]

    @property
    def further(self) -> Item:
        """Return the facts of an item that may still be added to a list."""

    @property
    def is_exact(self) -> bool:
        """Say whether what is not stated is unknown."""


def count_range(walker: Walker, node: t.Count, bound: Bound) -> Range:
    """Return how many items a list may have."""
    items = walker.environment.items(node.items, bound)
    if walker.is_exact or (items is None and not walker.is_stated_later(node.items, bound)):
        return number_of(items)
    if items is not None and not isinstance(items, OpenList):
        return float(len(items))
    return Interval(float(len(items or ())), math.inf)


def loop_range(walker: Walker, node: t.Loop, bound: Bound) -> Range:
    """Return the range of a function over the items of a list."""
    aggregate = AGGREGATES[node.function]
    items = walker.environment.items(node.items, bound)
    if items is None and not walker.is_stated_later(node.items, bound):
        return None
    rounds = [_round(walker, node, item, bound) for item in items or ()]
    is_complete = items is not None and not isinstance(items, OpenList)
    more = None if is_complete else _further_round(walker, node, bound)
    if aggregate.gives == TRUTH:
        return truth_over(aggregate, rounds, more)
    return number_over(aggregate, rounds, more)


def _round(walker: Walker, node: t.Loop, item: Binding, bound: Bound) -> Round:
    inner = {**bound, node.variable: item}
    test = True if node.filter is None else walker.part(node.filter, inner)
    if test is False:
        return False, None
    term = walker.part(node.term, inner)
    aggregate = AGGREGATES[node.function]
    if aggregate.gives == TRUTH:
        return _truth(test), term
    if aggregate.neutral is not None and term is aggregate.neutral:
        return False, None
    # What may never be known makes a total unknown.
    if test is None and node.filter is not None and not is_either(walker, node.filter, inner):
        return LOST
    if term is None and not (aggregate.of_truths and is_either(walker, node.term, inner)):
        return LOST
    return _truth(test), term


def _truth(test: Range) -> bool | None:
    return test if isinstance(test, bool) else None


def _further_round(walker: Walker, node: t.Loop, bound: Bound) -> Round:
    """Return the round of an item that may still be added to a list."""
    if walker.is_exact:
        return LOST
    unsettled = dict(walker.unsettled)
    of = path_at(walker.environment.holder(node.items, bound)[1], node.items.path)
    further = _round(walker, node, (walker.further, f"{of}[0]"), bound)
    walker.unsettled = unsettled  # nobody can be asked about it
    return further


def interpolation_range(walker: Walker, node: t.Interpolation, bound: Bound) -> Range:
    """Return the range of a reading between the items of a list."""
    items = walker.environment.items(node.items, bound)
    at = [walker.part(place, bound) for place in node.at]
    if items is None or isinstance(items, OpenList) or None in at:
        return None
    rows: list[list[Range]] = []
    for item in items:
        inner = {**bound, node.variable: item}
        test = True if node.filter is None else walker.part(node.filter, inner)
        if test is False:
            continue
        if test is None:
            return None
        rows.append([walker.part(cell, inner) for cell in (*node.keys, node.value)])
    return interpolated_over(rows, at)
