"""Linking the tables, quantities and rules of all packs, in the order the packs lie."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from tundish.language.check.scope import Meaning
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import PackShape, QuantityShape, RuleShape
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import read_shape, shapes_in
from tundish.rulebook.files.table_files import read_table
from tundish.rulebook.link.linker import Linker
from tundish.rulebook.link.overrides import Claim, override_quantities, override_rules
from tundish.rulebook.model.choices import FORMAT
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.model.definition import Override
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.model.rule_file import RuleFile
from tundish.rulebook.model.source import Source
from tundish.text.nearest import did_you_mean


def link_tables(
    packs: list[Pack], sources: Mapping[str, Source], faults: Faults
) -> dict[str, CitedTable]:
    """Read the tables of all packs; two of one name are refused."""
    tables: dict[str, CitedTable] = {}
    for pack in packs:
        for name, file in pack.tables.items():
            if name in tables:
                faults.append(file.problem((), f"Another pack already has a table '{name}'."))
                continue
            table = read_table(name, file, sources, faults)
            if table is None:
                faults.refuse("table", name)
            else:
                tables[name] = table
    return tables


def _quantity_shapes(
    packs: list[Pack], faults: Faults
) -> Iterator[tuple[Pack, str, str, QuantityShape, RuleFile]]:
    for pack in packs:
        for topic, file in pack.quantities:
            for name, shape in shapes_in(QuantityShape, file, "quantity", faults, "quantity"):
                yield pack, topic, name, shape, file


def link_quantities(
    packs: list[Pack], linker: Linker, meanings: dict[tuple[str, str], Meaning]
) -> dict[tuple[str, str], DerivedQuantity]:
    """Declare all quantities, then read their formulas, so that files need no order."""
    declared = []
    for pack, topic, name, shape, file in _quantity_shapes(packs, linker.problems):
        found = linker.meaning_of(name, shape, file)
        if found is None:
            linker.problems.refuse("quantity", name)
            continue
        key, meaning = found
        if key in meanings:
            linker.problems.append(
                file.problem((name,), f"A quantity '{name}' already stands elsewhere.")
            )
            continue
        meanings[key] = meaning
        declared.append((key, pack.region, topic, name, shape, meaning, file))
    quantities = {}
    for key, region, topic, name, shape, meaning, file in declared:
        quantity = linker.quantity(name, topic, shape, meaning, file, region)
        if quantity is not None:
            quantities[key] = quantity
    override_quantities(quantities, linker.scope, linker.problems)
    return quantities


def link_rules(packs: list[Pack], linker: Linker) -> dict[str, Rule]:
    """Link the rules of all packs: later ones may replace or retire those of earlier ones."""
    rules: dict[str, Rule] = {}
    out_of_use: list[Claim] = []
    settled: set[str] = set()
    for pack in packs:
        for retirement in _retirements(pack, rules, linker.problems):
            if retirement.override.region:
                out_of_use.append(retirement)
            else:
                settled.add(retirement.name)
                del rules[retirement.name]
        for name, file in pack.rules.items():
            shape, wrong = read_shape(RuleShape, file.file.data, file, (), "rule")
            linker.problems.extend(wrong)
            if shape is None:
                linker.problems.refuse("rule", name)
                linker.check_texts(file)
                continue
            below = rules.get(name)
            if sentence := _misplaced(name, shape, pack, rules, linker.problems):
                linker.problems.append(file.problem(("replaces",), sentence))
                continue
            rule = linker.rule(name, shape, file, pack.region)
            if rule is None:
                linker.problems.refuse("rule", name)
                continue
            if below is not None and shape.regions:
                settled.add(name)  # it says itself where it holds
            if below is not None and rule.overrides is None:
                rule = replace(rule, overrides=below.overrides)
            rules[name] = rule
    override_rules(rules, out_of_use, frozenset(settled), linker.scope, linker.problems)
    return rules


def _misplaced(
    name: str, shape: RuleShape, pack: Pack, rules: Mapping[str, Rule], problems: Faults
) -> str:
    """Say why a rule cannot stand under its name in a pack, or nothing where it can."""
    below = rules.get(name)
    stands_below = below is not None or problems.has_refused("rule", name)
    is_of_others = below is not None and pack.region and below.regions != (pack.region,)
    if is_of_others:
        return (
            f"Outside {pack.region} there is a rule '{name}' too: give this one a name of its own, "
            "and say in 'overrides' if it takes the place of that one."
        )
    if stands_below == (shape.replaces is not None):
        return ""
    if stands_below:
        return f"Another pack already has a rule '{name}': say 'replaces' and why."
    return f"There is no rule '{name}' to replace.{did_you_mean(name, list(rules))}"


def _retirements(pack: Pack, rules: Mapping[str, Rule], problems: Faults) -> list[Claim]:
    """Return the rules that a pack takes out of use: everywhere, or in its country alone."""
    if pack.about is None:
        return []
    shape, wrong = read_shape(PackShape, pack.about.file.data, pack.about, (), "pack")
    problems.extend(wrong)
    claims = []
    if shape is not None and shape.format != FORMAT:
        sentence = (
            f"The pack is written for rule format {shape.format}; this program reads {FORMAT}."
        )
        problems.append(pack.about.problem(("format",), sentence))
    for at, retirement in enumerate(shape.retire if shape else []):
        rule = rules.get(retirement.rule)
        key = ("retire", at, "rule")
        if rule is not None:
            region = "" if rule.regions == (pack.region,) else pack.region
            override = Override(region, "", retirement.because)
            claims.append(Claim(retirement.rule, override, pack.about, key))
            continue
        if problems.has_refused("rule", retirement.rule):
            continue
        hint = did_you_mean(retirement.rule, list(rules))
        problems.append(
            pack.about.problem(key, f"There is no rule '{retirement.rule}' to retire.{hint}")
        )
    return claims
