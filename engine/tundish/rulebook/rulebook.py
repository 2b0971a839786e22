"""The rulebook: rules, quantities, tables and sources of one or more packs, linked."""

from __future__ import annotations

from _thread import allocate_lock  # all of `threading` takes a millisecond to load
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field, replace
from functools import cache, cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.lazy import LazyItems, LazyMapping
from tundish.job.facts import Facts
from tundish.job.job import MORE, Job
from tundish.job.model.schema import Entry
from tundish.job.schema import entry_at
from tundish.language.check.scope import Scope
from tundish.rulebook.cache.rulebook_cache import PrebuiltCache, RulebookCache
from tundish.rulebook.evaluate.contradictions import Contradictions
from tundish.rulebook.evaluate.rule_set import Computed, RuleSet
from tundish.rulebook.files.pack import FACTS, PackFiles, all_read, check_forms, files_of, read_pack
from tundish.rulebook.files.pack_size import check_folders, check_packs
from tundish.rulebook.model.cited_table import CitedTable
from tundish.rulebook.model.declared_facts import Declared, facts_with, meanings_with
from tundish.rulebook.model.linked import Linked
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.model.sizes import Sizes
from tundish.rulebook.model.source import Source
from tundish.text.bundled_folders import bundled_folder
from tundish.text.nearest import did_you_mean

if TYPE_CHECKING:
    from tundish.rulebook.evaluate.evaluator import Evaluator


@dataclass(frozen=True)
class Rulebook(RuleSet):
    """Rules ready to judge jobs. Frozen, and safe to share between threads.

    Attributes:
        sizes: Practical sizes, by path of the fact.
        tables: Tables by name, with where they come from.
        sources: The bibliography.
        digest: SHA-256 over all files, in the order of the packs.
        cache: Keeps what is computed from all the rules between runs; None if nothing does.

    Example:
        >>> rulebook = Rulebook.built_in()
        >>> rulebook.rules["defrost-water/free-volume"].severity
        'fault'
    """

    sizes: Mapping[str, Sizes]
    tables: Mapping[str, CitedTable]
    sources: Mapping[str, Source]
    digest: str
    cache: RulebookCache | None = field(default=None, compare=False, repr=False)

    @classmethod
    def built_in(cls) -> Rulebook:
        """Return the rulebook that comes with the program.

        Raises:
            Refused: If it cannot be read.
        """
        return _read_once(bundled_folder("rules"))

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
            return cls.built_in()
        built_in = [bundled_folder("rules")] if with_built_in else []
        return _read([*built_in, *(Path(folder) for folder in folders)])

    def cached(self, name: str, compute: Callable[[], Computed]) -> Computed:
        """Return what is computed from all the rules and cached between runs.

        Args:
            name: Its name: letters and digits.
            compute: Computes it where it is not cached: plain data, or the code of a function
                that `tundish.language.evaluate.compiled` wrote and makes again by `function_from`.
        """
        if self.cache is None or not self.cache.is_of(self.rules, self.quantities, self.provisions):
            return compute()
        return self.cache.computed(name, compute)

    @cached_property
    def evaluator(self) -> Evaluator:
        """Return what judges jobs by it."""
        # Loaded here, as a command that judges nothing need not load it.
        from tundish.rulebook.evaluate.evaluator import Evaluator

        return Evaluator.worst_first(self)

    @cached_property
    def unverified_rules(self) -> frozenset[str]:
        """Return the names of rules of which anything was written from memory."""

        def compute() -> tuple[str, ...]:
            # Loaded here, as it is computed once for many runs.
            from tundish.rulebook.link.facts_read import unverified_rules

            return tuple(unverified_rules(self.rules.values(), self.quantities))

        return frozenset(self.cached("unverified", compute))

    @cached_property
    def places_read(self) -> Mapping[str, frozenset[str]]:
        """Return those that a rule looks at itself or through quantities, by the rule's name."""
        # Loaded here, as only questions need it.
        from tundish.job.hints import written_path
        from tundish.rulebook.link.facts_read import facts_read

        rules, quantities = self.rules, self.quantities
        return LazyItems(
            rules, lambda name: frozenset(map(written_path, facts_read(rules[name], quantities)))
        )

    def facts(self, job: Job, may_contradict: bool = False) -> Facts:
        """Return a job's facts, those that packs declare too; none that contradict if none may.

        Raises:
            Contradicted: If some of them cannot be so together.
            Refused: If it states something under [more] that no pack declares, or wrongly.
        """
        facts = facts_with(job, self.declared)
        if not may_contradict:
            self.contradictions.check(facts, job)
        return facts

    @cached_property
    def contradictions(self) -> Contradictions:
        """Return what finds facts that contradict each other."""
        return Contradictions(self)

    def asked(self, path: str) -> Entry | None:
        """Return what a surveyor needs to learn a fact, by its path."""
        if path.startswith(f"{MORE}."):
            declared = self.declared.get(path.removeprefix(f"{MORE}."))
            return declared.fact if declared else None
        return entry_at(path)

    def rule(self, name: str) -> Rule:
        """Return a rule by its name, or by a name it had before.

        Raises:
            KeyError: If there is none; its text names the nearest.
        """
        if name in self.rules:
            return self.rules[name]
        if name in self.renamed:
            return self.rules[self.renamed[name][0]]
        raise KeyError(f"No rule is called '{name}'.{did_you_mean(name, list(self.rules))}")

    @cached_property
    def renamed(self) -> Mapping[str, tuple[str, str]]:
        """Return what rules are called today, and the item meant, by names they had before."""
        return {
            former: (rule.name, item)
            for rule in self.rules.values()
            for former, item in rule.former_names.items()
        }

    def name_today(self, rule: str, item: str) -> tuple[str, str]:
        """Return what a rule that was asked of an item is called today, and that item."""
        if rule in self.rules or rule not in self.renamed:
            return rule, item
        name, meant = self.renamed[rule]
        return name, meant or item

    @cached_property
    def replaced_and_overridden(self) -> tuple[Rule, ...]:
        """Return the rules of packs in the place of others, which countries override all the same.

        They are looked for once for many runs, as every assessment asks.
        """
        rules = self.rules.values()
        names = self.cached(
            "replaced",
            lambda: tuple(each.name for each in rules if each.replaces and each.overridden),
        )
        return tuple(self.rules[name] for name in names)

    @cached_property
    def as_written(self) -> Rulebook:
        """Return it as international packs have it: what countries put in place is left aside."""
        if not any(quantity.overridden for quantity in self.quantities.values()):
            return self
        quantities = self.quantities
        return replace(
            self, quantities=LazyItems(quantities, lambda key: quantities[key].as_written)
        )

    def topics(self) -> list[str]:
        """Return the topics, sorted."""
        return sorted({rule.topic for rule in self.rules.values()})


