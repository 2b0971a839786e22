"""Range evaluation: what an expression comes to while some facts lie anywhere within a range.

A quantity is an interval, and arithmetic gives the interval that holds every result (R. E. Moore,
Interval Analysis, 1966); a text is a set of choices. A condition that holds at every point of its
ranges is true, one that fails at every point false; anything between is unknown. A range can come
out wider than it need, where one fact stands in a formula twice, but never narrower: what is called
certain is. One thing is assumed: within an interval, functions and tables stay between their values
at its ends, its middle and zero.

What no range reaches is a plain value. Quantities of that sort are not walked at all, but taken
from the compiled form.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Collection, Mapping
from typing import Any

from tundish.groundwork.open_list import OpenList, number_of
from tundish.language.budget.budget import CachingBudget
from tundish.language.evaluate.environment import Bound, Environment, Formula, path_at
from tundish.language.evaluate.ranges.range import (
    Choices,
    Interval,
    Range,
    clipped,
    compared,
    high,
    hull,
    low,
    point,
    points,
)
from tundish.language.evaluate.session import JobFacts, Session
from tundish.language.evaluate.strict_operations import strict_value
from tundish.language.operations import values as v
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.interpolation import by_place, interpolated
from tundish.language.operations.operators import CONNECTIVES, RELATIONS, operation_of
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.text.bounds import MOST_EXPLAINED_STEPS

_MOST_POINTS = 256  # four arguments at four points each


class RangeEvaluator:
    """Evaluates trees over one job, some of whose facts have ranges. Make one a use.

    Args:
        facts: The facts of the job.
        formulas: The checked formulas, by path of the list they belong to (or "") and name.
        tables: The tables by name.
        ranges: The ranges of known facts, by path with positions.
        budget: Steps that each expression may take.
        session: Computes the quantities that no range reaches; without it they are walked as well.
        ranging: The quantities that read a fact with a range, themselves or through others.
    """

    def __init__(
        self,
        facts: JobFacts,
        formulas: Mapping[tuple[str, str], Formula],
        tables: Mapping[str, Table],
        ranges: Mapping[str, Range],
        budget: int = MOST_EXPLAINED_STEPS,
        session: Session | None = None,
        ranging: Collection[tuple[str, str]] = (),
    ) -> None:
        self._environment = Environment(facts, formulas, tables)
        self._ranges = ranges
        self._budget = CachingBudget[Range](budget)
        self._session = session
        self._ranging = ranging

    def range_of(self, root: t.Node, bindings: Bound | None = None) -> Range:
        """Return the range of a tree.

        Args:
            root: The checked tree.
            bindings: The items that variables stand for.

        Raises:
            TooManySteps: If it takes more steps than explaining a rule may.
        """
        self._budget.begin()
        if self._session is not None:
            self._session.budget.begin()
        return self._range(root, bindings or {})

    def _range(self, node: t.Node, bound: Bound) -> Range:
        self._budget.spend(1)
        form = _FORMS.get(type(node))
        return self._plain(node, bound) if form is None else form(self, node, bound)

    def _constant(self, node: t.Constant, _: Bound) -> Range:
        return node.value

    def _read(self, node: t.Read, bound: Bound) -> Range:
        facts, place = self._environment.holder(node, bound)
        value = facts.get(node.path)
        if value is not None and (path := path_at(place, node.path)) in self._ranges:
            return self._ranges[path]
        return True if isinstance(value, list) else value  # type: ignore[return-value]

    def _derived(self, node: t.Derived, bound: Bound) -> Range:
        if self._session is not None:
            quantity = self._environment.quantity(node, bound)
            if quantity not in self._ranging:
                item = None if node.item is None else bound[node.item][0]
                return self._session.derive(*quantity, item)  # type: ignore[return-value]
        key, root, inner = self._environment.formula(node, bound)
        return self._budget.cached(key, lambda: self._range(root, inner))

    def _comparison(self, node: t.Comparison, bound: Bound) -> Range:
        left, right = self._range(node.left, bound), self._range(node.right, bound)
        relation = RELATIONS[node.sign]
        if isinstance(left, Interval) or isinstance(right, Interval):
            return compared(relation, left, right)
        return self._tried(relation.truth, [left, right])

    def _logic(self, node: t.Logic, bound: Bound) -> Range:
        settles = CONNECTIVES[node.word].settles
        result: bool | None = not settles
        for part in node.parts:
            truth = self._range(part, bound)
            if truth is settles:
                return settles
            if truth is None:
                result = None
        return result

    def _choice(self, node: t.Choice, bound: Bound) -> Range:
        condition = self._range(node.condition, bound)
        if condition is None:
            return hull((self._range(node.then, bound), self._range(node.otherwise, bound)))
        return self._range(node.then if condition is True else node.otherwise, bound)

    def _known(self, node: t.Known, bound: Bound) -> Range:
        return self._range(node.operand, bound) is not None

    def _assumed(self, node: t.Assumed, bound: Bound) -> Range:
        value = self._range(node.operand, bound)
        return self._range(node.fallback, bound) if value is None else value

    def _count(self, node: t.Count, bound: Bound) -> Range:
        return number_of(self._environment.items(node.items, bound))

    def _loop(self, node: t.Loop, bound: Bound) -> Range:
        items = self._environment.items(node.items, bound)
        if items is None:
            return None
        rounds: list[tuple[Range, Range]] = []
        for item in items:
            inner = {**bound, node.variable: item}
            test = True if node.filter is None else self._range(node.filter, inner)
            rounds.append((test, None if test is False else self._range(node.term, inner)))
        aggregate, is_open = AGGREGATES[node.function], isinstance(items, OpenList)
        if aggregate.of_truths or is_open:
            points_of = [(point(test), point(term)) for test, term in rounds]
            return aggregate.over(points_of, is_open)
        ends = [
            aggregate.value([(point(test), end(term)) for test, term in rounds])
            for end in (low, high)
        ]
        return hull(ends)

    def _interpolation(self, node: t.Interpolation, bound: Bound) -> Range:
        items = self._environment.items(node.items, bound)
        at = [self._range(place, bound) for place in node.at]
        if items is None or isinstance(items, OpenList):
            return None
        rows: list[list[Range]] = []
        for item in items:
            inner = {**bound, node.variable: item}
            test = True if node.filter is None else self._range(node.filter, inner)
            if test is False:
                continue
            if test is None:
                return None
            rows.append([self._range(cell, inner) for cell in (*node.keys, node.value)])
        return hull(
            _read_between(rows, places, end)
            for places in itertools.product(*map(points, at))
            for end in (low, high)
        )

    def _within(self, node: t.Within, bound: Bound) -> Range:
        return clipped(self._range(node.operand, bound), *node.ends)

    def _negation(self, node: t.Negation, bound: Bound) -> Range:
        operand = self._range(node.operand, bound)
        if isinstance(operand, Interval):
            return Interval(-operand.high, -operand.low)
        return strict_value(node, [point(operand)])

    def _operation(self, node: t.Arithmetic | t.Call, bound: Bound) -> Range:
        parts: list[Any] = [self._range(part, bound) for part in t.children(node)]
        if None in parts:
            return None
        operation = operation_of(node)
        if Interval not in map(type, parts):
            return v.apply(operation.calculate, *parts)
        is_monotone = operation.is_monotone
        return self._tried(lambda *at: v.apply(operation.calculate, *at), parts, is_monotone)

    def _lookup(self, node: t.Lookup, bound: Bound) -> Range:
        table = self._environment.tables[node.table]
        parts = [self._range(part, bound) for part in node.arguments]
        return self._tried(lambda *at: table.near(node.column, at), parts)

    def _plain(self, node: t.Node, bound: Bound) -> Range:
        """Take what depends on truths and texts alone; a quantity counts where it is a point."""
        parts = [self._range(part, bound) for part in t.children(node)]
        settled = (part if isinstance(part, Choices) else point(part) for part in parts)
        return self._tried(lambda *at: strict_value(node, list(at)), list[Range](settled))

    def _tried(
        self, function: Callable[..., t.Value | None], parts: list[Range], is_monotone: bool = False
    ) -> Range:
        """Return the hull of what a function gives at some points of its arguments' ranges."""
        if None in parts:
            return None
        choices = [points(part, with_middle=not is_monotone) for part in parts]
        count = math.prod(map(len, choices))
        if count > _MOST_POINTS:
            return None
        if not is_monotone:
            self._budget.spend(count - 1)
        return hull([function(*at) for at in itertools.product(*choices)])


