"""The allowance: how much of one assessment each rule of a rulebook may take.

A pack of many rules and a job of long lists are each within their bounds and would together take
hours. What an assessment may take is therefore shared out: evenly, when the rulebook is linked and
by nothing but how many have a share, so that no verdict hangs on the order rules are asked in or
on what other rules of the pack took.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any, Self

from tundish.groundwork.dataclass import dataclass
from tundish.language.budget.cost import cost
from tundish.language.tree import tree as t
from tundish.text.bounds import (
    MOST_EXPLAINED_FINDINGS,
    MOST_EXPLAINED_STEPS,
    MOST_EXPLAINED_STEPS_OF_ALL,
    MOST_FINDINGS_OF_ITEMS,
    MOST_STEPS,
    MOST_STEPS_OF_ALL,
)

if TYPE_CHECKING:
    from tundish.rulebook.model.provision import Provision
    from tundish.rulebook.model.rule import DerivedQuantity, Rule

Name = tuple[str, str]

_KEEPING = 50
"""Steps that keeping one answer on one item of a list is taken for; it is memory more than time."""


@dataclass(frozen=True, slots=True)
class Explained:
    """How much may be explained of one job.

    Attributes:
        steps: Steps each finding may take.
        items: The last item of a list whose findings are explained, from 1.
    """

    steps: int
    items: int


@dataclass(frozen=True, slots=True)
class OfItems:
    """A rule or a quantity of each item of a list: its name, its list, its steps an item.

    Attributes:
        name: Path of the list and name of a quantity; of a rule its name, behind an empty path.
        path: Path of the list.
        steps: Steps that one item takes, and keeping what came out.
    """

    name: Name
    path: str
    steps: int


@dataclass(frozen=True)
class RulebookBudget:
    """Shares of one assessment.

    Attributes:
        steps: Steps in loops that one rule, quantity or provision may take.
        of_whole_job: How many rules are asked of the job as a whole.
        rules: Those asked of each item of a list.
        quantities: Those worked out of each item of a list.
        loads: How many rules are asked of each item of a list, and how many steps one item takes
            with all of them and all quantities, by path of the list.
    """

    steps: int
    of_whole_job: int
    rules: tuple[OfItems, ...]
    quantities: tuple[OfItems, ...]
    loads: Mapping[str, tuple[int, int]]

    @classmethod
    def of(
        cls,
        rules: Iterable[Rule],
        quantities: Mapping[Name, DerivedQuantity],
        provisions: Iterable[Provision],
    ) -> RulebookBudget:
        """Share out an assessment among what is asked in it."""
        asked = list(rules)
        of_items = tuple(
            OfItems(("", one.name), one.each.path, cost(one.applies, one.requires) + _KEEPING)
            for one in asked
            if one.each is not None
        )
        worked_out = tuple(
            OfItems(name, name[0], cost(one.formula.root) + _KEEPING)
            for name, one in quantities.items()
            if name[0]
        )
        looping = [
            *((rule.applies, rule.requires) for rule in asked if rule.each is None),
            *((one.formula.root,) for name, one in quantities.items() if not name[0]),
            *((one.needed, one.with_unit, one.number) for one in provisions),
        ]
        sharing = len(of_items) + len(worked_out) + sum(any(map(_loops, each)) for each in looping)
        return cls(
            steps=min(MOST_STEPS, MOST_STEPS_OF_ALL // max(1, sharing)),
            of_whole_job=len(asked) - len(of_items),
            rules=of_items,
            quantities=worked_out,
            loads=_loads(of_items, worked_out),
        )

    def plain(self) -> tuple[Any, ...]:
        """Return it as plain data, for `from_plain`."""
        asked, worked_out = (
            [(one.name, one.path, one.steps) for one in each]
            for each in (self.rules, self.quantities)
        )
        return self.steps, self.of_whole_job, asked, worked_out, dict(self.loads)

    @classmethod
    def from_plain(cls, plain: tuple[Any, ...]) -> Self:
        """Return what `plain` was made of."""
        steps, of_whole_job, rules, quantities, loads = plain
        asked, worked_out = (tuple(OfItems(*one) for one in each) for each in (rules, quantities))
        return cls(steps, of_whole_job, asked, worked_out, loads)

    def barred(self, values: Mapping[str, object]) -> frozenset[Name]:
        """Return what a job has too many items for: rules and quantities of items.

        Args:
            values: The facts of the job.
        """
        counts = {path: count_items(values, path) for path in self.loads}
        barred: set[Name] = set()
        if self._findings(counts) > MOST_FINDINGS_OF_ITEMS:
            share = MOST_FINDINGS_OF_ITEMS // len(self.rules)
            barred.update(one.name for one in self.rules if counts[one.path] > share)
        if sum(counts[path] * self.loads[path][1] for path in counts) > MOST_STEPS_OF_ALL:
            every = (*self.rules, *self.quantities)
            share = MOST_STEPS_OF_ALL // len(every)
            barred.update(one.name for one in every if counts[one.path] * one.steps > share)
        return frozenset(barred)

    @cached_property
    def few(self) -> int:
        """Return how many items each list of a job may have for nothing to be barred."""
        rules = 1 + sum(rules for rules, _ in self.loads.values())
        steps = 1 + sum(steps for _, steps in self.loads.values())
        return min(MOST_FINDINGS_OF_ITEMS // rules, MOST_STEPS_OF_ALL // steps)

    def explained(self, values: Mapping[str, object]) -> Explained:
        """Return how much may be explained of a job.

        Args:
            values: The facts of the job.
        """
        counts = {path: count_items(values, path) for path in self.loads}
        findings = self._findings(counts)
        items = max(counts.values(), default=0)
        if findings > MOST_EXPLAINED_FINDINGS:
            items = max(1, MOST_EXPLAINED_FINDINGS // len(self.rules))
            findings = self._findings({path: min(count, items) for path, count in counts.items()})
        share = MOST_EXPLAINED_STEPS_OF_ALL // max(1, findings + self.of_whole_job)
        return Explained(min(MOST_EXPLAINED_STEPS, share), items)

    def _findings(self, counts: Mapping[str, int]) -> int:
        return sum(counts[path] * rules for path, (rules, _) in self.loads.items())


def _loads(
    rules: Iterable[OfItems], quantities: Iterable[OfItems]
) -> Mapping[str, tuple[int, int]]:
    asked, steps = Counter[str](), Counter[str]()
    for one in rules:
        asked[one.path] += 1
        steps[one.path] += one.steps
    for one in quantities:
        steps[one.path] += one.steps
    return {path: (asked[path], steps[path]) for path in steps}


def _loops(root: t.Node) -> bool:
    return any(isinstance(node, t.Loop | t.Interpolation) for node, _ in t.walk(root, {}))


def count_items(values: Mapping[str, object], path: str) -> int:
    """Return how many items a list has, or all lists of one path inside the items of another."""
    items = values.get(path)
    if isinstance(items, list):
        return len(items)
    outer, _, inner = path.rpartition(".")
    holders = values.get(outer) if outer else None
    if not isinstance(holders, list):
        return 0
    return sum(len(one) for item in holders if isinstance(one := item.get(inner), list))
