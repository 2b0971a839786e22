"""The rulebook: rules, quantities, tables and sources of one or more packs, linked."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.job.facts import Facts
from tundish.job.job import MORE, Job
from tundish.job.schema import Asked, job_schema
from tundish.language.explained import Explainer, Formula
from tundish.language.scope import Meaning, Scope
from tundish.language.session import Function, Session
from tundish.language.table import Table
from tundish.reading.home import travelling_folder
from tundish.reading.nearest import did_you_mean
from tundish.reading.problem import Problem, Refused
from tundish.rulebook.allowance import Allowance
from tundish.rulebook.bibliography import read_sources
from tundish.rulebook.declared import Declared, declared_facts, facts_with, meanings_of
from tundish.rulebook.editions import Edition, edition_tables, link_editions
from tundish.rulebook.linking import Linker
from tundish.rulebook.linking_packs import link_quantities, link_rules, link_tables
from tundish.rulebook.meanings import job_meanings
from tundish.rulebook.order import dependence_problems
from tundish.rulebook.pack import Pack, read_packs
from tundish.rulebook.pack_size import check_folders, check_packs
from tundish.rulebook.providing import link_provisions
from tundish.rulebook.provision import Provision
from tundish.rulebook.rule import DerivedQuantity, Rule, worst_first
from tundish.rulebook.sizes import Sizes, link_sizes
from tundish.rulebook.source import Source
from tundish.rulebook.tables import CitedTable

if TYPE_CHECKING:
    from tundish.rulebook.swift import Swift


@dataclass(frozen=True)
class Rulebook:
    """Rules ready to judge jobs. Frozen, and safe to share between threads.

    Attributes:
        rules: Rules by name (``topic/rule``), sorted.
        quantities: Named formulas by (path of the list they belong to or "", name).
        provisions: Parts that jobs need, by name, sorted.
        sizes: Practical sizes, by path of the fact.
        declared: Facts that packs declare, by name.
        tables: Tables by name.
        sources: The bibliography.
        scope: What names mean in its expressions.
        digest: SHA-256 over all files, in the order of the packs.
        plain_tables: The tables without where they come from.
        functions: The quantities compiled, as a session takes them.
        editions: Editions of tables that have several, by name of the table.

    Example:
        >>> rulebook = Rulebook.built_in()
        >>> rulebook.rules["defrost-water/free-volume"].severity
        'fault'
    """

    rules: Mapping[str, Rule]
    quantities: Mapping[tuple[str, str], DerivedQuantity]
    provisions: Mapping[str, Provision]
    sizes: Mapping[str, Sizes]
    declared: Mapping[str, Declared]
    tables: Mapping[str, CitedTable]
    sources: Mapping[str, Source]
    scope: Scope
    digest: str
    plain_tables: Mapping[str, Table]
    functions: Mapping[tuple[str, str], Function]
    editions: Mapping[str, tuple[Edition, ...]]

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
        allowance = self.allowance
        return Session(
            values,
            self.functions,
            self.tables_for(values),
            allowance.steps,
            allowance.barred(values),
        )

    def facts(self, job: Job) -> Facts:
        """Return a job's facts, those that packs declare too.

        Raises:
            Refused: If it states something under [more] that no pack declares, or wrongly.
        """
        return facts_with(job, self.declared)

    def asked(self, path: str) -> Asked | None:
        """Return what a surveyor needs to learn a fact, by its path."""
        if path.startswith(f"{MORE}."):
            found = self.declared.get(path.removeprefix(f"{MORE}."))
            return found.fact if found else None
        return job_schema().find(path)

    def explainer(self, facts: Facts) -> Explainer:
        """Start an explained evaluation over a job's facts."""
        steps = self.allowance.explained(facts.values).steps
        return Explainer(facts, self.formulas, self.tables_for(facts.values), steps)

    @cached_property
    def allowance(self) -> Allowance:
        """Return how much of an assessment each rule may take."""
        return Allowance.of(self.rules.values(), self.quantities, self.provisions.values())

    @cached_property
    def swift(self) -> Swift:
        """Return it made ready to judge in haste, the rules with the worst breaches first."""
        from tundish.rulebook.swift import Swift

        return Swift(self, worst_first(self.rules.values()))

    @cached_property
    def resting_on_memory(self) -> frozenset[str]:
        """Return the names of rules of which anything was written from memory."""
        from tundish.rulebook.memory import rules_from_memory

        return rules_from_memory(self.rules.values(), self.quantities)

    @property
    def formulas(self) -> dict[tuple[str, str], Formula]:
        """Return the checked formulas, for explaining."""
        return {key: quantity.formula for key, quantity in self.quantities.items()}

    def tables_for(self, values: Mapping[str, object]) -> Mapping[str, Table]:
        """Return the tables by name, in the editions that hold on the day of a job.

        Args:
            values: The facts of the job; without a day the newest editions hold.
        """
        day = values.get("job.date")
        if self.editions:
            return edition_tables(self.editions, self.plain_tables, day)
        return self.plain_tables

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
    check_folders(folders)
    for folder in folders:
        try:
            packs.extend(read_packs(folder))
        except Refused as refused:
            problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    check_packs(packs)
    return _link(packs)


def _link(packs: list[Pack]) -> Rulebook:
    problems: list[Problem] = []
    sources = read_sources(packs, problems)
    tables = link_tables(packs, sources, problems)
    editions = link_editions(tables, problems)
    plain = {name: cited.table for name, cited in tables.items()}
    meanings: dict[tuple[str, str], Meaning] = {}
    declared = declared_facts(packs, problems)
    named = {**job_meanings(), **meanings_of(declared)} if declared else job_meanings()
    scope = Scope(named, meanings, plain)  # the quantities are declared just below
    linker = Linker(scope, sources, problems)
    quantities = link_quantities(packs, linker, meanings)
    rules = link_rules(packs, linker)
    provisions = link_provisions(packs, linker)
    sizes = link_sizes(packs, scope, sources, problems)
    problems.extend(dependence_problems(quantities, rules.values()))
    if problems:
        raise Refused(problems)
    digest = hashlib.sha256("".join(pack.digest for pack in packs).encode()).hexdigest()
    ordered = {name: rules[name] for name in sorted(rules)}
    return Rulebook(
        rules=ordered,
        quantities=quantities,
        provisions=provisions,
        sizes=sizes,
        declared=declared,
        tables=tables,
        sources=sources,
        scope=scope,
        digest=digest,
        plain_tables=plain,
        functions={key: quantity.calculate for key, quantity in quantities.items()},
        editions=editions,
    )
