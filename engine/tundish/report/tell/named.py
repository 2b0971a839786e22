"""What a name means: a rule, quantities, a fact, a table, a part, a source, a unit, or several."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Asked
from tundish.job.sides import SIDES
from tundish.report.page.line import GAP, Line
from tundish.report.tell.command_text import typed
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.readers import Readers
from tundish.text.nearest import nearest
from tundish.text.quoted import quoted


def name_lines(name: str, rulebook: Rulebook) -> list[Line]:
    """Explain all that a name stands for.

    Args:
        name: A rule, quantity, fact, table, part of the order list, source or unit.
        rulebook: What has names.

    Returns:
        The lines, one meaning after the other; none where nothing is called so.
    """
    lines: list[Line] = []
    for meaning in _meanings(name, rulebook):
        lines += [GAP, GAP] if lines else []
        lines += meaning
    return lines


def _meanings(name: str, rulebook: Rulebook) -> Iterator[Iterable[Line]]:
    from tundish.report.tell import (
        explain,
        explain_fact,
        explain_part,
        explain_source,
        explain_table,
    )
    from tundish.report.tell.explain_unit import unit_lines, unit_named

    rule = _rule(name, rulebook)
    if rule:
        yield explain.rule_lines(rule, rulebook)
    if name in rulebook.constraints:
        yield explain.constraint_lines(rulebook.constraints[name], rulebook)
    for quantity in _quantities(name, rulebook):
        yield explain.quantity_lines(quantity, rulebook)
    fact = _fact(name, rulebook)
    if fact:
        yield explain_fact.fact_lines(fact, rulebook, Readers.of(rulebook))
    if name in rulebook.tables:
        yield explain_table.table_lines(rulebook.tables[name], rulebook)
    for part in _parts(name, rulebook):
        yield explain_part.part_lines(part, rulebook)
    if name in rulebook.sources:
        yield explain_source.source_lines(rulebook.sources[name], rulebook)
    unit = unit_named(name)
    if unit:
        yield unit_lines(unit, rulebook)


def no_such_name(name: str, rulebook: Rulebook, rules: Iterable[str] = ()) -> str:
    """Say that nothing is called so, and what is near.

    Args:
        name: The name.
        rulebook: What has names.
        rules: Folders of rules on top of the built-in ones, for the commands that are named.
    """
    if name in rulebook.topics():
        return (
            f"{quoted(name)} is a topic: '{typed('rules', name, rules=rules)}' lists its rules, "
            f"and '{typed('facts', name, rules=rules)}' the facts that they read."
        )
    names = list(_names(rulebook))
    # A rule or fact is also found by its last word alone.
    last = tuple(f"{mark}{name.lower()}" for mark in "/.")
    ends = [other for other in names if other.endswith(last)]
    near = list(dict.fromkeys([*ends[:3], *nearest(name, names)]))
    hint = f"Near it: {', '.join(near)}." if near else "'tundish rules' lists all rules."
    return f"Nothing is called {quoted(name)}. {hint} 'tundish facts WORD' finds facts by any word."


def _names(rulebook: Rulebook) -> Iterator[str]:
    from tundish.units.unit import KNOWN

    yield from rulebook.rules
    yield from rulebook.constraints
    yield from (name for _, name in rulebook.quantities)
    yield from (path for path in rulebook.scope.facts if not path.startswith(SIDES))
    yield from rulebook.tables
    yield from (name for part in rulebook.provisions.values() for name in part.names)
    yield from rulebook.sources
    yield from KNOWN


def _rule(name: str, rulebook: Rulebook) -> Rule | None:
    return rulebook.rules.get(rulebook.name_today(name, "")[0])


def _quantities(name: str, rulebook: Rulebook) -> list[DerivedQuantity]:
    """Return those of a name, which may stand for one of the job and for one of a list's items."""
    return [
        quantity
        for (path, own), quantity in rulebook.quantities.items()
        if name in (own, f"{path}.{own}")
    ]


def _fact(name: str, rulebook: Rulebook) -> Asked | None:
    return rulebook.asked(without_positions(name)) if name else None


def _parts(name: str, rulebook: Rulebook) -> list[Provision]:
    called = name.replace("-", " ").lower()
    return [
        part
        for part in rulebook.provisions.values()
        if called in (other.replace("-", " ").lower() for other in (*part.names, part.part))
    ]
