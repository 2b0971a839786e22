"""What a rule reads: the facts of a job that it looks at, itself or through quantities."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar

from tundish.language.tree import tree as t
from tundish.rulebook.model.definition import Definition
from tundish.rulebook.model.rule import DerivedQuantity, Rule

Named = TypeVar("Named", str, tuple[str, str])

Key = tuple[str, str]
"""A quantity: the path of the list it belongs to, or "", and its name."""


def facts_read(definition: Definition, quantities: Mapping[Key, DerivedQuantity]) -> frozenset[str]:
    """Return the paths of all facts a rule, quantity or part can look at.

    Args:
        definition: The rule, quantity or part.
        quantities: The quantities it may look at facts through.

    Returns:
        Paths without positions; those of lists too.
    """
    facts: set[str] = set()
    visited: set[Key] = set()
    waiting = list(_reads(definition))
    while waiting:
        read = waiting.pop()
        if isinstance(read, str):
            facts.add(read)
        elif read not in visited:
            visited.add(read)
            waiting.extend(_reads(quantities[read]))
    return frozenset(facts)


def readers_by_fact(
    definitions: Mapping[Named, Definition], quantities: Mapping[Key, DerivedQuantity]
) -> dict[str, tuple[Named, ...]]:
    """Return the names of the rules, or quantities, that can look at each fact, by its path."""
    readers: dict[str, list[Named]] = {}
    for name, definition in definitions.items():
        for path in facts_read(definition, quantities):
            readers.setdefault(path, []).append(name)
    return {path: tuple(names) for path, names in readers.items()}


def facts_read_directly(definition: Definition) -> frozenset[str]:
    """Return the paths of the facts it looks at without a quantity in between."""
    return frozenset(read for read in _reads(definition) if isinstance(read, str))


def quantities_read(definition: Definition) -> frozenset[Key]:
    """Return the quantities it uses without another in between."""
    return frozenset(read for read in _reads(definition) if not isinstance(read, str))


def tables_read(definition: Definition) -> frozenset[str]:
    """Return the names of the tables it looks things up in itself."""
    return frozenset(
        node.table
        for root in definition.roots
        for node, _ in t.walk(root, {})
        if isinstance(node, t.Lookup)
    )


def unverified_rules(
    rules: Iterable[Rule], quantities: Mapping[Key, DerivedQuantity]
) -> frozenset[str]:
    """Return the names of rules that cite from memory, or whose quantities do.

    Args:
        rules: The rules.
        quantities: All quantities, by the list they belong to (or "") and name.
    """
    known: dict[Key, bool] = {}

    def is_unverified(key: Key) -> bool:
        if key not in known:
            quantity = quantities[key]
            known[key] = quantity.from_memory or any(map(is_unverified, quantities_read(quantity)))
        return known[key]

    return frozenset(
        rule.name
        for rule in rules
        if rule.from_memory or any(map(is_unverified, quantities_read(rule)))
    )


def facts_taken_for_granted(
    definitions: Iterable[Definition], quantities: Mapping[Key, DerivedQuantity]
) -> frozenset[str]:
    """Return the facts of which something holds until they are known, by `known` or `assume`.

    Args:
        definitions: All quantities and rules.
        quantities: The quantities, by the list they belong to (or "") and name.
    """
    facts: set[str] = set()
    for definition in definitions:
        for root in definition.roots:
            for node, lists in t.walk(root, definition.variables):
                if isinstance(node, t.Known | t.Assumed):
                    facts.update(_read_in(node.operand, lists, quantities))
    return frozenset(facts)


def _read_in(
    root: t.Node, variables: Mapping[str, str], quantities: Mapping[Key, DerivedQuantity]
) -> Iterator[str]:
    for read in _named_in(root, variables):
        if isinstance(read, str):
            yield read
        else:
            yield from facts_read(quantities[read], quantities)


def _reads(definition: Definition) -> Iterator[str | Key]:
    """Give what it names: the path of each fact, the key of each quantity."""
    # A quantity of an item is asked of an item that is there; a rule goes through its list.
    if definition.each is not None and definition.noun == "rule":
        yield definition.each.path
    for root in definition.roots:
        yield from _named_in(root, definition.variables)


def _named_in(root: t.Node, variables: Mapping[str, str]) -> Iterator[str | Key]:
    for node, lists in t.walk(root, variables):
        match node:
            case t.Read():
                yield node.path if node.item is None else f"{lists[node.item]}.{node.path}"
            case t.Derived():
                yield ("" if node.item is None else lists[node.item], node.name)
