"""How many steps in loops a rule can take at most, without running it."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language.budget.cost import total_cost
from tundish.language.tree import tree as t
from tundish.rulebook.evaluate.rule_set import RuleSet


def most_steps(rulebook: RuleSet, values: Mapping[str, object]) -> int:
    """Return a number of steps that no rule, and no quantity, passes over the lists of a job.

    Every branch and every item is counted as if it were looked at. A quantity of the whole job has
    an allowance of its own; what one of an item takes is counted wherever it is asked for.

    Args:
        rulebook: The rules.
        values: The facts of the job.
    """
    counted = _Counted(rulebook, _longest(values, ""))
    found = [counted.steps(rulebook.quantities[key].formula.root, {}) for key in counted.whole]
    for rule in rulebook.rules.values():
        lists = {rule.each.variable: rule.each.path} if rule.each else {}
        steps = counted.steps(rule.applies, lists) + counted.steps(rule.requires, lists)
        # The items of a list share the allowance of their rule.
        found.append(steps * (counted.length(rule.each.path) if rule.each else 1))
    return max(found, default=0)


class _Counted:
    """Counts steps over lists of some lengths."""

    def __init__(self, rulebook: RuleSet, lengths: Mapping[str, int]) -> None:
        self.whole = [key for key in rulebook.quantities if not key[0]]
        self._rulebook = rulebook
        self._lengths = lengths
        self._of_items: dict[tuple[str, str], int] = {}

    def length(self, path: str) -> int:
        """Return how long a list is at most."""
        return self._lengths.get(path, 0)

    def steps(self, node: t.Node, lists: Mapping[str, str]) -> int:
        """Return how many steps a part takes, with the lists that variables in it run over."""
        if isinstance(node, t.Derived):
            return self._of_item((lists[node.item], node.name)) if node.item else 0
        if not isinstance(node, t.Loop | t.Interpolation):
            return sum(self.steps(part, lists) for part in t.children(node))
        inside = {**lists, node.variable: node.items.kind.record}
        inner = sum(self.steps(part, inside) for part in t.children(node))
        return self.length(node.items.kind.record) * (total_cost(node) + inner)

    def _of_item(self, key: tuple[str, str]) -> int:
        if key not in self._of_items:
            quantity = self._rulebook.quantities[key]
            lists = {quantity.each.variable: quantity.each.path} if quantity.each else {}
            self._of_items[key] = self.steps(quantity.formula.root, lists)
        return self._of_items[key]


def _longest(values: Mapping[str, object], before: str) -> dict[str, int]:
    """Return the length of each list, by path; of lists within items the longest of them."""
    found: dict[str, int] = {}
    for path, value in values.items():
        if not isinstance(value, list):
            continue
        found[before + path] = max(found.get(before + path, 0), len(value))
        for item in value:
            for inner, length in _longest(item, f"{before}{path}.").items():
                found[inner] = max(found.get(inner, 0), length)
    return found
