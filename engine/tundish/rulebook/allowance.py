"""The allowance: how much of one assessment each rule of a rulebook may take.

A pack of many rules and a job of long lists are each within their bounds and would together take
hours. What an assessment may take is therefore shared out: evenly, when the rulebook is linked and
by nothing but how many have a share, so that no verdict hangs on the order rules are asked in or
on what other rules of the pack took.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from tundish.language import tree as t
from tundish.language.weighing import weight
from tundish.reading.bounds import (
    MOST_EXPLAINED_FINDINGS,
    MOST_EXPLAINED_STEPS,
    MOST_EXPLAINED_STEPS_OF_ALL,
    MOST_STEPS,
    MOST_STEPS_OF_ALL,
)
from tundish.rulebook.provision import Provision
from tundish.rulebook.rule import DerivedQuantity, Rule

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
class Allowance:
    """Shares of one assessment.

    Attributes:
        steps: Steps in loops that one rule, quantity or provision may take.
        rules: How many rules there are.
        of_items: What is asked of each item of a list: its name (rules under no list), the path of
            the list, and the steps it takes an item.
        rules_of_items: How many rules are asked of each item of a list, by its path.
    """

    steps: int
    rules: int
    of_items: tuple[tuple[Name, str, int], ...]
    rules_of_items: Mapping[str, int]

    @classmethod
    def of(
        cls,
        rules: Iterable[Rule],
        quantities: Mapping[Name, DerivedQuantity],
        provisions: Iterable[Provision],
    ) -> Allowance:
        """Share out an assessment among what is asked in it."""
        asked = list(rules)
        roots = [
            *((rule.each, rule.applies, rule.requires) for rule in asked),
            *((one.each, one.formula.root) for one in quantities.values()),
            *((None, one.needed, one.with_unit, one.number) for one in provisions),
        ]
        sharing = sum(each is not None or any(map(_loops, parts)) for each, *parts in roots)
        return cls(
            steps=min(MOST_STEPS, MOST_STEPS_OF_ALL // max(1, sharing)),
            rules=len(asked),
            of_items=tuple(_of_items(asked, quantities)),
            rules_of_items=Counter(rule.each.path for rule in asked if rule.each),
        )

    def barred(self, values: Mapping[str, object]) -> frozenset[Name]:
        """Return what a job has too many items for: rules and quantities of items.

        Args:
            values: The facts of the job.
        """
        if not self.of_items:
            return frozenset()
        counts = {path: _count(values, path) for _, path, _ in self.of_items}
        if sum(counts[path] * steps for _, path, steps in self.of_items) <= MOST_STEPS_OF_ALL:
            return frozenset()
        share = MOST_STEPS_OF_ALL // len(self.of_items)
        return frozenset(
            name for name, path, steps in self.of_items if counts[path] * steps > share
        )

    def explained(self, values: Mapping[str, object]) -> Explained:
        """Return how much may be explained of a job.

        Args:
            values: The facts of the job.
        """
        by_path = self.rules_of_items
        counts = {path: _count(values, path) for path in by_path}
        findings = sum(counts[path] * number for path, number in by_path.items())
        items = max(counts.values(), default=0)
        if findings > MOST_EXPLAINED_FINDINGS:
            items = max(1, MOST_EXPLAINED_FINDINGS // sum(by_path.values()))
            findings = sum(min(counts[path], items) * number for path, number in by_path.items())
        findings += self.rules - sum(by_path.values())
        share = MOST_EXPLAINED_STEPS_OF_ALL // max(1, findings)
        return Explained(min(MOST_EXPLAINED_STEPS, share), items)


def _of_items(
    rules: Iterable[Rule], quantities: Mapping[Name, DerivedQuantity]
) -> Iterator[tuple[Name, str, int]]:
    for rule in rules:
        if rule.each is not None:
            steps = weight(rule.applies, rule.requires) + _KEEPING
            yield ("", rule.name), rule.each.path, steps
    for name, quantity in quantities.items():
        if name[0]:
            yield name, name[0], weight(quantity.formula.root) + _KEEPING


def _loops(root: t.Node) -> bool:
    return any(isinstance(node, t.Loop | t.Interpolation) for node, _ in t.walk(root, {}))


def _count(values: Mapping[str, object], path: str) -> int:
    """Return how many items a list has, or all lists of one path inside the items of another."""
    items = values.get(path)
    if isinstance(items, list):
        return len(items)
    outer, _, inner = path.rpartition(".")
    holders = values.get(outer) if outer else None
    if not isinstance(holders, list):
        return 0
    return sum(len(one) for item in holders if isinstance(one := item.get(inner), list))
