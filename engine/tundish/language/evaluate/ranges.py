"""Interval evaluation: what a condition comes to while some inputs lie anywhere within a range.

A quantity is a range, and arithmetic gives the range that holds every result (R. E. Moore,
Interval Analysis, 1966). A condition that holds at every point of its ranges is true, one that
fails at every point false; anything between is unknown. A range can come out wider than it need,
where one input stands in a formula twice, but never narrower: what is called certain is. The one
thing taken for granted is that functions and tables run, within a range, between what they give at
its ends, its middle and zero.
"""

from __future__ import annotations

import functools
import itertools
from collections.abc import Callable, Iterable, Mapping

from tundish.groundwork.dataclass import dataclass
from tundish.language.budget.explaining_budget import Account
from tundish.language.evaluate.explained import Formula, without_positions
from tundish.language.evaluate.session import Given, Item
from tundish.language.evaluate.strict_operations import strict_value
from tundish.language.operations import values as v
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.interpolation import by_place, interpolated
from tundish.language.operations.operators import RELATIONS, operation_of
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.text.bounds import MOST_EXPLAINED_STEPS

_MOST_POINTS = 256  # four arguments at four points each


@dataclass(frozen=True, slots=True)
class Span:
    """A range of a quantity [SI units], both ends included."""

    low: float
    high: float


Ranged = Span | str | bool | tuple[str, ...] | None
"""A value: a range, or a text, a truth or texts; None where it is unknown or either way."""

_Bound = Mapping[str, tuple[Item, str]]


class Ranger:
    """Evaluates trees over one job whose inputs have ranges. Make one a use."""

    def __init__(
        self,
        given: Given,
        formulas: Mapping[tuple[str, str], Formula],
        tables: Mapping[str, Table],
        spans: Mapping[str, Span],
        allowance: int = MOST_EXPLAINED_STEPS,
    ) -> None:
        self._given = given
        self._formulas = formulas
        self._tables = tables
        self._spans = spans
        self._account = Account[Ranged](allowance)

    def range_of(self, root: t.Node, bindings: _Bound | None = None) -> Ranged:
        """Return the range of a tree.

        Args:
            root: The checked tree.
            bindings: The items that variables stand for.

        Raises:
            TooManySteps: If it takes more steps than explaining a rule may.
        """
        self._account.begin()
        return self._range(root, dict(bindings or {}))

    def _range(self, node: t.Node, bound: _Bound) -> Ranged:
        self._account.spend(1)
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
                return _compared(node, *(self._range(one, bound) for one in t.children(node)))
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
                items = self._items(node.items, bound)
                return None if items is None else _exact(float(len(items)))
            case t.Loop():
                return self._loop(node, bound)
            case t.Interpolation():
                return self._interpolation(node, bound)
            case t.Arithmetic() | t.Call() | t.Lookup():
                return self._at_points(node, bound)
            case _:
                return self._plain(node, bound)

    def _plain(self, node: t.Node, bound: _Bound) -> Ranged:
        """Take what depends on truths and texts alone; a quantity counts where it is a point."""
        parts = [self._range(part, bound) for part in t.children(node)]
        points = [_point(part) for part in parts]
        return _exact(strict_value(node, points))

    def _read(self, node: t.Read, bound: _Bound) -> Ranged:
        facts, place = (self._given.values, "") if node.item is None else bound[node.item]
        path = f"{place}.{node.path}" if place else node.path
        value = facts.get(node.path)
        if path in self._spans and isinstance(value, float):
            return self._spans[path]
        if isinstance(value, list):
            return True
        return _exact(value) if isinstance(value, float | str | bool | tuple) else None

    def _derived(self, node: t.Derived, bound: _Bound) -> Ranged:
        binding = bound[node.item] if node.item is not None else None
        of = "" if binding is None else without_positions(binding[1])
        key = (of, node.name, binding[1] if binding else "")
        formula = self._formulas[of, node.name]
        inner = {formula.variable: binding} if formula.variable and binding else {}
        return self._account.once(key, lambda: self._range(formula.root, inner))

    def _logic(self, node: t.Logic, bound: _Bound) -> Ranged:
        settles = node.word == "or"
        truths = [self._range(part, bound) for part in node.parts]
        if settles in truths:
            return settles
        return None if None in truths else not settles

    def _choice(self, node: t.Choice, bound: _Bound) -> Ranged:
        condition = self._range(node.condition, bound)
        if condition is True:
            return self._range(node.then, bound)
        if condition is False:
            return self._range(node.otherwise, bound)
        return _hull(self._range(node.then, bound), self._range(node.otherwise, bound))

    def _items(self, node: t.Read, bound: _Bound) -> list[tuple[Item, str]] | None:
        facts, place = (self._given.values, "") if node.item is None else bound[node.item]
        path = f"{place}.{node.path}" if place else node.path
        items = facts.get(node.path)
        if not isinstance(items, list):
            return None
        return [(item, f"{path}[{at}]") for at, item in enumerate(items, start=1)]

    def _loop(self, node: t.Loop, bound: _Bound) -> Ranged:
        items = self._items(node.items, bound)
        if items is None:
            return None
        rounds: list[tuple[Ranged, Ranged]] = []
        for item in items:
            inner = {**bound, node.variable: item}
            test = True if node.filter is None else self._range(node.filter, inner)
            rounds.append((test, None if test is False else self._range(node.term, inner)))
        aggregate = AGGREGATES[node.function]
        if aggregate.of_truths:
            return _exact(aggregate.value([(_point(a), _point(b)) for a, b in rounds]))
        ends = [
            aggregate.value([(_point(a), _end(b, pick)) for a, b in rounds])
            for pick in (lambda span: span.low, lambda span: span.high)
        ]
        return _span(ends)

    def _interpolation(self, node: t.Interpolation, bound: _Bound) -> Ranged:
        items = self._items(node.items, bound)
        at = [self._range(place, bound) for place in node.at]
        if items is None:
            return None
        rows: list[list[Ranged]] = []
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

    def _at_points(self, node: t.Arithmetic | t.Call | t.Lookup, bound: _Bound) -> Ranged:
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
            self._account.spend(len(trials))
        return _hull_of(_exact(self._value(node, list(trial))) for trial in trials)

    def _value(self, node: t.Node, values: list[t.Value | None]) -> t.Value | None:
        if isinstance(node, t.Lookup):
            known = [value for value in values if isinstance(value, float | str | bool)]
            return self._tables[node.table].read(node.column, known).value
        return strict_value(node, values)