_READING = allocate_lock()
"""Held while the built-in rulebook is read, or threads that come first would each link it."""


def _read_once(folder: Path) -> Rulebook:
    """Read the built-in rulebook once a process: it is frozen, so all may share it."""
    with _READING:
        return _read_and_cached(folder)


@cache
def _read_and_cached(folder: Path) -> Rulebook:
    return _read([folder])


def _read(folders: list[Path]) -> Rulebook:
    """Return the rulebook of some packs, from the cache where it has been linked before."""
    check_folders(folders)
    packs = [pack for packs in all_read(files_of, folders) for pack in packs]
    cache = RulebookCache(packs)
    linked = cache.load(lambda: _link(packs)[0])
    if linked is not None:
        return _rulebook(linked, LazyMapping(lambda: _declared(packs)), cache)
    linked, declared = _link(packs)
    cache.save(linked)
    return _rulebook(linked, declared, cache)


def prebuild(folder: Path) -> Rulebook:
    """Link the built-in rulebook for the program that is being built.

    Args:
        folder: Where the prebuilt files are gathered.

    Returns:
        The rulebook; all that is cached of it is among the files.
    """
    packs = files_of(bundled_folder("rules"))
    linked, declared = _link(packs)
    cache = PrebuiltCache(folder, packs)
    cache.save(linked)
    rulebook = _rulebook(linked, declared, cache)
    # Each is written as it is computed.
    _ = rulebook.evaluator, rulebook.unverified_rules, rulebook.budget
    _ = rulebook.reported, rulebook.replaced_and_overridden, rulebook.taken_for_granted
    _ = rulebook.rules_of_facts, rulebook.quantities_of_facts, rulebook.contradictions
    _ = rulebook.bounds_on("")
    return rulebook


def _link(packs: Sequence[PackFiles]) -> tuple[Linked, Mapping[str, Declared]]:
    # Loaded here, as a rulebook from the cache needs no linking.
    from tundish.rulebook.link.link_packs import link

    opened = all_read(read_pack, packs)
    check_forms(packs)
    check_packs(opened)
    return link(opened)


def _rulebook(linked: Linked, declared: Mapping[str, Declared], cache: RulebookCache) -> Rulebook:
    tables, quantities = linked.tables, linked.quantities
    return Rulebook(
        rules=linked.rules,
        quantities=quantities,
        provisions=linked.provisions,
        constraints=linked.constraints,
        scope=Scope(
            LazyMapping(lambda: meanings_with(declared)),
            LazyItems(quantities, lambda key: quantities[key].meaning),
            LazyItems(tables, lambda name: tables[name].table),
        ),
        editions=linked.editions,
        sizes=linked.sizes,
        declared=declared,
        tables=tables,
        sources=linked.sources,
        digest=linked.digest,
        cache=cache,
    )


def _declared(packs: Sequence[PackFiles]) -> Mapping[str, Declared]:
    if not any(FACTS in pack.contents for pack in packs):
        return {}
    # Loaded here, as most rulebooks declare no facts and it brings pydantic along.
    from tundish.rulebook.files.facts_file import declared_in

    return declared_in(packs)
