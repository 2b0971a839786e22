"""Rules, quantities and tables together, as what evaluates them needs them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.lazy import LazyDict, LazyItems
from tundish.job.facts import Facts
from tundish.job.model.paths import without_positions
from tundish.language.budget.budget import Budget
from tundish.language.check.scope import Scope
from tundish.language.evaluate.environment import Formula
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.session import Function, Session
from tundish.language.operations.table import RowsOfTables, Table
from tundish.rulebook.evaluate.budget import RulebookBudget
from tundish.rulebook.model.constraint import Bound, Constraint
from tundish.rulebook.model.declared_facts import Declared
from tundish.rulebook.model.definition import Definition
from tundish.rulebook.model.editions import Edition, edition_tables
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule

if TYPE_CHECKING:
    from tundish.language.evaluate.ranges.evaluate import RangeEvaluator
    from tundish.language.evaluate.ranges.possible import Possible
    from tundish.language.evaluate.ranges.range import Range
    from tundish.rulebook.evaluate.possible_facts import PossibleFacts

Computed = TypeVar("Computed")
Named = TypeVar("Named", str, tuple[str, str])


@dataclass(frozen=True)
class RuleSet:
    """Rules with all that their evaluation needs.

    Attributes:
        rules: Rules by name (``topic/rule``), sorted.
        quantities: Named formulas by (path of the list they belong to or "", name).
        provisions: Parts that jobs need, by name, sorted.
        constraints: What facts of one job can only be together, by name, sorted.
        scope: What names mean in its expressions.
        declared: Facts that packs declare, by name.
        editions: Editions of tables that have several, by name of the table.
    """

    rules: Mapping[str, Rule]
    quantities: Mapping[tuple[str, str], DerivedQuantity]
    provisions: Mapping[str, Provision]
    constraints: Mapping[str, Constraint]
    scope: Scope
    editions: Mapping[str, tuple[Edition, ...]]
    declared: Mapping[str, Declared]

    @property
    def definitions(self) -> tuple[DerivedQuantity | Constraint | Rule | Provision, ...]:
        """Return all quantities, constraints, rules and parts to be ordered, in that order."""
        rules, parts = self.rules.values(), self.provisions.values()
        return (*self.quantities.values(), *self.constraints.values(), *rules, *parts)

    def cached(self, name: str, compute: Callable[[], Computed]) -> Computed:
        """Return what is computed once from the whole of it; here nothing is cached."""
        return compute()

    @cached_property
    def session(self) -> Callable[[Mapping[str, object]], Session]:
        """Return what starts an evaluation over a job's facts."""
        # Every job starts one, so what all jobs share is looked up once.
        functions: Mapping[tuple[str, str], Function] = LazyDict(
            lambda key: self.quantities[key].calculate
        )
        steps, barred = self.budget.steps, self.budget.barred
        if self.editions:
            return lambda values: Session(
                values, functions, self.rows_for(values), Budget(steps), barred
            )
        rows = self._rows_read
        return lambda values: Session(values, functions, rows, Budget(steps), barred)

    @cached_property
    def places_named(self) -> Mapping[str, frozenset[str]]:
        """Return where a file has the facts that a rule names itself, by the rule's name."""
        # Loaded here, as only questions need it.
        from tundish.job.hints import written_path
        from tundish.rulebook.link.facts_read import facts_read_directly

        def named(name: str) -> frozenset[str]:
            return frozenset(map(written_path, facts_read_directly(self.rules[name])))

        return LazyItems(self.rules, named)

    def explainer(self, facts: Facts) -> Explainer:
        """Start an explained evaluation over a job's facts."""
        steps = self.budget.explaining(facts.values).steps
        return Explainer(facts, self.formulas, self.tables_for(facts.values), steps)

    def ranges(self, facts: Facts, ranges: Mapping[str, Range]) -> RangeEvaluator:
        """Start an evaluation over a job some of whose facts lie anywhere within a range.

        Args:
            facts: The facts of the job.
            ranges: The ranges of facts, by path with positions.
        """
        # Loaded here, as most jobs have no ranges.
        from tundish.language.evaluate.ranges.evaluate import RangeEvaluator

        values, readers = facts.values, self.quantities_of_facts
        ranging = frozenset(
            quantity for path in ranges for quantity in readers.get(without_positions(path), ())
        )
        steps, tables = self.budget.explaining(values).steps, self.tables_for(values)
        session = self.session(values)
        return RangeEvaluator(facts, self.formulas, tables, ranges, steps, session, ranging)

    def completing(self, facts: Facts, possible: Possible | None = None) -> RangeEvaluator:
        """Start an evaluation over a job in which what is not stated is whatever it can be.

        Args:
            facts: The facts that are stated.
            possible: What the others may be; by the bounds of their kinds if left out.
        """
        # Loaded here, as a whole job leaves nothing undecided.
        from tundish.language.evaluate.ranges.evaluate import RangeEvaluator

        values, possible = facts.values, possible or self.possible
        steps, tables = self.budget.explaining(values).steps, self.tables_for(values)
        session = self.session(values)
        return RangeEvaluator(facts, self.formulas, tables, {}, steps, session, possible=possible)

    @cached_property
    def possible(self) -> PossibleFacts:
        """Return what facts may be that are not stated."""
        from tundish.rulebook.evaluate.possible_facts import PossibleFacts

        return PossibleFacts(self.declared, frozenset(self.taken_for_granted), self.bounds_on)

    def bounds_on(self, path: str) -> tuple[Bound, ...]:
        """Return how a fact is bounded by single other facts, of the job or of the same item.

        Args:
            path: The path of the fact, without positions.
        """
        return self._bounds.get(path, ())

    @cached_property
    def _bounds(self) -> Mapping[str, tuple[Bound, ...]]:
        def compute() -> tuple[tuple[str, ...], ...]:
            bounds = (constraint.bounds() for constraint in self.constraints.values())
            return tuple((path, *bound) for each in bounds for path, bound in each.items())

        by_fact: dict[str, tuple[Bound, ...]] = {}
        for path, *bound in self.cached("bounds", compute):
            by_fact[path] = (*by_fact.get(path, ()), Bound(*bound))
        return by_fact

    @cached_property
    def taken_for_granted(self) -> tuple[str, ...]:
        """Return the facts of which something holds until they are known, sorted."""

        def compute() -> tuple[str, ...]:
            from tundish.rulebook.link.facts_read import facts_taken_for_granted

            definitions = (*self.quantities.values(), *self.rules.values())
            return tuple(sorted(facts_taken_for_granted(definitions, self.quantities)))

        return self.cached("granted", compute)

    @cached_property
    def rules_of_facts(self) -> Mapping[str, tuple[str, ...]]:
        """Return the names of the rules that read each fact, themselves or through quantities."""
        return self._readers("readers", self.rules)

    @cached_property
    def quantities_of_facts(self) -> Mapping[str, tuple[tuple[str, str], ...]]:
        """Return the quantities that read each fact, themselves or through others."""
        return self._readers("quantityreaders", self.quantities)

    def _readers(
        self, name: str, definitions: Mapping[Named, Definition]
    ) -> Mapping[str, tuple[Named, ...]]:
        def compute() -> Mapping[str, tuple[Named, ...]]:
            # Loaded here, as it is computed once for many runs.
            from tundish.rulebook.link.facts_read import readers_by_fact

            return readers_by_fact(definitions, self.quantities)

        return self.cached(name, compute)

    @cached_property
    def budget(self) -> RulebookBudget:
        """Return what each rule may take of an assessment."""

        def compute() -> tuple[Any, ...]:
            rules, provisions = self.rules.values(), self.provisions.values()
            return RulebookBudget.of(rules, self.quantities, provisions).plain()

        return RulebookBudget.from_plain(self.cached("budget", compute))

    @cached_property
    def reported(self) -> tuple[DerivedQuantity, ...]:
        """Return the quantities that a report shows, in their order."""
        quantities = self.quantities
        keys = self.cached(
            "reported",
            lambda: tuple(key for key, each in quantities.items() if each.report is not None),
        )
        return tuple(quantities[key] for key in keys)

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
        return LazyDict(self.scope.tables.__getitem__)
