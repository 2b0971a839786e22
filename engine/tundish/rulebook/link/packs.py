"""Linking the tables, quantities and rules of all packs, in the order the packs lie."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tundish.language.check.scope import Meaning
from tundish.rulebook.files.faults import Faults
from tundish.rulebook.files.file_shapes import PackShape, QuantityShape, RuleShape
from tundish.rulebook.files.pack import Pack
from tundish.rulebook.files.read_file import read_shape, shapes_in
from tundish.rulebook.files.table_files import read_table
from tundish.rulebook.link.linker import Linker
from tundish.rulebook.model.choices import FORMAT
from tundish.rulebook.model.cited_table import CitedTable
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
    return quantities


def link_rules(packs: list[Pack], linker: Linker) -> dict[str, Rule]:
    """Link the rules of all packs: later ones may replace or retire those of earlier ones."""
    rules: dict[str, Rule] = {}
    for pack in packs:
        retired = _retired(pack, rules, linker.problems)
        for name in retired:
            del rules[name]
        for name, file in pack.rules.items():
            shape, wrong = read_shape(RuleShape, file.file.data, file, (), "rule")
            linker.problems.extend(wrong)
            if shape is None:
                linker.problems.refuse("rule", name)
                linker.check_texts(file)
                continue
            stands_below = name in rules or linker.problems.has_refused("rule", name)
            if stands_below != (shape.replaces is not None):
                sentence = (
                    f"There is no rule '{name}' to replace.{did_you_mean(name, list(rules))}"
                    if shape.replaces
                    else f"Another pack already has a rule '{name}': say 'replaces' and why."
                )
                linker.problems.append(file.problem(("replaces",), sentence))
                continue
            rule = linker.rule(name, shape, file, pack.region)
            if rule is None:
                linker.problems.refuse("rule", name)
            else:
                rules[name] = rule
    return rules


def _retired(pack: Pack, rules: Mapping[str, Rule], problems: Faults) -> list[str]:
    if pack.about is None:
        return []
    shape, wrong = read_shape(PackShape, pack.about.file.data, pack.about, (), "pack")
    problems.extend(wrong)
    names = []
    if shape is not None and shape.format != FORMAT:
        sentence = (
            f"The pack is written for rule format {shape.format}; this program reads {FORMAT}."
        )
        problems.append(pack.about.problem(("format",), sentence))
    for at, retirement in enumerate(shape.retire if shape else []):
        if retirement.rule in rules:
            names.append(retirement.rule)
            continue
        if problems.has_refused("rule", retirement.rule):
            continue
        hint = did_you_mean(retirement.rule, list(rules))
        problems.append(
            pack.about.problem(
                ("retire", at, "rule"), f"There is no rule '{retirement.rule}' to retire.{hint}"
            )
        )
    return names
