"""The rulebook: rules, quantities, tables and sources of one or more packs, linked."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tundish.language.explained import Formula
from tundish.language.scope import Meaning, Scope
from tundish.language.session import Function, Session
from tundish.language.table import Table
from tundish.reading.home import travelling_folder
from tundish.reading.nearest import did_you_mean
from tundish.reading.problem import Problem, Refused
from tundish.rulebook.bibliography import read_sources
from tundish.rulebook.linking import Linker
from tundish.rulebook.meanings import job_meanings
from tundish.rulebook.order import dependence_problems
from tundish.rulebook.pack import Pack, read_packs
from tundish.rulebook.providing import link_provisions
from tundish.rulebook.provision import Provision
from tundish.rulebook.reading import RuleSource, read_shape
from tundish.rulebook.rule import DerivedQuantity, Rule
from tundish.rulebook.shapes import PackShape, QuantityShape, RuleShape
from tundish.rulebook.sizes import Sizes, link_sizes
from tundish.rulebook.source import Source
from tundish.rulebook.tables import CitedTable, read_table


@dataclass(frozen=True)
class Rulebook:
    """Rules ready to judge jobs. Frozen, and safe to share between threads.

    Attributes:
        rules: Rules by name (``topic/rule``), sorted.
        quantities: Named formulas by (path of the list they belong to or "", name).
        provisions: Parts that jobs need, by name, sorted.
        sizes: Practical sizes, by path of the fact.
        tables: Tables by name.
        sources: The bibliography.
        scope: What names mean in its expressions.
        digest: SHA-256 over all files, in the order of the packs.

    Example:
        >>> rulebook = Rulebook.built_in()
        >>> rulebook.rules["defrost-water/free-volume"].severity
        'fault'
    """

    rules: Mapping[str, Rule]
    quantities: Mapping[tuple[str, str], DerivedQuantity]
    provisions: Mapping[str, Provision]
    sizes: Mapping[str, Sizes]
    tables: Mapping[str, CitedTable]
    sources: Mapping[str, Source]
    scope: Scope
    digest: str

    @classmethod
    def built_in(cls) -> Rulebook:
        """Return the rulebook that travels with the program.

        Raises:
            Refused: If it cannot be read.
        """
        return _read_once(travelling_folder("rules"))

    @classmethod
    def load(cls, *folders: str | Path, with_built_in: bool = True) -> Rulebook:
        """Read packs from folders.

        Args:
            folders: The packs, later ones on top.
            with_built_in: Whether the built-in pack lies beneath them.

        Raises:
            Refused: If a file cannot be read or used; carries every problem found.
        """
        if with_built_in and not folders:
            return _read_once(travelling_folder("rules"))
        built_in = [travelling_folder("rules")] if with_built_in else []
        return _read([*built_in, *(Path(folder) for folder in folders)])

    def session(self, values: Mapping[str, object]) -> Session:
        """Start an evaluation over a job's facts."""
        functions: dict[tuple[str, str], Function] = {
            key: quantity.calculate for key, quantity in self.quantities.items()
        }
        return Session(values, functions, self.plain_tables)

    @property
    def formulas(self) -> dict[tuple[str, str], Formula]:
        """Return the checked formulas, for explaining."""
        return {key: quantity.formula for key, quantity in self.quantities.items()}

    @property
    def plain_tables(self) -> dict[str, Table]:
        """Return the tables without where they come from."""
        return {name: cited.table for name, cited in self.tables.items()}

    def rule(self, name: str) -> Rule:
        """Return a rule by its name, or by a name it had before.

        Raises:
            KeyError: If there is none; its text names the nearest.
        """
        if name in self.rules:
            return self.rules[name]
        for rule in self.rules.values():
            if name in rule.formerly:
                return rule
        raise KeyError(f"No rule is called '{name}'.{did_you_mean(name, list(self.rules))}")

    def topics(self) -> list[str]:
        """Return the topics, sorted."""
        return sorted({rule.topic for rule in self.rules.values()})


@cache
def _read_once(folder: Path) -> Rulebook:
    """Read the built-in rulebook once a process: it is frozen, so all may share it."""
    return _read([folder])


