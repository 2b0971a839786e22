"""Compiling all rules of a rulebook into the fused functions that ask them.

Very many rules are asked by several functions, as compiling one of them all would take much memory.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from types import CodeType

from tundish.language.check.scope import Meaning
from tundish.language.codegen.common_subexpressions import Conditions
from tundish.language.evaluate.fused import compile_fused
from tundish.language.tree import tree as t
from tundish.rulebook.evaluate.rule_set import RuleSet
from tundish.rulebook.link.dependencies import quantities_in
from tundish.rulebook.model.asked import Asked
from tundish.text.bounds import PARTS_AT_ONCE


def compile_rules(rulebook: RuleSet, rules: Iterable[Asked]) -> tuple[CodeType, ...]:
    """Compile rules or constraints into functions that ask them in their order.

    Args:
        rulebook: All that they need.
        rules: Those to ask.
    """
    lists = _lists(rulebook)
    return tuple(
        compile_fused(list(map(_conditions, group)), dict(_formulas(rulebook, group)), lists)
        for group in _groups(rules)
    )


def _groups(rules: Iterable[Asked]) -> Iterator[list[Asked]]:
    """Give the rules in order, in groups small enough to be compiled at once."""
    group: list[Asked] = []
    nodes = 0
    for rule in rules:
        size = sum(1 for root in (rule.applies, rule.requires) for _ in t.walk(root, {}))
        if group and nodes + size > PARTS_AT_ONCE:
            yield group
            group, nodes = [], 0
        group.append(rule)
        nodes += size
    yield group


def _lists(rulebook: RuleSet) -> dict[str, bool]:
    """Return the lists of a job whose items count, and whether lists inside their items do."""
    facts = rulebook.scope.facts
    lists: dict[str, bool] = {}
    for path in rulebook.budget.lists:
        steps = path.split(".")
        outer = [".".join(steps[:length]) for length in range(1, len(steps))]
        outermost = next((group for group in outer if _is_list(facts.get(group))), path)
        lists[outermost] = lists.get(outermost, False) or outermost != path
    return lists


def _is_list(meaning: Meaning | None) -> bool:
    return meaning is not None and meaning.kind.name == "items"


def _conditions(rule: Asked) -> Conditions:
    if rule.each is None:
        return Conditions(rule.applies, rule.requires)
    return Conditions(rule.applies, rule.requires, rule.each.variable, rule.each.path)


def _formulas(
    rulebook: RuleSet, rules: Sequence[Asked]
) -> Iterator[tuple[tuple[str, str], tuple[t.Node, str]]]:
    """Give the formulas that rules need, each behind all it is made of."""
    visited: set[tuple[str, str]] = set()

    def visit(key: tuple[str, str]) -> Iterator[tuple[tuple[str, str], tuple[t.Node, str]]]:
        if key in visited:
            return
        visited.add(key)
        quantity = rulebook.quantities[key]
        for need in quantities_in(quantity.formula.root, quantity.variables):
            yield from visit(need)
        yield key, (quantity.formula.root, quantity.each.variable if quantity.each else "")

    for rule in rules:
        for condition in (rule.applies, rule.requires):
            for need in quantities_in(condition, rule.variables):
                yield from visit(need)
