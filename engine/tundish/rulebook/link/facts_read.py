"""What a rule reads: the facts of a job that it looks at, itself or through quantities."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.language.tree import tree as t
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook


def facts_read(rule: Rule, rulebook: Rulebook) -> frozenset[str]:
    """Return the paths of all facts a rule can look at, through whatever quantities.

    Args:
        rule: The rule.
        rulebook: Its quantities.

    Returns:
        Paths without positions; lists that are gone through too.
    """
    return _followed(_of_rule(rule), rulebook)


def facts_read_in(holder: DerivedQuantity | Provision, rulebook: Rulebook) -> frozenset[str]:
    """Return the paths of all facts that a quantity or a part to be ordered can look at."""
    return _followed(_readings(holder), rulebook)


def _followed(readings: Iterable[_Reading], rulebook: Rulebook) -> frozenset[str]:
    """Return the facts behind some readings, through all quantities in between."""
    found: set[str] = set()
    seen: set[tuple[str, str]] = set()
    ahead = list(readings)
    while ahead:
        path, quantity = ahead.pop()
        if quantity is None:
            found.add(path)
        elif quantity not in seen:
            seen.add(quantity)
            ahead.extend(_of_quantity(rulebook.quantities[quantity]))
    return frozenset(found)


def facts_read_directly(rule: Rule) -> frozenset[str]:
    """Return the paths of the facts a rule looks at without a quantity in between."""
    return frozenset(path for path, quantity in _of_rule(rule) if quantity is None)


def facts_read_directly_in(holder: DerivedQuantity | Provision) -> frozenset[str]:
    """Return the paths of the facts that a quantity or a part looks at itself."""
    return frozenset(path for path, quantity in _readings(holder) if quantity is None)


def quantities_read(holder: Rule | DerivedQuantity | Provision) -> frozenset[tuple[str, str]]:
    """Return the quantities that a rule, quantity or part uses without another in between.

    Returns:
        The path of the list that each belongs to, or "", and its name.
    """
    return frozenset(quantity for _, quantity in _readings(holder) if quantity is not None)


def tables_read(holder: Rule | DerivedQuantity | Provision) -> frozenset[str]:
    """Return the names of the tables that a rule, quantity or part looks things up in itself."""
    return frozenset(
        node.table
        for root in _roots(holder)
        for node, _ in t.walk(root, {})
        if isinstance(node, t.Lookup)
    )


_Reading = tuple[str, tuple[str, str] | None]
"""A fact's path; or "" and the quantity that is read."""


def _readings(holder: Rule | DerivedQuantity | Provision) -> Iterator[_Reading]:
    if isinstance(holder, Rule):
        yield from _of_rule(holder)
    elif isinstance(holder, DerivedQuantity):
        yield from _of_quantity(holder)
    else:
        for root in _roots(holder):
            yield from _of_tree(root, {})


def _roots(holder: Rule | DerivedQuantity | Provision) -> tuple[t.Node, ...]:
    if isinstance(holder, Rule):
        return (holder.applies, holder.requires)
    if isinstance(holder, DerivedQuantity):
        return (holder.formula.root,)
    return (holder.needed, holder.with_unit, holder.number)


def _of_rule(rule: Rule) -> Iterator[_Reading]:
    variables = {}
    if rule.each is not None:
        yield rule.each.path, None
        variables = {rule.each.variable: rule.each.path}
    for root in (rule.applies, rule.requires):
        yield from _of_tree(root, variables)


def _of_quantity(quantity: DerivedQuantity) -> Iterator[_Reading]:
    variables = {quantity.each.variable: quantity.each.path} if quantity.each else {}
    yield from _of_tree(quantity.formula.root, variables)


def _of_tree(root: t.Node, variables: dict[str, str]) -> Iterator[_Reading]:
    for node, bound in t.walk(root, variables):
        match node:
            case t.Read():
                yield _path(node.path, node.item, bound), None
            case t.Derived():
                yield "", ("" if node.item is None else bound[node.item], node.name)


def _path(path: str, item: str | None, bound: dict[str, str]) -> str:
    return path if item is None else f"{bound[item]}.{path}"