_FORMS: Mapping[type[t.Node], Callable[[RangeEvaluator, Any, Bound], Range]] = {
    t.Constant: RangeEvaluator._constant,
    t.Read: RangeEvaluator._read,
    t.Derived: RangeEvaluator._derived,
    t.Comparison: RangeEvaluator._comparison,
    t.Logic: RangeEvaluator._logic,
    t.Choice: RangeEvaluator._choice,
    t.Known: RangeEvaluator._known,
    t.Assumed: RangeEvaluator._assumed,
    t.Count: RangeEvaluator._count,
    t.Loop: RangeEvaluator._loop,
    t.Interpolation: RangeEvaluator._interpolation,
    t.Arithmetic: RangeEvaluator._operation,
    t.Call: RangeEvaluator._operation,
    t.Within: RangeEvaluator._within,
    t.Negation: RangeEvaluator._negation,
    t.Lookup: RangeEvaluator._lookup,
}
"""How each type of node is evaluated; others by `_plain`."""


def _read_between(
    rows: list[list[Range]],
    places: tuple[t.Value | None, ...],
    end: Callable[[Range], t.Value | None],
) -> Range:
    cells = [[end(cell) for cell in row] for row in rows]
    if any(not isinstance(cell, float) for row in cells for cell in row):
        return None
    numbers = [tuple(cell for cell in row if isinstance(cell, float)) for row in cells]
    return interpolated(by_place(numbers), places)
