"""Memory: which rules rest on a figure or clause that was written from memory."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tundish.rulebook.link.facts_read import quantities_read
from tundish.rulebook.model.rule import DerivedQuantity, Rule

Key = tuple[str, str]


def rules_from_memory(
    rules: Iterable[Rule], quantities: Mapping[Key, DerivedQuantity]
) -> frozenset[str]:
    """Return the names of rules that cite from memory, or whose quantities do.

    Args:
        rules: The rules.
        quantities: All quantities, by the list they belong to (or "") and name.
    """
    known: dict[Key, bool] = {}

    def rests(key: Key) -> bool:
        if key not in known:
            quantity = quantities[key]
            known[key] = any(citation.recall for citation in quantity.citations) or any(
                rests(need) for need in quantities_read(quantity)
            )
        return known[key]

    return frozenset(
        rule.name
        for rule in rules
        if rule.from_memory or any(rests(need) for need in quantities_read(rule))
    )