def _exact(value: object) -> Ranged:
    if isinstance(value, float) and not isinstance(value, bool):
        return Span(value, value)
    return value if isinstance(value, str | bool | tuple) else None


def _point(value: Ranged) -> t.Value | None:
    """Return a value that is the same all over its range, else nothing."""
    if isinstance(value, Span):
        return value.low if v.nearly_equal(value.low, value.high) else None
    return value


def _points(value: Ranged, with_middle: bool = True) -> list[t.Value | None]:
    """Return the ends of a range, its middle, and zero where operations often turn or fail."""
    if not isinstance(value, Span):
        return [value]
    turn = (0.0,) if value.low < 0 < value.high else ()
    middle = ((value.low + value.high) / 2,) if with_middle else ()
    return list(dict.fromkeys((value.low, *middle, value.high, *turn)))


def _end(value: Ranged, pick: Callable[[Span], float]) -> t.Value | None:
    return pick(value) if isinstance(value, Span) else value


def _span(ends: list[t.Value | None]) -> Ranged:
    numbers = [end for end in ends if isinstance(end, float)]
    return Span(min(numbers), max(numbers)) if len(numbers) == len(ends) else None


def _hull(one: Ranged, other: Ranged) -> Ranged:
    """Return the least range that holds two, or the value that both are."""
    if isinstance(one, Span) and isinstance(other, Span):
        return Span(min(one.low, other.low), max(one.high, other.high))
    return one if one == other else None


def _hull_of(values: Iterable[Ranged]) -> Ranged:
    """Return the least range that holds several; nothing where one of them is unknown."""
    found = list(values)
    return functools.reduce(_hull, found) if found and None not in found else None


def _read_between(
    rows: list[list[Ranged]], points: tuple[t.Value | None, ...], pick: Callable[[Span], float]
) -> Ranged:
    cells = [[_end(cell, pick) for cell in row] for row in rows]
    if any(not isinstance(cell, float) for row in cells for cell in row):
        return None
    numbers = [tuple(cell for cell in row if isinstance(cell, float)) for row in cells]
    return _exact(interpolated(by_place(numbers), points))


def _compared(node: t.Comparison, left: Ranged, right: Ranged) -> Ranged:
    relation = RELATIONS[node.sign]
    if not isinstance(left, Span) or not isinstance(right, Span):
        return relation.truth(left, right) if relation.takes_any else None
    truths = {
        relation.truth(one, other)
        for one in (left.low, left.high)
        for other in (right.low, right.high)
    }
    if len(truths) > 1:
        return None
    # Ends that all differ leave room for equal values between them.
    overlap = left.low <= right.high and right.low <= left.high
    points = _point(left), _point(right)
    if not relation.direction and overlap and (None in points or points[0] != points[1]):
        return None
    return truths.pop()
