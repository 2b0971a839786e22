"""The explained form: walking a checked tree and keeping every step.

It must give the value that the compiled form gives, for every tree and every job; property tests
and the shared case files hold the two together. Where the compiled form stops a loop early, this
one goes on: a reader wants to see every item that fails, and the value is the same.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from tundish.language import tree as t
from tundish.language import values as v
from tundish.language.loops import LOOP_VALUE, NEUTRAL, Rounds
from tundish.language.plain import plain_value, why_lost
from tundish.language.session import Given, Item, TooManySteps
from tundish.language.step import Step
from tundish.language.table import Table
from tundish.reading.bounds import MOST_EXPLAINED_STEPS


@dataclass(frozen=True, slots=True)
class Formula:
    """A quantity's checked formula, and the variable that names its item, if it has one."""

    root: t.Node
    variable: str | None = None


Binding = tuple[Item, str]
"""An item's facts, and its place such as ``water.run[2]``."""


class Explainer:
    """Walks trees over one job. Not for sharing between threads; make one a use."""

    def __init__(
        self,
        given: Given,
        formulas: Mapping[tuple[str, str], Formula],
        tables: Mapping[str, Table],
    ) -> None:
        self._given = given
        self._formulas = formulas
        self._tables = tables
        self._remembered: dict[tuple[str, str, str], Step] = {}
        self._steps_left = MOST_EXPLAINED_STEPS

    def explain(self, root: t.Node, bindings: Mapping[str, Binding] | None = None) -> Step:
        """Evaluate a tree and keep how.

        Args:
            root: The checked tree.
            bindings: The items that variables stand for.

        Returns:
            The root's step, with all steps below it.

        Raises:
            TooManySteps: If loops take more rounds than are kept to explain a rule.
        """
        self._steps_left = MOST_EXPLAINED_STEPS
        return self._step(root, dict(bindings or {}))

    def _step(self, node: t.Node, bound: Mapping[str, Binding]) -> Step:
        match node:
            case t.Constant():
                return Step(node, node.value)
            case t.Read():
                return self._read(node, bound)
            case t.Derived():
                return self._derived(node, bound)
            case t.Logic():
                return self._logic(node, bound)
            case t.Choice():
                return self._choice(node, bound)
            case t.Known():
                inner = self._step(node.operand, bound)
                return Step(node, inner.value is not None, (inner,), assumed=inner.assumed)
            case t.Assumed():
                return self._assumed(node, bound)
            case t.Lookup():
                return self._lookup(node, bound)
            case t.Count():
                return self._count(node, bound)
            case t.Loop():
                return self._loop(node, bound)
            case _:
                return self._plain(node, bound)

    def _plain(self, node: t.Node, bound: Mapping[str, Binding]) -> Step:
        """Take a step whose value follows from those of all its parts."""
        parts = tuple(self._step(part, bound) for part in t.children(node))
        values = [part.value for part in parts]
        value = plain_value(node, values)
        lost = value is None and None not in values
        return _joined(node, value, parts, why_lost(node, values) if lost else "")

    # -- facts and quantities ---------------------------------------------------------------

    def _read(self, node: t.Read, bound: Mapping[str, Binding]) -> Step:
        facts, place = (self._given.values, "") if node.item is None else bound[node.item]
        path = f"{place}.{node.path}" if place else node.path
        value = facts.get(node.path)
        if value is not None:
            if isinstance(value, list):  # the items themselves are looked at by the loop
                return Step(node, True, path=path)
            assert isinstance(value, float | str | bool | tuple)
            return Step(node, value, path=path)
        absent = _absent_group(facts, node.path)
        if absent:
            where = f"{place}.{absent}" if place else absent
            return Step(node, None, path=path, obstacles=frozenset((f"there is no {where}",)))
        return Step(node, None, path=path, needs=frozenset((path,)))

    def _derived(self, node: t.Derived, bound: Mapping[str, Binding]) -> Step:
        of = "" if node.item is None else _without_positions(bound[node.item][1])
        place = "" if node.item is None else bound[node.item][1]
        key = (of, node.name, place)
        if key not in self._remembered:
            formula = self._formulas[of, node.name]
            inner_bound = {}
            if formula.variable is not None and node.item is not None:
                inner_bound = {formula.variable: bound[node.item]}
            self._remembered[key] = self._step(formula.root, inner_bound)
        inner = self._remembered[key]
        name = f"{place}.{node.name}" if place else node.name
        return replace(_joined(node, inner.value, (inner,)), path=name)

    def _lookup(self, node: t.Lookup, bound: Mapping[str, Binding]) -> Step:
        parts = tuple(self._step(part, bound) for part in node.arguments)
        keys = [part.value for part in parts]
        known = [key for key in keys if key is not None and not isinstance(key, tuple)]
        if len(known) < len(keys):
            return _joined(node, None, parts)
        reading = self._tables[node.table].read(node.column, known)
        return _joined(node, reading.value, parts, reading.why)

    def _assumed(self, node: t.Assumed, bound: Mapping[str, Binding]) -> Step:
        first = self._step(node.operand, bound)
        if first.value is not None:
            return _joined(node, first.value, (first,))
        fallback = self._step(node.fallback, bound)
        step = _joined(node, fallback.value, (replace(first, needed=False), fallback))
        # The unknown fact is no longer needed, but the reader is told what stood in for it.
        return replace(
            step,
            needs=fallback.needs,
            obstacles=fallback.obstacles,
            assumed=step.assumed | (first.needs or frozenset((first.path,) if first.path else ())),
        )

    # -- branches ---------------------------------------------------------------------------

    def _logic(self, node: t.Logic, bound: Mapping[str, Binding]) -> Step:
        settles = node.word == "or"
        parts: list[Step] = []
        value: t.Value | None = not settles
        for part in node.parts:
            if value is settles:
                parts.append(Step(part, None, needed=False))
                continue
            step = self._step(part, bound)
            parts.append(step)
            if step.value is settles or value is not None:
                value = step.value
        return _joined(node, value, tuple(parts))

    def _choice(self, node: t.Choice, bound: Mapping[str, Binding]) -> Step:
        condition = self._step(node.condition, bound)
        then = Step(node.then, None, needed=False)
        otherwise = Step(node.otherwise, None, needed=False)
        if condition.value is not False:
            then = self._step(node.then, bound)
        if condition.value is not True:
            otherwise = self._step(node.otherwise, bound)
        if condition.value is None:
            value = v.agreed(then.value, otherwise.value)
        else:
            value = then.value if condition.value else otherwise.value
        assert value is None or isinstance(value, float | str | bool | tuple)
        return _joined(node, value, (condition, then, otherwise))

    def _rows(self, node: t.Read, bound: Mapping[str, Binding]) -> list[Item]:
        holder = self._given.values if node.item is None else bound[node.item][0]
        rows = holder.get(node.path)
        return rows if isinstance(rows, list) else []

    def _count(self, node: t.Count, bound: Mapping[str, Binding]) -> Step:
        items = self._read(node.items, bound)
        value = None if items.value is None else float(len(self._rows(node.items, bound)))
        return _joined(node, value, (items,))

    def _loop(self, node: t.Loop, bound: Mapping[str, Binding]) -> Step:
        items = self._read(node.items, bound)
        if items.value is None:
            return _joined(node, None, (items,))
        rows = self._rows(node.items, bound)
        self._spend(len(rows))
        rounds = [
            self._round(node, bound, row, items.path, position)
            for position, row in enumerate(rows, start=1)
        ]
        pairs = [(test.value if test else True, term.value) for test, term in rounds]
        value = LOOP_VALUE[node.function](pairs)
        parts = tuple(step for pair in rounds for step in pair if step is not None)
        return _joined(
            node, value, (items, *parts), _why_no_value(node.function, items.path, pairs)
        )

    def _round(
        self, node: t.Loop, bound: Mapping[str, Binding], row: Item, path: str, position: int
    ) -> tuple[Step | None, Step]:
        inner = {**bound, node.variable: (row, f"{path}[{position}]")}
        name = self._given.names[f"{path}[{position}]"]
        test = None
        if node.filter is not None:
            test = replace(self._step(node.filter, inner), item=name)
            if test.value is False:
                return test, Step(node.term, None, item=name, needed=False)
        term = replace(self._step(node.term, inner), item=name)
        if test is not None and term.value is NEUTRAL.get(node.function, term):
            # Whether such an item counts changes nothing, so nobody need find out.
            test = replace(test, needed=False)
        return test, term

    def _spend(self, steps: int) -> None:
        self._steps_left -= steps
        if self._steps_left < 0:
            raise TooManySteps


