"""The budget of a rulebook: what each rule may spend in one assessment.

A pack of many rules and a job of long lists are each within their bounds and would together take
hours. What an assessment may spend is therefore shared out evenly when the rulebook is linked. A
share depends only on how many share, so that no verdict depends on the order rules are asked in or
on what other rules of the pack spent.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any, Self

from tundish.groundwork.dataclass import dataclass
from tundish.language.budget.cost import cost, total_cost
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
    from tundish.rulebook.model.asked import Asked
    from tundish.rulebook.model.provision import Provision
    from tundish.rulebook.model.rule import DerivedQuantity, Rule

Name = tuple[str, str]

_COST_OF_OUTCOME = 50
"""What holding one outcome on one item of a list costs in steps; it is memory more than time."""


@dataclass(frozen=True, slots=True)
class ExplainingBudget:
    """How much may be explained of one job.

    Attributes:
        steps: Steps that each finding may spend.
        items: The last item of a list whose findings are explained, from 1.
    """

    steps: int
    items: int


@dataclass(frozen=True, slots=True)
class ItemCost:
    """What a rule or a quantity of each item of a list costs.

    Attributes:
        name: Path of the list and name of a quantity; of a rule its name, behind an empty path.
        path: Path of the list.
        steps: What one item costs, with holding the outcome.
    """

    name: Name
    path: str
    steps: int


@dataclass(frozen=True)
class RulebookBudget:
    """Shares of one assessment.

    Attributes:
        steps: Steps that one rule, quantity or provision may spend in loops.
        rules_of_job: How many rules are asked of the job as a whole.
        rules: Those asked of each item of a list.
        quantities: Those computed of each item of a list.
        lists: How many rules are asked of each item of a list, and what one item costs with all of
            them and all quantities, by path of the list.
    """

    steps: int
    rules_of_job: int
    rules: tuple[ItemCost, ...]
    quantities: tuple[ItemCost, ...]
    lists: Mapping[str, tuple[int, int]]

    @classmethod
    def of(
        cls,
        rules: Iterable[Rule],
        quantities: Mapping[Name, DerivedQuantity],
        provisions: Iterable[Provision],
    ) -> Self:
        """Share out an assessment among all that is computed in it."""
        rules = list(rules)
        rules_of_items = tuple(
            ItemCost(("", rule.name), rule.each.path, _of_item(rule.applies, rule.requires))
            for rule in rules
            if rule.each is not None
        )
        of_items = tuple(
            ItemCost(key, key[0], _of_item(quantity.formula.root))
            for key, quantity in quantities.items()
            if key[0]
        )
        of_job = [
            *((rule.applies, rule.requires) for rule in rules if rule.each is None),
            *((quantity.formula.root,) for key, quantity in quantities.items() if not key[0]),
            *((part.needed, part.with_unit, part.number) for part in provisions),
        ]
        shares = (
            len(rules_of_items) + len(of_items) + sum(any(map(_loops, each)) for each in of_job)
        )
        return cls(
            steps=min(MOST_STEPS, MOST_STEPS_OF_ALL // max(1, shares)),
            rules_of_job=len(rules) - len(rules_of_items),
            rules=rules_of_items,
            quantities=of_items,
            lists=_cost_by_list(rules_of_items, of_items),
        )

    def plain(self) -> tuple[Any, ...]:
        """Return it as plain data, for `from_plain`."""
        rules, quantities = (
            [(each.name, each.path, each.steps) for each in costs]
            for costs in (self.rules, self.quantities)
        )
        return self.steps, self.rules_of_job, rules, quantities, dict(self.lists)

    @classmethod
    def from_plain(cls, plain: tuple[Any, ...]) -> Self:
        """Return what `plain` was made of."""
        steps, rules_of_job, *costs, lists = plain
        rules, quantities = (tuple(ItemCost(*each) for each in of_items) for of_items in costs)
        return cls(steps, rules_of_job, rules, quantities, lists)

    def barred(self, values: Mapping[str, object]) -> frozenset[Name]:
        """Return what a job has too many items for: rules and quantities of items.

        Args:
            values: The facts of the job.
        """
        counts = {path: count_items(values, path) for path in self.lists}
        barred: set[Name] = set()
        if self._findings(counts) > MOST_FINDINGS_OF_ITEMS:
            share = MOST_FINDINGS_OF_ITEMS // len(self.rules)
            barred.update(rule.name for rule in self.rules if counts[rule.path] > share)
        if sum(counts[path] * steps for path, (_, steps) in self.lists.items()) > MOST_STEPS_OF_ALL:
            costs = (*self.rules, *self.quantities)
            share = MOST_STEPS_OF_ALL // len(costs)
            barred.update(each.name for each in costs if counts[each.path] * each.steps > share)
        return frozenset(barred)

    @cached_property
    def few(self) -> int:
        """Return how many items each list of a job may have for nothing to be barred."""
        rules = 1 + sum(rules for rules, _ in self.lists.values())
        steps = 1 + sum(steps for _, steps in self.lists.values())
        return min(MOST_FINDINGS_OF_ITEMS // rules, MOST_STEPS_OF_ALL // steps)

    def explaining(self, values: Mapping[str, object]) -> ExplainingBudget:
        """Return how much may be explained of a job.

        Args:
            values: The facts of the job.
        """
        counts = {path: count_items(values, path) for path in self.lists}
        findings = self._findings(counts)
        items = max(counts.values(), default=0)
        if findings > MOST_EXPLAINED_FINDINGS:
            items = max(1, MOST_EXPLAINED_FINDINGS // len(self.rules))
            findings = self._findings({path: min(count, items) for path, count in counts.items()})
        share = MOST_EXPLAINED_STEPS_OF_ALL // max(1, findings + self.rules_of_job)
        return ExplainingBudget(min(MOST_EXPLAINED_STEPS, share), items)

    def _findings(self, counts: Mapping[str, int]) -> int:
        return sum(counts[path] * rules for path, (rules, _) in self.lists.items())


def _of_item(*roots: t.Node) -> int:
    return cost(*roots) + _COST_OF_OUTCOME


def _cost_by_list(
    rules: Iterable[ItemCost], quantities: Iterable[ItemCost]
) -> Mapping[str, tuple[int, int]]:
    rules = list(rules)
    asked = Counter(rule.path for rule in rules)
    steps = Counter[str]()
    for each in (*rules, *quantities):
        steps[each.path] += each.steps
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
    return sum(len(items) for holder in holders if isinstance(items := holder.get(inner), list))


def most_steps(
    rules: Iterable[Asked],
    quantities: Mapping[Name, DerivedQuantity],
    values: Mapping[str, object],
) -> int:
    """Return a number of steps that no rule, and no quantity, passes over the lists of a job.

    Every branch and every item is counted as if it were computed. A quantity of the whole job has
    a budget of its own; one of an item is counted wherever it is used.

    Args:
        rules: The rules.
        quantities: All quantities that they use.
        values: The facts of the job.
    """
    bounds = _StepBounds(quantities, _longest(values, ""))
    return max(
        (
            0,
            *(bounds.steps(quantity.formula.root, {}) for quantity in bounds.of_job),
            *(bounds.of_rule(rule) for rule in rules),
        )
    )


class _StepBounds:
    """Counts steps over lists of some lengths."""

    def __init__(
        self, quantities: Mapping[Name, DerivedQuantity], lengths: Mapping[str, int]
    ) -> None:
        self.of_job = [quantity for key, quantity in quantities.items() if not key[0]]
        self._quantities = quantities
        self._lengths = lengths
        self._of_items: dict[Name, int] = {}

    def of_rule(self, rule: Asked) -> int:
        """Return how many steps a rule takes; the items of its list share its budget."""
        steps = sum(self.steps(root, rule.variables) for root in (rule.applies, rule.requires))
        return steps * (self._lengths.get(rule.each.path, 0) if rule.each else 1)

    def steps(self, node: t.Node, lists: Mapping[str, str]) -> int:
        """Return how many steps an expression takes, with the list of each bound variable."""
        if isinstance(node, t.Derived):
            return self._of_item((lists[node.item], node.name)) if node.item else 0
        if not isinstance(node, t.Loop | t.Interpolation):
            return sum(self.steps(part, lists) for part in t.children(node))
        path = node.items.kind.record
        inside = {**lists, node.variable: path}
        inner = sum(self.steps(part, inside) for part in t.children(node))
        return self._lengths.get(path, 0) * (total_cost(node) + inner)

    def _of_item(self, key: Name) -> int:
        if key not in self._of_items:
            quantity = self._quantities[key]
            self._of_items[key] = self.steps(quantity.formula.root, quantity.variables)
        return self._of_items[key]


def _longest(values: Mapping[str, object], before: str) -> dict[str, int]:
    """Return the length of each list, by path; of lists within items the longest of them."""
    lengths: dict[str, int] = {}
    for path, value in values.items():
        if not isinstance(value, list):
            continue
        lengths[before + path] = max(lengths.get(before + path, 0), len(value))
        for item in value:
            for inner, length in _longest(item, f"{before}{path}.").items():
                lengths[inner] = max(lengths.get(inner, 0), length)
    return lengths
