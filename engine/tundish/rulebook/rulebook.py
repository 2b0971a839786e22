"""The rulebook: rules, quantities, tables and sources of one or more packs, linked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from functools import cache, cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.lazy import LazyDict, LazyItems, LazyMapping
from tundish.job.facts import Facts
from tundish.job.job import MORE, Job
from tundish.job.model.schema import Entry, job_schema
from tundish.language.check.scope import Scope
from tundish.language.evaluate.explained import Explainer, Formula
from tundish.language.evaluate.session import Function, Session
from tundish.language.operations.table import RowsOfTables, Table
from tundish.rulebook.cache import stored as cached
from tundish.rulebook.cache.fingerprint import identity_of
from tundish.rulebook.cache.serialise import Linked
from tundish.rulebook.evaluate.budget import Allowance
from tundish.rulebook.files.pack import FACTS, PackFiles, all_read, files_of, read_pack
from tundish.rulebook.files.pack_size import check_folders, check_packs
from tundish.rulebook.link.editions import Edition, edition_tables
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.model.declared_facts import Declared, facts_with, meanings_with
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.model.sizes import Sizes
from tundish.rulebook.model.source import Source
from tundish.text.bundled_folders import travelling_folder
from tundish.text.nearest import did_you_mean

_Work = TypeVar("_Work")

if TYPE_CHECKING:
    from tundish.rulebook.evaluate.evaluator import Swift


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
        identity: What it is kept under from one run to the next; empty if it is not.

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
    # A rulebook made of this one with something replaced is not what is kept under its identity.
    identity: str = field(default="", compare=False, repr=False, init=False)

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

    def kept(self, name: str, make: Callable[[], _Work]) -> _Work:
        """Return what was worked out of the whole rulebook and is kept from one run to the next.

        Args:
            name: What it is called: letters and digits.
            make: Works it out, where it is not kept yet: plain data, or the code of a function
                that `tundish.language.evaluate.compiled` made and makes again by `function_from`.
        """
        return cached.kept_work(self.identity, name, make)

    @cached_property
    def session(self) -> Callable[[Mapping[str, object]], Session]:
        """Return what starts an evaluation over a job's facts."""
        # Every job starts one, so that all they have in common is looked up once.
        functions, shares = self.functions, self.allowance
        steps, barred = shares.steps, shares.barred
        if self.editions:
            return lambda values: Session(values, functions, self.rows_for(values), steps, barred)
        rows = self._rows_read
        return lambda values: Session(values, functions, rows, steps, barred)

    def facts(self, job: Job) -> Facts:
        """Return a job's facts, those that packs declare too.

        Raises:
            Refused: If it states something under [more] that no pack declares, or wrongly.
        """
        return facts_with(job, self.declared)

    def asked(self, path: str) -> Entry | None:
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

        def shared_out() -> tuple[Any, ...]:
            shares = Allowance.of(self.rules.values(), self.quantities, self.provisions.values())
            return shares.plain()

        return Allowance.from_plain(self.kept("allowance", shared_out))

    @cached_property
    def swift(self) -> Swift:
        """Return it made ready to judge in haste."""
        from tundish.rulebook.evaluate.evaluator import Swift

        return Swift.worst_first(self)

    @cached_property
    def resting_on_memory(self) -> frozenset[str]:
        """Return the names of rules of which anything was written from memory."""

        def worked_out() -> tuple[str, ...]:
            from tundish.rulebook.link.unverified_sources import rules_from_memory

            return tuple(rules_from_memory(self.rules.values(), self.quantities))

        return frozenset(self.kept("memory", worked_out))

    @cached_property
    def formulas(self) -> Mapping[tuple[str, str], Formula]:
        """Return the checked formulas, for explaining."""
        return LazyItems(self.quantities, lambda key: self.quantities[key].formula)

    def tables_for(self, values: Mapping[str, object]) -> Mapping[str, Table]:
        """Return the tables by name, in the editions that hold on the day of a job.

        Args:
            values: The facts of the job; without a day the newest editions hold.
        """
        if self.editions:
            return edition_tables(self.editions, self._tables_read, values.get("job.date"))
        return self._tables_read

    def rows_for(self, values: Mapping[str, object]) -> RowsOfTables:
        """Return the rows of all tables, in the editions that hold on the day of a job.

        Args:
            values: The facts of the job; without a day the newest editions hold.
        """
        return RowsOfTables(self.tables_for(values)) if self.editions else self._rows_read

    @cached_property
    def _rows_read(self) -> RowsOfTables:
        return RowsOfTables(self._tables_read)

    @cached_property
    def _tables_read(self) -> Mapping[str, Table]:
        return LazyDict(self.plain_tables.__getitem__)

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
    check_folders(folders)
    packs = [pack for packs in all_read(files_of, folders) for pack in packs]
    whole = not any(pack.problems for pack in packs)
    identity = identity_of(packs) if whole else ""
    linked = cached.stored(identity, packs) or (cached.travelling(packs) if whole else None)
    if linked is not None:
        return _rulebook(linked, LazyMapping(lambda: _declared(packs)), identity)
    # Imported here, as what is stored is linked without it.
    from tundish.rulebook.link.linked import link

    opened = all_read(read_pack, packs)
    check_packs(opened)
    linked, declared = link(opened)
    cached.store(identity, linked, packs)
    return _rulebook(linked, declared, identity)


def _rulebook(linked: Linked, declared: Mapping[str, Declared], identity: str) -> Rulebook:
    tables, quantities = linked.tables, linked.quantities
    plain = LazyItems(tables, lambda name: tables[name].table)
    meanings = LazyItems(quantities, lambda key: quantities[key].meaning)
    rulebook = Rulebook(
        rules=linked.rules,
        quantities=quantities,
        provisions=linked.provisions,
        sizes=linked.sizes,
        declared=declared,
        tables=tables,
        sources=linked.sources,
        scope=Scope(LazyMapping(lambda: meanings_with(declared)), meanings, plain),
        digest=linked.digest,
        plain_tables=plain,
        functions=LazyDict(lambda key: quantities[key].calculate),
        editions=linked.editions,
    )
    object.__setattr__(rulebook, "identity", identity)
    return rulebook


def _declared(packs: list[PackFiles]) -> Mapping[str, Declared]:
    if not any(FACTS in pack.contents for pack in packs):
        return {}
    from tundish.rulebook.files.facts_file import declared_in

    return declared_in(packs)


def carry_built_in(gathered: Path) -> Rulebook:
    """Link the built-in rulebook to travel with the program that is being built.

    Args:
        gathered: The folder in which what travels is gathered.

    Returns:
        The rulebook; what is made of it as a whole is sent along as it is first asked for.
    """
    from tundish.rulebook.link.linked import link

    packs = files_of(travelling_folder("rules"))
    linked, declared = link(all_read(read_pack, packs))
    cached.send_along(gathered, linked, packs)
    rulebook = _rulebook(linked, declared, identity_of(packs))
    # Whatever is worked out of the whole from here on is sent along.
    object.__setattr__(rulebook, "kept", cached.sending_along(gathered, rulebook.identity))
    return rulebook