def _joined(node: t.Node, value: t.Value | None, parts: tuple[Step, ...], why: str = "") -> Step:
    """Make a step of its parts; what it still needs follows from the parts without a value."""
    assumed = frozenset[str]().union(*(part.assumed for part in parts))
    if value is not None:
        return Step(node, value, parts, assumed=assumed)
    open_parts = [part for part in parts if part.value is None and part.needed]
    needs = frozenset[str]().union(*(part.needs for part in open_parts))
    obstacles = frozenset[str]().union(*(part.obstacles for part in open_parts))
    if why and not needs:
        obstacles |= {why}
    return Step(node, None, parts, needs=needs, obstacles=obstacles, assumed=assumed)


def _why_no_value(function: str, path: str, pairs: Rounds) -> str:
    """Say why a loop without an unknown in it has no value."""
    if function in ("least", "greatest") and all(test is False for test, _ in pairs):
        return f"no item of {path} counts"
    return "the total is no finite number" if function == "sum" else ""


def _absent_group(facts: Item, path: str) -> str:
    """Return the innermost group above a path that is known to be absent, or nothing."""
    steps = path.split(".")
    for length in range(len(steps) - 1, 0, -1):
        group = ".".join(steps[:length])
        if facts.get(group) is False:
            return group
    return ""


def _without_positions(place: str) -> str:
    """Turn ``water.run[2]`` into ``water.run``."""
    return re.sub(r"\[[0-9]+\]", "", place)
