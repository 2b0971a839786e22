"""Unverified sources: rules with a figure or clause that was written from memory."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tundish.rulebook.link.facts_read import Key, quantities_read
from tundish.rulebook.model.rule import DerivedQuantity, Rule


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
