"""Explaining a rule or a quantity: what it asks or gives, why, on what ground, what proves it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.findings.cautions import CAUTIONS
from tundish.report.page.line import GAP, Line, apart, entries, items, section
from tundish.report.tell.assessment import caution_lines
from tundish.report.tell.citations import citation_lines
from tundish.report.tell.dependencies import rules_that_use, used_facts, used_quantities
from tundish.report.tell.phrases import MEANING_OF_SEVERITY, day, from_stage, listed
from tundish.rulebook.model.asked import Asked
from tundish.rulebook.model.constraint import Constraint
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook
from tundish.units.format import show


def rule_lines(rule: Rule, rulebook: Rulebook) -> Iterator[Line]:
    """Give all that a rule says and rests on.

    Args:
        rule: The rule.
        rulebook: The rulebook it belongs to, which has the quantities it uses.
    """
    yield Line("heading", rule.title)
    yield Line("under", f"rule {rule.name}")
    yield GAP
    yield Line("finding", MEANING_OF_SEVERITY[rule.severity], severity=rule.severity)
    yield Line("entry", rule.because, "why")
    yield Line("entry", rule.remedy, "to mend")
    yield from entries("may change", [fact_name(path, rulebook) for path in rule.adjust])
    yield from (GAP, Line("section", "what it asks"))
    if rule.each is not None:
        yield Line("entry", f"each of {rule.each.path}, called {rule.each.variable}", "of")
    always = rule.written["applies"].strip() == "true"
    if always:
        yield Line("entry", "always", "asked")
    else:
        yield Line("code", rule.written["applies"], "if")
    yield Line("code", rule.written["requires"], "then")
    yield Line("entry", from_stage(rule.stage), "due")
    yield Line("entry", _where(rule), "where")
    yield from _overrides(rule)
    used = used_quantities(rule, rulebook)
    yield from _used(used)
    yield from _facts([rule, *used])
    yield from (GAP, Line("section", "on whose authority"))
    yield from citation_lines(rule.citations)
    yield Line("entry", day(rule.reviewed), "last read")
    yield from entries("formerly", list(rule.formerly))
    yield from _cases(rule.cases)
    if rule.severity == "danger":
        yield from caution_lines(CAUTIONS)


def constraint_lines(constraint: Constraint, rulebook: Rulebook) -> Iterator[Line]:
    """Give all that a constraint says and rests on.

    Args:
        constraint: The constraint.
        rulebook: The rulebook it belongs to.
    """
    yield Line("heading", constraint.because)
    yield Line("under", f"constraint {constraint.name}")
    yield GAP
    if constraint.each is not None:
        each = constraint.each
        yield Line("entry", f"each of {each.path}, called {each.variable}", "of")
    if constraint.written["applies"].strip() != "true":
        yield Line("code", constraint.written["applies"], "if")
    yield Line("code", constraint.written["requires"], "can only be")
    yield from citation_lines(constraint.citations)
    yield Line("entry", day(constraint.reviewed), "last read")
    used = used_quantities(constraint, rulebook)
    yield from _used(used)
    yield from _facts([constraint, *used])
    yield from _cases(constraint.cases)


def quantity_lines(quantity: DerivedQuantity, rulebook: Rulebook) -> Iterator[Line]:
    """Give all that a quantity says and rests on, and the rules that use it.

    Args:
        quantity: The quantity.
        rulebook: The rulebook it belongs to.
    """
    yield Line("heading", quantity.label[:1].upper() + quantity.label[1:])
    yield Line("under", f"quantity {quantity.name}, topic {quantity.topic}")
    yield GAP
    yield from _quantity(quantity)
    yield Line("entry", day(quantity.reviewed), "last read")
    used = used_quantities(quantity, rulebook)
    yield from _used(used)
    yield from _facts([quantity, *used])
    users = rules_that_use([quantity], rulebook)
    yield from section("rules that use it", items(f"{rule.title}  ({rule.name})" for rule in users))
    yield from _cases(quantity.cases)


def _where(rule: Rule) -> str:
    if rule.regions:
        return f"in {listed(rule.regions)}"
    others = [override.region for override in rule.overridden]
    return f"in all countries but {listed(others)}" if others else "everywhere"


def _overrides(holder: Rule | DerivedQuantity) -> Iterator[Line]:
    """Tell what something of a country takes the place of, or what countries put in its place."""
    if holder.overrides is not None:
        overrides = holder.overrides
        sentence = f"{overrides.other}, in {overrides.region}: {overrides.because}"
        yield Line("entry", sentence, "instead of")
    for override in holder.overridden:
        instead = override.other or f"no {holder.noun}"
        yield Line("entry", f"{instead}: {override.because}", f"in {override.region}")


def _used(quantities: list[DerivedQuantity]) -> Iterator[Line]:
    blocks = (
        [Line("question", f"{quantity.label}: {quantity.name}"), *_quantity(quantity)]
        for quantity in quantities
    )
    # The heading of the section replaces the first empty line.
    return section("worked out on the way", list(apart(blocks))[1:])


def _quantity(quantity: DerivedQuantity) -> Iterator[Line]:
    yield Line("entry", quantity.about, "what it is")
    if quantity.each is not None:
        yield Line("entry", f"each of {quantity.each.path}, called {quantity.each.variable}", "of")
    yield Line("code", quantity.written, "formula")
    yield Line("entry", str(quantity.unit or quantity.kind), "in")
    if quantity.range_because:
        yield Line("entry", _range(quantity), "can be")
    yield from _overrides(quantity)
    yield from citation_lines(quantity.citations)


def _range(quantity: DerivedQuantity) -> str:
    """Say between what a quantity lies, and why."""
    unit = quantity.unit
    ends = [("at least", quantity.at_least), ("at most", quantity.at_most)]
    is_difference = unit is not None and unit.point and not quantity.kind.point
    shown = [
        f"{word} {show(end, unit, difference=is_difference)}"
        for word, end in ends
        if end is not None and unit is not None
    ]
    return f"{' and '.join(shown) or 'below zero too'}, as {quantity.range_because}"


def _facts(users: Iterable[Asked | DerivedQuantity]) -> Iterator[Line]:
    texts = (f"{label}  ({path})" for path, label in used_facts(users).items())
    return section("facts of the job it looks at", items(texts))


def fact_name(path: str, rulebook: Rulebook) -> str:
    """Return what a fact is called, with its path."""
    meaning = rulebook.scope.facts.get(path)
    return f"{meaning.label}  ({path})" if meaning else path


def _cases(cases: Iterable[Case]) -> Iterator[Line]:
    texts = (f"{_outcome(case)}: {case.why}" for case in cases)
    return section("cases that prove it", items(texts))


def _outcome(case: Case) -> str:
    if case.outcome is not None:
        return case.outcome
    if case.value is None:
        return "not known"
    return {True: "yes", False: "no"}[case.value] if isinstance(case.value, bool) else case.value
