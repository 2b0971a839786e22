"""Overrides: rules and quantities of countries, put in the place of international ones there.

A rule or quantity of a country names what it overrides. Then the international rule is asked in all
other countries alone, and the international quantity has the value of the country's own there. Of a
job whose country is not known, it stays open which of the two holds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.language.check.checker import check_expression
from tundish.language.check.scope import Scope
from tundish.language.evaluate.environment import Formula
from tundish.language.tree.kind import TRUTH
from tundish.language.tree.tree import Choice, Derived, Logic, Node, Within
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import QuantityShape, RuleShape
from tundish.rulebook.model.definition import Override
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.nearest import did_you_mean
from tundish.text.place import Path

_Key = TypeVar("_Key")
Overridden = dict[_Key, list[Override]]
"""What countries put in the place of rules or quantities, by the keys of those."""


@dataclass(frozen=True, slots=True)
class Claim:
    """What a file says of something international: that it does not hold in a country.

    Attributes:
        name: The international rule or quantity.
        override: What stands in its place, where, and why.
        file: The file that says so.
        at: The key that says so.
    """

    name: str
    override: Override
    file: RuleFile
    at: Path


def stated_override(
    name: str,
    shape: RuleShape | QuantityShape,
    file: RuleFile,
    at: Path,
    region: str,
    problems: Faults,
) -> Override | None:
    """Return what a rule or quantity says it overrides; note what cannot be right.

    Args:
        name: Its own name.
        shape: What its file says.
        file: The file.
        at: Where it stands in the file.
        region: The country of its pack, or "".
        problems: What is wrong so far.
    """
    other, because = shape.overrides, shape.overrides_because
    if other is None and because is None:
        return None
    noun = "rule" if isinstance(shape, RuleShape) else "quantity"
    key, sentence = "overrides", ""
    if other is None:
        sentence = "This says why it overrides, and not what: write 'overrides' too."
        key = "overrides_because"
    elif because is None:
        sentence = f"Say in 'overrides_because' why it takes the place of '{other}'."
    elif not region:
        sentence = f"Only a {noun} of a country, in national/CC/, overrides another."
    elif other == name:
        sentence = f"A {noun} cannot override itself."
    elif isinstance(shape, RuleShape) and (shape.holds_from or shape.holds_until):
        sentence = "A rule that overrides another holds on every day: without 'holds_from' and "
        sentence += "'holds_until'."
    if sentence or other is None or because is None:
        problems.append(file.problem((*at, key), sentence))
        return None
    return Override(region, other, because)


def override_rules(
    rules: dict[str, Rule],
    out_of_use: Iterable[Claim],
    settled: frozenset[str],
    scope: Scope,
    problems: Faults,
) -> None:
    """Put rules of countries in the place of those they override.

    Args:
        rules: The rules by name; those that are overridden are exchanged.
        out_of_use: Rules that countries take out of use.
        settled: Names of which nothing is reported: rules that are retired, or that another pack
            replaces by one for regions of its own choice.
        scope: What names mean in expressions.
        problems: What is wrong so far.
    """
    overridden = Overridden[str]()
    for claim in (*_claims(rules.values()), *out_of_use):
        rule = rules.get(claim.name)
        if problems.has_refused("rule", claim.name):
            continue
        if claim.name in settled and (rule is None or rule.regions):
            continue
        sentence = (
            _without_target(claim.name, rules, scope)
            if rule is None
            else _fault(claim, "rule", rule.regions, overridden.get(claim.name, []))
        )
        _note(claim, claim.name, sentence, overridden, problems)
    for name, overrides in overridden.items():
        rule = rules[name]
        codes = ", ".join(f"'{override.region}'" for override in overrides)
        elsewhere = check_expression(f"job.region not in [{codes}]", scope)
        applies = Logic(TRUTH, 0, rule.applies.end, "and", (elsewhere, rule.applies))
        rules[name] = replace(rule, applies=applies, overridden=tuple(overrides))


def override_quantities(
    quantities: dict[tuple[str, str], DerivedQuantity], scope: Scope, problems: Faults
) -> None:
    """Put quantities of countries in the place of those they override.

    Args:
        quantities: The quantities; those that are overridden are exchanged.
        scope: What names mean in expressions.
        problems: What is wrong so far.
    """
    overridden = Overridden[tuple[str, str]]()
    for key, own in list(quantities.items()):
        for claim in _claims([own]):
            if problems.has_refused("quantity", claim.name):
                continue
            target = quantities.get((key[0], claim.name))
            if target is None:
                sentence = _without_quantity(claim.name, quantities)
            elif target.kind != own.kind:
                sentence = f"'{claim.name}' is {target.kind}, and this is {own.kind}."
            else:
                regions = (target.region,) if target.region else ()
                others = overridden.get((key[0], claim.name), [])
                sentence = _fault(claim, "quantity", regions, others)
            _note(claim, (key[0], claim.name), sentence, overridden, problems)
    for key, overrides in overridden.items():
        quantity = quantities[key]
        root = quantity.formula.root
        for override in overrides:
            root = _in_country(override, quantities[key[0], override.other], quantity, root, scope)
        formula = Formula(root, quantity.formula.variable)
        quantities[key] = replace(quantity, formula=formula, overridden=tuple(overrides))


def _in_country(
    override: Override, own: DerivedQuantity, quantity: DerivedQuantity, root: Node, scope: Scope
) -> Choice:
    """Return the value of a country's own quantity there, and what a tree gives elsewhere."""
    in_region = check_expression(f"job.region in ['{override.region}']", scope)
    value: Node = Derived(
        quantity.kind, 0, 0, own.name, own.label, own.unit, quantity.formula.variable
    )
    if quantity.at_least is not None and own.at_least is None and quantity.unit is not None:
        # What reads the quantity may rest on its range, whatever the country says of its own.
        label, unit = quantity.label, quantity.unit
        value = Within(quantity.kind, 0, 0, value, quantity.at_least, None, label, unit)
    return Choice(quantity.kind, 0, root.end, in_region, value, root)


