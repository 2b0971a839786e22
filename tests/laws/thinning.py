"""Jobs made of the sample jobs by leaving facts out, so that some verdicts stay open."""

from __future__ import annotations

from functools import cache
from random import Random
from typing import Any

from tundish import Job, Rulebook
from tundish.groundwork.open_list import OpenList
from tundish.job.facts import Facts
from tundish.language.tree import tree as t
from tundish.text.bundled_folders import bundled_folder

SAMPLES = sorted(bundled_folder("sample_jobs").glob("*.toml"))
BOOK = Rulebook.built_in()


@cache
def sample_facts(at: int) -> Facts:
    """Return the facts of a sample job."""
    return BOOK.facts(Job.from_file(SAMPLES[at]))


def thinned(
    chance: Random, values: dict[str, Any], share: float, open_ends: float = 0.0
) -> dict[str, Any]:
    """Return facts with a share of them left out, those of items and whole lists too.

    A group that is there stays there, whatever is still known of it.

    Args:
        chance: Chooses.
        values: The facts.
        share: The share that is left out.
        open_ends: The share of lists of which nobody says any more that they are complete.
    """
    found: dict[str, Any] = {}
    for path, value in values.items():
        if value is not True and chance.random() < share:
            continue
        if isinstance(value, list):
            items = [thinned(chance, item, share) for item in value]
            value = OpenList(items) if items and chance.random() < open_ends else items
        found[path] = value
    return found


def read_again(values: dict[str, Any], facts: Facts) -> Facts:
    """Return values as facts, their items called as before."""
    return Facts(values, facts.written, facts.names)


def constructs(name: str, book: Rulebook = BOOK) -> set[str]:
    """Return which of the words that look at what is not known have a part in a rule.

    Args:
        name: The name of the rule.
        book: Where it stands.

    Returns:
        "known" and "assume", where the rule or a quantity it is computed from says so, and
        "edition" where it or a table it reads holds on some days only.
    """
    rule = book.rules[name]
    around = {rule.each.variable: rule.each.path} if rule.each else {}
    ahead: list[tuple[t.Node, dict[str, str]]] = [(rule.applies, around), (rule.requires, around)]
    found, done = set[str](), set[tuple[str, str]]()
    while ahead:
        for node, bound in t.walk(*ahead.pop()):
            if isinstance(node, t.Known | t.Assumed):
                found.add("known" if isinstance(node, t.Known) else "assume")
            if isinstance(node, t.Lookup) and node.table in book.editions:
                found.add("edition")
            if isinstance(node, t.Derived):
                key = ("" if node.item is None else bound[node.item], node.name)
                if key not in done:
                    done.add(key)
                    quantity = book.quantities[key]
                    inner = {quantity.each.variable: quantity.each.path} if quantity.each else {}
                    ahead.append((quantity.formula.root, inner))
    return found
