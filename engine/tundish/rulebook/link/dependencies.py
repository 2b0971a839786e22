"""The order quantities depend on each other in, and the cycles that must not be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from tundish.language.tree.tree import Derived, Loop, Node, children
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.text.bounds import DEEPEST_TREE, LONGEST_DEPENDENCE
from tundish.text.problem import Problem

Name = tuple[str, str]


def quantities_in(root: Node, variables: Mapping[str, str]) -> Iterator[Name]:
    """Give the quantities an expression reads, each by list path (or "") and name."""
    for name, _ in _leaves(root, variables):
        if name is not None:
            yield name


def dependence_problems(
    quantities: Mapping[Name, DerivedQuantity], rules: Iterable[Rule]
) -> list[Problem]:
    """Find quantities that are computed from themselves, or through too many others.

    Args:
        quantities: All quantities.
        rules: All rules, which must not reach too deep through quantities either.
    """
    order = _Order(quantities)
    for name in quantities:
        order.visit(name, [])
    if not order.problems:
        order.check_depths(rules)
    return order.problems


class _Order:
    """A depth-first walk through all quantities, those that others need first."""

    def __init__(self, quantities: Mapping[Name, DerivedQuantity]) -> None:
        self.problems: list[Problem] = []
        self._quantities = quantities
        self._needs = {
            name: list(dict.fromkeys(quantities_in(quantity.formula.root, quantity.variables)))
            for name, quantity in quantities.items()
        }
        self._in_a_row: dict[Name, int] = {}
        self._heights: dict[Name, int] = {}

    def visit(self, name: Name, above: list[Name]) -> int:
        """Return how many quantities in a row end in one."""
        if name in self._in_a_row or name not in self._needs:
            return self._in_a_row.get(name, 0)
        if name in above:
            words = " needs ".join(key[1] for key in [*above[above.index(name) :], name])
            self._refuse(name, f"This is computed from itself: {words}.")
            return 0
        # Those still above must not grow past the bound either, or this would not end well.
        below = (
            [self.visit(need, [*above, name]) for need in self._needs[name]]
            if len(above) < LONGEST_DEPENDENCE
            else [LONGEST_DEPENDENCE]
        )
        if name not in self._in_a_row:
            self._in_a_row[name] = 1 + max(below, default=0)
            if self._in_a_row[name] > LONGEST_DEPENDENCE:
                sentence = f"More than {LONGEST_DEPENDENCE} quantities are computed in a row."
                self._refuse(name, sentence)
        return self._in_a_row[name]

    def check_depths(self, rules: Iterable[Rule]) -> None:
        """Refuse formulas and conditions that, with all they are computed from, stand too deep."""
        for name in sorted(self._needs, key=lambda name: self._in_a_row[name]):
            quantity = self._quantities[name]
            self._heights[name] = self._height(quantity.formula.root, quantity.variables)
            if self._heights[name] > DEEPEST_TREE:
                self._refuse(name, _TOO_DEEP)
                self._heights[name] = 0
        for rule in rules:
            breach_parts = (part for part in rule.breach if not isinstance(part, str))
            for root in (rule.applies, rule.requires, *breach_parts):
                if self._height(root, rule.variables) > DEEPEST_TREE:
                    self.problems.append(rule.source.problem(("requires",), _TOO_DEEP))
                    break

    def _height(self, root: Node, variables: Mapping[str, str]) -> int:
        return max(
            depth + (0 if name is None else self._heights.get(name, 0))
            for name, depth in _leaves(root, variables)
        )

    def _refuse(self, name: Name, sentence: str) -> None:
        self.problems.append(self._quantities[name].source.problem((name[1], "formula"), sentence))
        self._in_a_row[name] = 0


_TOO_DEEP = f"With all it is computed from, this stands more than {DEEPEST_TREE} parts deep."


def _leaves(root: Node, variables: Mapping[str, str]) -> Iterator[tuple[Name | None, int]]:
    """Give every leaf of a tree with its depth, and its key where it is a quantity."""
    waiting = [(root, dict(variables), 1)]
    while waiting:
        node, bound, level = waiting.pop()
        if isinstance(node, Derived):
            yield ("" if node.item is None else bound[node.item], node.name), level
            continue
        if isinstance(node, Loop):
            bound = {**bound, node.variable: node.items.kind.record}
        parts = children(node)
        if not parts:
            yield None, level
        waiting.extend((part, bound, level + 1) for part in reversed(parts))
