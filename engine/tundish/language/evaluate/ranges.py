"""Interval evaluation: what a condition comes to while some inputs lie anywhere within a range.

A quantity is a range, and arithmetic gives the range that holds every result (R. E. Moore,
Interval Analysis, 1966). A condition that holds at every point of its ranges is true, one that
fails at every point false; anything between is unknown. A range can come out wider than it need,
where one input stands in a formula twice, but never narrower: what is called certain is. One thing
is assumed: within a range, functions and tables stay between their values at its ends, its middle
and zero.
"""

from __future__ import annotations

import functools
import itertools
from collections.abc import Callable, Iterable, Mapping

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.open_list import OpenList, number_of
from tundish.language.budget.budget import CachingBudget
from tundish.language.evaluate.environment import Bound, Environment, Formula, path_at
from tundish.language.evaluate.session import JobFacts
from tundish.language.evaluate.strict_operations import strict_value
from tundish.language.operations import values as v
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.interpolation import by_place, interpolated
from tundish.language.operations.operators import CONNECTIVES, RELATIONS, operation_of
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.text.bounds import MOST_EXPLAINED_STEPS

_MOST_POINTS = 256  # four arguments at four points each


@dataclass(frozen=True, slots=True)
class Span:
    """A range of a quantity [SI units], both ends included."""

    low: float
    high: float


RangeValue = Span | str | bool | tuple[str, ...] | None
"""A value: a range, or a text, a truth or texts; None where it is unknown or either way."""


class RangeEvaluator:
    """Evaluates trees over one job whose inputs have ranges. Make one a use."""

    def __init__(
        self,
        facts: JobFacts,
        formulas: Mapping[tuple[str, str], Formula],
        tables: Mapping[str, Table],
        spans: Mapping[str, Span],
        budget: int = MOST_EXPLAINED_STEPS,
    ) -> None:
        self._environment = Environment(facts, formulas, tables)
        self._spans = spans
        self._budget = CachingBudget[RangeValue](budget)

    def range_of(self, root: t.Node, bindings: Bound | None = None) -> RangeValue:
        """Return the range of a tree.

        Args:
            root: The checked tree.
            bindings: The items that variables stand for.

        Raises:
            TooManySteps: If it takes more steps than explaining a rule may.
        """
        self._budget.begin()
        return self._range(root, dict(bindings or {}))

    def _range(self, node: t.Node, bound: Bound) -> RangeValue:
        self._budget.spend(1)
        match node:
            case t.Constant():
                return _exact(node.value)
            case t.Read():
                return self._read(node, bound)
            case t.Derived():
                return self._derived(node, bound)
            case t.Negation():
                inner = self._range(node.operand, bound)
                return Span(-inner.high, -inner.low) if isinstance(inner, Span) else None
            case t.Comparison():
                return _compared(node, *(self._range(part, bound) for part in t.children(node)))
            case t.Logic():
                return self._logic(node, bound)
            case t.Choice():
                return self._choice(node, bound)
            case t.Known():
                return self._range(node.operand, bound) is not None
            case t.Assumed():
                value = self._range(node.operand, bound)
                return self._range(node.fallback, bound) if value is None else value
            case t.Count():
                items = self._environment.items(node.items, bound)
                return _exact(number_of(items))
            case t.Loop():
                return self._loop(node, bound)
            case t.Interpolation():
                return self._interpolation(node, bound)
            case t.Arithmetic() | t.Call() | t.Lookup():
                return self._at_points(node, bound)
            case _:
                return self._plain(node, bound)

    def _plain(self, node: t.Node, bound: Bound) -> RangeValue:
        """Take what depends on truths and texts alone; a quantity counts where it is a point."""
        parts = [self._range(part, bound) for part in t.children(node)]
        points = [_point(part) for part in parts]
        return _exact(strict_value(node, points))

    def _read(self, node: t.Read, bound: Bound) -> RangeValue:
        facts, place = self._environment.holder(node, bound)
        value = facts.get(node.path)
        if isinstance(value, float) and (path := path_at(place, node.path)) in self._spans:
            return self._spans[path]
        if isinstance(value, list):
            return True
        return _exact(value) if isinstance(value, float | str | bool | tuple) else None

    def _derived(self, node: t.Derived, bound: Bound) -> RangeValue:
        key, root, inner = self._environment.formula(node, bound)
        return self._budget.cached(key, lambda: self._range(root, inner))

    def _logic(self, node: t.Logic, bound: Bound) -> RangeValue:
        settles = CONNECTIVES[node.word].settles
        truths = [self._range(part, bound) for part in node.parts]
        if settles in truths:
            return settles
        return None if None in truths else not settles

    def _choice(self, node: t.Choice, bound: Bound) -> RangeValue:
        condition = self._range(node.condition, bound)
        if condition is True:
            return self._range(node.then, bound)
        if condition is False:
            return self._range(node.otherwise, bound)
        return _hull(self._range(node.then, bound), self._range(node.otherwise, bound))

    def _loop(self, node: t.Loop, bound: Bound) -> RangeValue:
        items = self._environment.items(node.items, bound)
        if items is None:
            return None
        rounds: list[tuple[RangeValue, RangeValue]] = []
        for item in items:
            inner = {**bound, node.variable: item}
            test = True if node.filter is None else self._range(node.filter, inner)
            rounds.append((test, None if test is False else self._range(node.term, inner)))
        aggregate = AGGREGATES[node.function]
        is_open = isinstance(items, OpenList)
        if aggregate.of_truths or is_open:
            return _exact(aggregate.over([(_point(a), _point(b)) for a, b in rounds], is_open))
        ends = [
            aggregate.value([(_point(a), _end(b, pick)) for a, b in rounds])
            for pick in (lambda span: span.low, lambda span: span.high)
        ]
        return _span(ends)

    def _interpolation(self, node: t.Interpolation, bound: Bound) -> RangeValue:
        items = self._environment.items(node.items, bound)
        at = [self._range(place, bound) for place in node.at]
        if items is None or isinstance(items, OpenList):
            return None
        rows: list[list[RangeValue]] = []
        for item in items:
            inner = {**bound, node.variable: item}
            test = True if node.filter is None else self._range(node.filter, inner)
            if test is False:
                continue
            if test is None:
                return None
            rows.append([self._range(cell, inner) for cell in (*node.keys, node.value)])
        return _hull_of(
            _read_between(rows, points, pick)
            for points in itertools.product(*(_points(place) for place in at))
            for pick in (lambda span: span.low, lambda span: span.high)
        )

    def _at_points(self, node: t.Arithmetic | t.Call | t.Lookup, bound: Bound) -> RangeValue:
        """Try an operation, or a table, at some points of its arguments' ranges."""
        parts = [self._range(part, bound) for part in t.children(node)]
        if None in parts:
            return None
        is_monotone = not isinstance(node, t.Lookup) and operation_of(node).is_monotone
        choices = [_points(part, with_middle=not is_monotone) for part in parts]
        trials = list(itertools.islice(itertools.product(*choices), _MOST_POINTS + 1))
        if len(trials) > _MOST_POINTS:
            return None
        if not is_monotone:
            self._budget.spend(len(trials))
        return _hull_of(_exact(self._value(node, list(trial))) for trial in trials)

    def _value(self, node: t.Node, values: list[t.Value | None]) -> t.Value | None:
        if isinstance(node, t.Lookup):
            known = [value for value in values if isinstance(value, float | str | bool)]
            return self._environment.tables[node.table].read(node.column, known).value
        return strict_value(node, values)


