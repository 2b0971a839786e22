"""Range evaluation: what an expression comes to while some facts lie anywhere within a range.

A quantity is an interval, and arithmetic gives the interval that holds every result (R. E. Moore,
Interval Analysis, 1966); a text is a set of choices. A condition that holds at every point of its
ranges is true, one that fails at every point false; anything between is unknown. A range can come
out wider than it need, where one fact stands in a formula twice, but never narrower: what is called
certain is.

Two sorts of facts have ranges. Facts that are known, but not exactly, have those of their
tolerances; there a function that neither rises nor falls steadily is taken to stay between its
values at the ends of a range, its middle and zero. Facts that nobody has stated may be whatever
their kind can be; of such a function nothing is known there.

What no range reaches is a plain value. Quantities of that sort are not walked at all, but taken
from the compiled form.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Any

from tundish.language.budget.budget import CachingBudget
from tundish.language.evaluate.environment import (
    Bound,
    Environment,
    Formula,
    groups_around,
    path_at,
    without_positions,
)
from tundish.language.evaluate.ranges.either import is_either
from tundish.language.evaluate.ranges.ends import (
    count_of,
    is_monotone,
    looked_up,
    operated,
    tried,
)
from tundish.language.evaluate.ranges.loops import count_range, interpolation_range, loop_range
from tundish.language.evaluate.ranges.possible import Possible
from tundish.language.evaluate.ranges.range import (
    Choices,
    Interval,
    Range,
    clipped,
    compared,
    hull,
    point,
    points,
)
from tundish.language.evaluate.session import Item, JobFacts, Session
from tundish.language.evaluate.strict_operations import strict_value
from tundish.language.operations import values as v
from tundish.language.operations.operators import CONNECTIVES, RELATIONS, operation_of
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.text.bounds import MOST_EXPLAINED_STEPS

Unsettled = dict[str, Sequence[t.Value]]


class RangeEvaluator:
    """Evaluates trees over one job, some of whose facts have ranges.

    Args:
        facts: The facts of the job.
        formulas: The checked formulas, by path of the list they belong to (or "") and name.
        tables: The tables by name.
        ranges: The ranges of known facts, by path with positions.
        budget: Steps that each expression may take.
        session: Computes the quantities that no range reaches; without it they are walked as well.
        ranging: The quantities that read a fact with a range, themselves or through others.
        possible: What facts may be that are not stated; they are unknown without it. It wants a
            session.

    Attributes:
        unsettled: The facts and groups, by path with positions, that were met and can be one of a
            few, with all that each can be; a value that was not known hung on them.
        further: The facts of an item that may still be added to a list: none is stated.
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
        possible: Possible | None = None,
    ) -> None:
        self.environment = Environment(facts, formulas, tables)
        self._ranges = ranges
        self._budget = CachingBudget[tuple[Range, Unsettled]](budget)
        self._session = session
        self._ranging = ranging
        self._possible = possible
        self.unsettled: Unsettled = {}
        self.further: Item = {}

    def range_of(self, root: t.Node, bindings: Bound | None = None) -> Range:
        """Return the range of a tree.

        Args:
            root: The checked tree.
            bindings: The items that variables stand for.

        Raises:
            TooManySteps: If it takes more steps than explaining a rule may.
        """
        self.unsettled = {}
        self._budget.begin()
        if self._session is not None:
            self._session.budget.begin()
        return self.part(root, bindings or {})

    def part(self, node: t.Node, bound: Bound) -> Range:
        """Return the range of a part with the items that are bound there."""
        self._budget.spend(1)
        form = _FORMS.get(type(node))
        return self._plain(node, bound) if form is None else form(self, node, bound)

    @property
    def is_exact(self) -> bool:
        """Say whether what is not stated is unknown, and not whatever it can be."""
        return self._possible is None

    def _constant(self, node: t.Constant, _: Bound) -> Range:
        return node.value

    def _read(self, node: t.Read, bound: Bound) -> Range:
        facts, place = self.environment.holder(node, bound)
        value = facts.get(node.path)
        if value is None:
            return self._unstated(node, bound)
        if (path := path_at(place, node.path)) in self._ranges:
            return self._ranges[path]
        return True if isinstance(value, list) else value  # type: ignore[return-value]

    def _unstated(self, node: t.Read, bound: Bound) -> Range:
        """Return what a fact may be that is not stated, if that is asked for."""
        if self._possible is None or not self.is_stated_later(node, bound):
            return None
        path = path_at(self.environment.holder(node, bound)[1], node.path)
        if options := self._possible.options(without_positions(path)):
            self.unsettled[path] = options
        return self._beside_others(without_positions(path), node, bound)

    def _beside_others(self, path: str, node: t.Read, bound: Bound) -> Range:
        """Return where a fact lies that is not stated, by its kind and by the facts beside it."""
        assert self._possible is not None
        value = self._possible.range_of(path)
        holder = self.environment.holder(node, bound)[0]
        for beside in self._possible.bounds_on(path):
            facts = holder if beside.of == beside.other_of else self.environment.facts.values
            other = facts.get(beside.other.removeprefix(f"{beside.other_of}."))
            if isinstance(other, float) and isinstance(value, Interval):
                is_least = RELATIONS[beside.sign].direction > 0
                value = clipped(value, *((other, None) if is_least else (None, other)))
        return value

    def is_stated_later(self, node: t.Read, bound: Bound) -> bool:
        """Say whether every completion states a fact, as the groups around it are there."""
        if self._possible is None:
            return False
        facts, place = self.environment.holder(node, bound)
        for group in groups_around(node.path):
            path = path_at(place, group)
            if facts.get(group) is False:
                return False
            if group in facts:
                continue
            presence = self._possible.presence(without_positions(path))
            if presence is None:
                self.unsettled[path] = (True, False)
            if not presence:
                return False
        return facts.get(node.path) is not False

    def _derived(self, node: t.Derived, bound: Bound) -> Range:
        if self._session is not None:
            quantity = self.environment.quantity(node, bound)
            is_ranging = quantity in self._ranging
            if self._possible is not None or not is_ranging:
                item = None if node.item is None else bound[node.item][0]
                value = self._session.derive(*quantity, item)
                if value is not None or self._possible is None:
                    return value  # type: ignore[return-value]
        key, root, inner = self.environment.formula(node, bound)
        value, unsettled = self._budget.cached(key, lambda: self._noted(root, inner))
        self.unsettled |= unsettled
        return value

    def _noted(self, root: t.Node, bound: Bound) -> tuple[Range, Unsettled]:
        outer, self.unsettled = self.unsettled, {}
        value = self.part(root, bound)
        unsettled, self.unsettled = self.unsettled, outer
        return value, unsettled

    def _comparison(self, node: t.Comparison, bound: Bound) -> Range:
        left, right = self.part(node.left, bound), self.part(node.right, bound)
        relation = RELATIONS[node.sign]
        if isinstance(left, Interval) or isinstance(right, Interval):
            return compared(relation, left, right)
        return tried(relation.truth, [points(left), points(right)])

    def _logic(self, node: t.Logic, bound: Bound) -> Range:
        settles = CONNECTIVES[node.word].settles
        result: bool | None = not settles
        for part in node.parts:
            truth = self.part(part, bound)
            if truth is settles:
                return settles
            if truth is None:
                result = None
        return result

    def _choice(self, node: t.Choice, bound: Bound) -> Range:
        condition = self.part(node.condition, bound)
        if condition is None:
            ways = self.part(node.then, bound), self.part(node.otherwise, bound)
            is_known = ways[0] == ways[1] or is_either(self, node.condition, bound)
            return hull(ways) if is_known else None
        return self.part(node.then if condition is True else node.otherwise, bound)

    def _known(self, node: t.Known, bound: Bound) -> Range:
        return self._exact(node.operand, bound) is not None

    def _assumed(self, node: t.Assumed, bound: Bound) -> Range:
        # What stands in does so until the fact is stated, and the finding says so.
        value = self._exact(node.operand, bound)
        return self.part(node.fallback, bound) if value is None else value

    def _exact(self, node: t.Node, bound: Bound) -> Range:
        """Return the range of a tree in which what is not stated is unknown."""
        possible, self._possible = self._possible, None
        try:
            return self.part(node, bound)
        finally:
            self._possible = possible

    def _within(self, node: t.Within, bound: Bound) -> Range:
        return clipped(self.part(node.operand, bound), *node.ends)

    def _negation(self, node: t.Negation, bound: Bound) -> Range:
        operand = self.part(node.operand, bound)
        if isinstance(operand, Interval):
            return Interval(-operand.high, -operand.low)
        return strict_value(node, [point(operand)])

    def _operation(self, node: t.Arithmetic | t.Call, bound: Bound) -> Range:
        parts: list[Any] = [self.part(part, bound) for part in t.children(node)]
        if None in parts:
            return None
        operation = operation_of(node)
        if Interval not in map(type, parts):
            return v.apply(operation.calculate, *parts)
        if is_monotone(operation, parts):
            return operated(operation, parts)
        if self._possible is not None:
            return None
        choices = [points(part) for part in parts]
        self._budget.spend(count_of(choices))
        return tried(lambda *at: v.apply(operation.calculate, *at), choices)

    def _lookup(self, node: t.Lookup, bound: Bound) -> Range:
        parts = [self.part(part, bound) for part in node.arguments]
        if None in parts:
            return None
        return looked_up(self.environment.tables[node.table], node.column, parts)

    def _plain(self, node: t.Node, bound: Bound) -> Range:
        """Take what depends on truths and texts alone; a quantity counts where it is a point."""
        parts = [self.part(part, bound) for part in t.children(node)]
        choices = [points(part) if isinstance(part, Choices) else (point(part),) for part in parts]
        return tried(lambda *at: strict_value(node, list(at)), choices)


_FORMS: Mapping[type[t.Node], Callable[[Any, Any, Bound], Range]] = {
    t.Constant: RangeEvaluator._constant,
    t.Read: RangeEvaluator._read,
    t.Derived: RangeEvaluator._derived,
    t.Comparison: RangeEvaluator._comparison,
    t.Logic: RangeEvaluator._logic,
    t.Choice: RangeEvaluator._choice,
    t.Known: RangeEvaluator._known,
    t.Assumed: RangeEvaluator._assumed,
    t.Count: count_range,
    t.Loop: loop_range,
    t.Interpolation: interpolation_range,
    t.Arithmetic: RangeEvaluator._operation,
    t.Call: RangeEvaluator._operation,
    t.Within: RangeEvaluator._within,
    t.Negation: RangeEvaluator._negation,
    t.Lookup: RangeEvaluator._lookup,
}
"""How each type of node is evaluated; others by `_plain`."""
