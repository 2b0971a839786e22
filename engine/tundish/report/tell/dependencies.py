"""What a rule or quantity uses: the quantities and facts its expressions name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from tundish.language.tree import tree as t
from tundish.rulebook.link.facts_read import quantities_read
from tundish.rulebook.model.asked import Asked
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook

Expression = tuple[t.Node, Mapping[str, str]]
"""A checked expression, and the lists that its variables run over."""


def expressions(user: Asked | DerivedQuantity) -> list[Expression]:
    """Return the expressions of a rule or quantity."""
    bound = user.variables
    if isinstance(user, DerivedQuantity):
        return [(user.formula.root, bound)]
    return [(user.applies, bound), (user.requires, bound)]


def used_quantities(user: Asked | DerivedQuantity, rulebook: Rulebook) -> list[DerivedQuantity]:
    """Return the quantities that something uses, and then those that these use."""
    quantities_read: dict[tuple[str, str], DerivedQuantity] = {}
    waiting = expressions(user)
    while waiting:
        for node, path in _names([waiting.pop(0)]):
            if isinstance(node, t.Derived) and (path, node.name) not in quantities_read:
                quantity = rulebook.quantities[path, node.name]
                quantities_read[path, node.name] = quantity
                waiting += expressions(quantity)
    return list(quantities_read.values())


def rules_that_use(quantities: Iterable[DerivedQuantity], rulebook: Rulebook) -> list[Rule]:
    """Return the rules that use any of some quantities, themselves or through other quantities.

    Args:
        quantities: The quantities.
        rulebook: It has them, and the rules.
    """
    ahead = [
        (quantity.each.path if quantity.each else "", quantity.name) for quantity in quantities
    ]
    using = set(ahead)
    while ahead:
        read = ahead.pop()
        for key, quantity in rulebook.quantities.items():
            # Searching the text first spares nearly all walks through trees.
            may_use = key not in using and read[1] in quantity.written
            if may_use and read in quantities_read(quantity):
                using.add(key)
                ahead.append(key)
    names = {name for _, name in using}
    return [
        rule
        for rule in rulebook.rules.values()
        if any(name in text for text in rule.written.values() for name in names)
        and not using.isdisjoint(quantities_read(rule))
    ]


def used_facts(users: Iterable[Asked | DerivedQuantity]) -> dict[str, str]:
    """Return the labels of the facts that expressions look at, by path without positions."""
    facts: dict[str, str] = {}
    for user in users:
        for node, path in _names(expressions(user)):
            if isinstance(node, t.Read) and node.kind.name not in ("items", "record"):
                facts.setdefault(f"{path}.{node.path}" if path else node.path, node.label)
    return facts


def _names(roots: Iterable[Expression]) -> Iterator[tuple[t.Read | t.Derived, str]]:
    """Give every name in expressions, with the list whose item it is taken of, or ""."""
    for root, variables in roots:
        for node, bound in t.walk(root, variables):
            if isinstance(node, t.Read | t.Derived):
                yield node, bound[node.item] if node.item else ""