def _exact(value: object) -> RangeValue:
    if isinstance(value, float) and not isinstance(value, bool):
        return Span(value, value)
    return value if isinstance(value, str | bool | tuple) else None


def _point(value: RangeValue) -> t.Value | None:
    """Return a value that is the same all over its range, else nothing."""
    if isinstance(value, Span):
        return value.low if v.nearly_equal(value.low, value.high) else None
    return value


def _points(value: RangeValue, with_middle: bool = True) -> list[t.Value | None]:
    """Return the ends of a range, its middle, and zero where operations often turn or fail."""
    if not isinstance(value, Span):
        return [value]
    turn = (0.0,) if value.low < 0 < value.high else ()
    middle = ((value.low + value.high) / 2,) if with_middle else ()
    return list(dict.fromkeys((value.low, *middle, value.high, *turn)))


def _end(value: RangeValue, pick: Callable[[Span], float]) -> t.Value | None:
    return pick(value) if isinstance(value, Span) else value


def _span(ends: list[t.Value | None]) -> RangeValue:
    numbers = [end for end in ends if isinstance(end, float)]
    return Span(min(numbers), max(numbers)) if len(numbers) == len(ends) else None


def _hull(first: RangeValue, second: RangeValue) -> RangeValue:
    """Return the least range that holds two, or the value that both are."""
    if isinstance(first, Span) and isinstance(second, Span):
        return Span(min(first.low, second.low), max(first.high, second.high))
    return first if first == second else None


def _hull_of(values: Iterable[RangeValue]) -> RangeValue:
    """Return the least range that holds several; nothing where one of them is unknown."""
    ranges = list(values)
    return functools.reduce(_hull, ranges) if ranges and None not in ranges else None


def _read_between(
    rows: list[list[RangeValue]], points: tuple[t.Value | None, ...], pick: Callable[[Span], float]
) -> RangeValue:
    cells = [[_end(cell, pick) for cell in row] for row in rows]
    if any(not isinstance(cell, float) for row in cells for cell in row):
        return None
    numbers = [tuple(cell for cell in row if isinstance(cell, float)) for row in cells]
    return _exact(interpolated(by_place(numbers), points))


def _compared(node: t.Comparison, left: RangeValue, right: RangeValue) -> RangeValue:
    relation = RELATIONS[node.sign]
    if not isinstance(left, Span) or not isinstance(right, Span):
        return relation.truth(left, right) if relation.takes_any else None
    truths = {
        relation.truth(first, second)
        for first in (left.low, left.high)
        for second in (right.low, right.high)
    }
    if len(truths) > 1:
        return None
    # Ends that all differ leave room for equal values between them.
    overlap = left.low <= right.high and right.low <= left.high
    points = _point(left), _point(right)
    if not relation.direction and overlap and (None in points or points[0] != points[1]):
        return None
    return truths.pop()
