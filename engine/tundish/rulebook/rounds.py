"""How many rounds of loops a rule can take at most, without running it."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language import tree as t
from tundish.rulebook.rulebook import Rulebook


def most_rounds(rulebook: Rulebook, values: Mapping[str, object]) -> int:
    """Return a number of rounds that no rule passes over the lists of a job.

    It counts every quantity as if the one rule had to work all of them out, and every branch and
    every item as if it were looked at.

    Args:
        rulebook: The rules.
        values: The facts of the job.
    """
    lengths = _longest(values, "")
    quantities = 0
    for (of, _), quantity in rulebook.quantities.items():
        rounds = _rounds(quantity.formula.root, lengths)
        quantities += rounds * (lengths.get(of, 0) if of else 1)
    rules = (
        _rounds(rule.applies, lengths) + _rounds(rule.requires, lengths)
        for rule in rulebook.rules.values()
    )
    return quantities + max(rules, default=0)


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


def _rounds(node: t.Node, lengths: Mapping[str, int]) -> int:
    inner = sum(_rounds(part, lengths) for part in t.children(node))
    if isinstance(node, t.Loop | t.Interpolation):
        return lengths.get(node.items.kind.record, 0) * (1 + inner)
    return inner
