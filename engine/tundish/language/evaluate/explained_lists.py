"""The explained form of what runs over a list: counts, loops, readings between items."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

from tundish.groundwork.open_list import OpenList, number_of
from tundish.language.evaluate.environment import Bound, Environment
from tundish.language.evaluate.step import Step, joined
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.interpolation import Rows, interpolate
from tundish.language.tree import tree as t


class Walker(Protocol):
    """What walks the parts of a tree."""

    def step(self, node: t.Node, bound: Bound) -> Step:
        """Evaluate a part."""

    def read(self, node: t.Read, bound: Bound) -> Step:
        """Read a fact; of a list only whether it is known."""

    @property
    def environment(self) -> Environment:
        """Return what names stand for."""


def count_step(walker: Walker, node: t.Count, bound: Bound) -> Step:
    """Count the items of a list."""
    items = walker.read(node.items, bound)
    rows = walker.environment.items(node.items, bound)
    items = _more_of(items) if isinstance(rows, OpenList) else items
    return joined(node, number_of(rows), (items,))


def loop_step(walker: Walker, node: t.Loop, bound: Bound) -> Step:
    """Go through every item of a list, even where the answer is already settled."""
    items = walker.read(node.items, bound)
    if items.value is None:
        return joined(node, None, (items,))
    rounds = [_round(walker, node, inner, name) for inner, name in _bindings(walker, node, bound)]
    pairs = [(test.value if test else True, term.value) for test, term in rounds]
    aggregate = AGGREGATES[node.function]
    is_open = isinstance(walker.environment.items(node.items, bound), OpenList)
    value = aggregate.over(pairs, is_open)
    if is_open and value is None:
        items = _more_of(items)
    parts = tuple(step for pair in rounds for step in pair if step is not None)
    return joined(node, value, (items, *parts), aggregate.why_lost(items.path, pairs))


def interpolation_step(walker: Walker, node: t.Interpolation, bound: Bound) -> Step:
    """Read between the items of a list."""
    items = walker.read(node.items, bound)
    at = tuple(walker.step(place, bound) for place in node.at)
    if isinstance(walker.environment.items(node.items, bound), OpenList):
        items = _more_of(items)
    if items.value is None:
        return joined(node, None, (items, *at))
    rows: Rows = []
    is_known = True
    parts = [items, *at]
    for inner, name in _bindings(walker, node, bound):
        test = None if node.filter is None else walker.step(node.filter, inner)
        counts = True if test is None else test.value
        cells = () if counts is False else (*node.keys, node.value)
        steps = [walker.step(cell, inner)._replace(item=name) for cell in cells]
        parts += steps if test is None else [test._replace(item=name), *steps]
        numbers = tuple(step.value for step in steps if isinstance(step.value, float))
        if counts is True and len(numbers) == len(cells):
            rows.append(numbers)
        elif counts is not False:
            is_known = False
    labels = [str(getattr(key, "label", "key")) for key in node.keys]
    places = [step.value for step in at]
    reading = interpolate(rows if is_known else None, places, items.path, labels)
    return joined(node, reading.value, tuple(parts), reading.why)


def _more_of(items: Step) -> Step:
    """Return the step of a list of which it must be known whether there are more items."""
    return Step(items.node, None, path=items.path, needs=frozenset((items.path,)))


def _bindings(
    walker: Walker, node: t.Loop | t.Interpolation, bound: Bound
) -> Iterator[tuple[Bound, str]]:
    """Give, for each item, what is bound in its round, and what the item is called."""
    for item, place in walker.environment.items(node.items, bound) or ():
        names = walker.environment.facts.names
        yield {**bound, node.variable: (item, place)}, names[place]


def _round(walker: Walker, node: t.Loop, inner: Bound, name: str) -> tuple[Step | None, Step]:
    test = None
    if node.filter is not None:
        test = walker.step(node.filter, inner)._replace(item=name)
        if test.value is False:
            return test, Step(node.term, None, item=name, needed=False)
    term = walker.step(node.term, inner)._replace(item=name)
    neutral = AGGREGATES[node.function].neutral
    if test is not None and neutral is not None and term.value is neutral:
        # The result is the same with the item or without, so its filter need not be known.
        test = test._replace(needed=False)
    return test, term