def _read(folders: list[Path]) -> Rulebook:
    problems: list[Problem] = []
    packs: list[Pack] = []
    for folder in folders:
        try:
            packs.extend(read_packs(folder))
        except Refused as refused:
            problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    return _link(packs)


def _link(packs: list[Pack]) -> Rulebook:
    problems: list[Problem] = []
    sources = read_sources(packs, problems)
    tables = _tables(packs, sources, problems)
    plain = {name: cited.table for name, cited in tables.items()}
    meanings: dict[tuple[str, str], Meaning] = {}
    scope = Scope(job_meanings(), meanings, plain)  # the quantities are declared just below
    linker = Linker(scope, sources, problems)
    quantities = _quantities(packs, linker, meanings)
    rules = _rules(packs, linker)
    provisions = link_provisions(packs, linker)
    sizes = link_sizes(packs, scope, sources, problems)
    problems.extend(dependence_problems(quantities, rules.values()))
    if problems:
        raise Refused(problems)
    digest = hashlib.sha256("".join(pack.digest for pack in packs).encode()).hexdigest()
    ordered = {name: rules[name] for name in sorted(rules)}
    return Rulebook(ordered, quantities, provisions, sizes, tables, sources, scope, digest)


def _tables(
    packs: list[Pack], sources: Mapping[str, Source], problems: list[Problem]
) -> dict[str, CitedTable]:
    tables: dict[str, CitedTable] = {}
    for pack in packs:
        for name, file in pack.tables.items():
            if name in tables:
                problems.append(file.problem((), f"Another pack already has a table '{name}'."))
                continue
            table = read_table(name, file, sources, problems)
            if table is not None:
                tables[name] = table
    return tables


def _quantity_shapes(
    packs: list[Pack], problems: list[Problem]
) -> Iterator[tuple[Pack, str, str, QuantityShape, RuleSource]]:
    for pack in packs:
        for topic, file in pack.quantities:
            for name, data in file.file.data.items():
                if not isinstance(data, dict):
                    problems.append(file.problem((name,), f"'{name}' is no table of a quantity."))
                    continue
                shape, wrong = read_shape(QuantityShape, data, file, (name,), "quantity")
                problems.extend(wrong)
                if shape is not None:
                    yield pack, topic, name, shape, file


def _quantities(
    packs: list[Pack], linker: Linker, meanings: dict[tuple[str, str], Meaning]
) -> dict[tuple[str, str], DerivedQuantity]:
    """Declare all quantities, then read their formulas, so that files need no order."""
    declared = []
    for pack, topic, name, shape, file in _quantity_shapes(packs, linker.problems):
        found = linker.meaning_of(name, shape, file)
        if found is None:
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


def _rules(packs: list[Pack], linker: Linker) -> dict[str, Rule]:
    rules: dict[str, Rule] = {}
    for pack in packs:
        retired = _retired(pack, rules, linker.problems)
        for name in retired:
            del rules[name]
        for name, file in pack.rules.items():
            shape, wrong = read_shape(RuleShape, file.file.data, file, (), "rule")
            linker.problems.extend(wrong)
            if shape is None:
                continue
            if (name in rules) != (shape.replaces is not None):
                sentence = (
                    f"There is no rule '{name}' to replace.{did_you_mean(name, list(rules))}"
                    if shape.replaces
                    else f"Another pack already has a rule '{name}': say 'replaces' and why."
                )
                linker.problems.append(file.problem(("replaces",), sentence))
                continue
            rule = linker.rule(name, shape, file, pack.region)
            if rule is not None:
                rules[name] = rule
    return rules


def _retired(pack: Pack, rules: Mapping[str, Rule], problems: list[Problem]) -> list[str]:
    if pack.about is None:
        return []
    shape, wrong = read_shape(PackShape, pack.about.file.data, pack.about, (), "pack")
    problems.extend(wrong)
    names = []
    for at, retirement in enumerate(shape.retire if shape else []):
        if retirement.rule in rules:
            names.append(retirement.rule)
            continue
        hint = did_you_mean(retirement.rule, list(rules))
        problems.append(
            pack.about.problem(
                ("retire", at, "rule"), f"There is no rule '{retirement.rule}' to retire.{hint}"
            )
        )
    return names
