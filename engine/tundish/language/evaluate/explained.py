"""The explained form: walking a checked tree and keeping every step.

It must give the value that the compiled form gives, for every tree and every job; property tests
and the shared case files hold the two together. Where the compiled form stops a loop early, this
one goes on: a reader wants to see every item that fails, and the value is the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tundish.language.budget.budget import CachingBudget
from tundish.language.evaluate.environment import (
    Binding,
    Bound,
    Environment,
    Formula,
    groups_around,
    path_at,
)
from tundish.language.evaluate.explained_lists import count_step, interpolation_step, loop_step
from tundish.language.evaluate.session import Item, JobFacts
from tundish.language.evaluate.step import Step, joined
from tundish.language.evaluate.strict_operations import strict_value, why_beyond, why_lost
from tundish.language.operations import values as v
from tundish.language.operations.operators import CONNECTIVES
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.text.bounds import MOST_EXPLAINED_STEPS


class Explainer:
    """Walks trees over one job. Not for sharing between threads; make one a use.

    Args:
        facts: The job's facts.
        formulas: The checked formulas, by path of the list they belong to (or "") and name.
        tables: The tables by name.
        budget: Steps that explaining one rule may take.
    """

    def __init__(
        self,
        facts: JobFacts,
        formulas: Mapping[tuple[str, str], Formula],
        tables: Mapping[str, Table],
        budget: int = MOST_EXPLAINED_STEPS,
    ) -> None:
        self.environment = Environment(facts, formulas, tables)
        self._budget = CachingBudget[Step](budget)

    def explain(self, root: t.Node, bindings: Mapping[str, Binding] | None = None) -> Step:
        """Evaluate a tree and keep how.

        Args:
            root: The checked tree.
            bindings: The items that variables stand for.

        Returns:
            The root's step, with all steps below it.

        Raises:
            TooManySteps: If it takes more steps than explaining a rule may.
        """
        (step,) = self.explain_all((root,), bindings)
        return step

    def explain_all(
        self, roots: Iterable[t.Node], bindings: Mapping[str, Binding] | None = None
    ) -> list[Step]:
        """Evaluate several trees, which share the budget of one rule.

        Args:
            roots: The checked trees.
            bindings: The items that variables stand for.

        Raises:
            TooManySteps: If it takes more steps than explaining a rule may.
        """
        self._budget.begin()
        bound = dict(bindings or {})
        return [self.step(root, bound) for root in roots]

    def step(self, node: t.Node, bound: Bound) -> Step:
        """Evaluate a part with the items that are bound there."""
        self._budget.spend(1)
        match node:
            case t.Constant():
                return Step(node, node.value)
            case t.Read():
                return self.read(node, bound)
            case t.Derived():
                return self._derived(node, bound)
            case t.Logic():
                return self._logic(node, bound)
            case t.Choice():
                return self._choice(node, bound)
            case t.Known():
                return self._known(node, bound)
            case t.Assumed():
                return self._assumed(node, bound)
            case t.Lookup():
                return self._lookup(node, bound)
            case t.Within():
                return self._within(node, bound)
            case t.Count():
                return count_step(self, node, bound)
            case t.Loop():
                return loop_step(self, node, bound)
            case t.Interpolation():
                return interpolation_step(self, node, bound)
            case _:
                return self._plain(node, bound)

    def _plain(self, node: t.Node, bound: Bound) -> Step:
        """Take a step whose value follows from those of all its parts."""
        parts = tuple(self.step(part, bound) for part in t.children(node))
        values = [part.value for part in parts]
        value = strict_value(node, values)
        lost = value is None and None not in values
        return joined(node, value, parts, why_lost(node, values) if lost else "")

    # -- facts and quantities ---------------------------------------------------------------

    def read(self, node: t.Read, bound: Bound) -> Step:
        """Read a fact; of a list only whether it is known."""
        facts, place = self.environment.holder(node, bound)
        path = path_at(place, node.path)
        value = facts.get(node.path)
        if value is not None:
            if isinstance(value, list):  # the items themselves are looked at by the loop
                return Step(node, True, path=path)
            assert isinstance(value, float | str | bool | tuple)
            return Step(node, value, path=path)
        absent = _absent_group(facts, node.path)
        if absent:
            obstacle = f"there is no {path_at(place, absent)}"
            return Step(node, None, path=path, obstacles=frozenset((obstacle,)))
        return Step(node, None, path=path, needs=frozenset((path,)))

    def _derived(self, node: t.Derived, bound: Bound) -> Step:
        key, root, inner_bound = self.environment.formula(node, bound)
        inner = self._budget.cached(key, lambda: self.step(root, inner_bound))
        _, name, place = key
        return joined(node, inner.value, (inner,), path=path_at(place, name))

    def _lookup(self, node: t.Lookup, bound: Bound) -> Step:
        parts = tuple(self.step(part, bound) for part in node.arguments)
        keys = [part.value for part in parts]
        known = [key for key in keys if key is not None and not isinstance(key, tuple)]
        if len(known) < len(keys):
            return joined(node, None, parts)
        reading = self.environment.tables[node.table].read(node.column, known)
        return joined(node, reading.value, parts, reading.why)

    def _known(self, node: t.Known, bound: Bound) -> Step:
        inner = self.step(node.operand, bound)
        # Where it is not known, the outcome holds until it is: the reader is told so.
        return Step(node, inner.value is not None, (inner,), assumed=inner.assumed | inner.needs)

    def _within(self, node: t.Within, bound: Bound) -> Step:
        """Evaluate a quantity; an impossible value becomes the obstacle."""
        step = self.step(node.operand, bound)
        if not isinstance(step.value, float) or node.accepts(step.value):
            return step
        return step._replace(value=None, obstacles=frozenset((why_beyond(node, step.value),)))

    def _assumed(self, node: t.Assumed, bound: Bound) -> Step:
        first = self.step(node.operand, bound)
        if first.value is not None:
            return joined(node, first.value, (first,))
        fallback = self.step(node.fallback, bound)
        step = joined(node, fallback.value, (first._replace(needed=False), fallback))
        # The unknown fact is no longer needed, but the reader is told what stood in for it.
        return step._replace(
            needs=fallback.needs,
            obstacles=fallback.obstacles,
            assumed=step.assumed | (first.needs or frozenset((first.path,) if first.path else ())),
        )

    # -- branches ---------------------------------------------------------------------------

    def _logic(self, node: t.Logic, bound: Bound) -> Step:
        settles = CONNECTIVES[node.word].settles
        parts: list[Step] = []
        value: t.Value | None = not settles
        for part in node.parts:
            if value is settles:
                parts.append(Step(part, None, needed=False))
                continue
            step = self.step(part, bound)
            parts.append(step)
            if step.value is settles or value is not None:
                value = step.value
        return joined(node, value, tuple(parts))

    def _choice(self, node: t.Choice, bound: Bound) -> Step:
        condition = self.step(node.condition, bound)
        then = Step(node.then, None, needed=False)
        otherwise = Step(node.otherwise, None, needed=False)
        if condition.value is not False:
            then = self.step(node.then, bound)
        if condition.value is not True:
            otherwise = self.step(node.otherwise, bound)
        if condition.value is None:
            value = v.agreed(then.value, otherwise.value)
        else:
            value = then.value if condition.value else otherwise.value
        assert value is None or isinstance(value, float | str | bool | tuple)
        return joined(node, value, (condition, then, otherwise))


def _absent_group(facts: Item, path: str) -> str:
    """Return the innermost group above a path that is known to be absent, or nothing."""
    absent = [group for group in groups_around(path) if facts.get(group) is False]
    return absent[-1] if absent else ""