def _claims(holders: Iterable[Rule | DerivedQuantity]) -> Iterator[Claim]:
    for holder in holders:
        if holder.overrides is None:
            continue
        stated = holder.overrides
        at = ("overrides",) if isinstance(holder, Rule) else (holder.name, "overrides")
        override = replace(stated, other=holder.name)
        yield Claim(stated.other, override, holder.source, at)


def _note(
    claim: Claim, key: _Key, sentence: str, overridden: Overridden[_Key], problems: Faults
) -> None:
    if sentence:
        problems.append(claim.file.problem(claim.at, sentence))
    else:
        overridden.setdefault(key, []).append(claim.override)


def _fault(claim: Claim, noun: str, regions: tuple[str, ...], others: list[Override]) -> str:
    """Say why a country cannot override something, or nothing where it can."""
    region, name = claim.override.region, claim.name
    if regions == (region,):
        return f"'{name}' is a {noun} of {region} alone: change that one, or replace it."
    if regions and region not in regions:
        return f"'{name}' does not hold in {region}: there is nothing to override."
    first = next((override for override in others if override.region == region), None)
    if first is None:
        return ""
    by = f"overridden by '{first.other}'" if first.other else "taken out of use"
    return f"In {region} '{name}' is {by} already."


def _without_target(name: str, rules: Mapping[str, Rule], scope: Scope) -> str:
    """Say what is wrong with a name that no rule has."""
    others = (
        ("quantity", {quantity for _, quantity in scope.quantities}),
        ("table", set(scope.tables)),
    )
    for noun, names in others:
        if name in names:
            return f"'{name}' is a {noun}: a rule overrides rules alone."
    return no_rule(name, rules, "override")


def no_rule(name: str, rules: Mapping[str, Rule], purpose: str) -> str:
    """Say that there is no rule of a name, and which one may be meant.

    Args:
        name: The name.
        rules: The rules.
        purpose: What was to be done with it: override, replace or retire.
    """
    renamed = next((rule for rule in rules.values() if name in rule.former_names), None)
    if renamed is not None:
        item = renamed.former_names[name]
        if not item:
            return f"The rule '{name}' is called '{renamed.name}' now."
        return (
            f"'{name}' is the item '{item}' of '{renamed.name}' now: there is no rule of its own "
            f"to {purpose}. What is to differ for that item alone goes into a rule that takes the "
            f"place of '{renamed.name}'."
        )
    return f"There is no rule '{name}' to {purpose}.{did_you_mean(name, list(rules))}"


def _without_quantity(name: str, quantities: Mapping[tuple[str, str], DerivedQuantity]) -> str:
    """Say what is wrong with a name that no quantity of the same list has."""
    for path, other in quantities:
        if other == name:
            return f"'{name}' is a quantity of {path or 'the job'}, and this is not."
    hint = did_you_mean(name, [other for _, other in quantities])
    return f"There is no quantity '{name}' to override.{hint}"
