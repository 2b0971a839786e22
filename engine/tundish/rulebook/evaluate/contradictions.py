"""Contradictions: facts of one job that cannot all be so, by the constraints of a rulebook."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cached_property
from types import CodeType
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.fused import Answers, load_fused
from tundish.language.evaluate.step import Step
from tundish.language.operations.operators import RELATIONS
from tundish.language.tree import tree as t
from tundish.rulebook.evaluate.judge import Judgement, Verdict, item_binding
from tundish.rulebook.evaluate.rule_set import RuleSet
from tundish.rulebook.model.constraint import Constraint
from tundish.text.bounds import MOST_PROBLEMS
from tundish.text.problem import Problem, Refused
from tundish.units.display_units import usual_unit
from tundish.units.format import show

_ANSWERS = Answers(False, True, False, False)

Place = Callable[[str], "tuple[str, int, int] | None"]
"""Gives file, line and column of a fact, by its path; None where it stands in no file."""


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Facts that cannot be together.

    Attributes:
        constraint: What they break.
        facts: Paths of the facts, those of the left side of the comparison first.
        values: What each says, as written.
        possible: What would be possible, as a sentence.
    """

    constraint: Constraint
    facts: tuple[str, ...]
    values: tuple[str, ...]
    possible: str

    def sentence(self, place: Place) -> str:
        """Say which facts contradict each other, where they stand, why, and what could be.

        Args:
            place: Where a fact stands.
        """
        first, *others = map(": ".join, zip(self.facts, self.values, strict=True))
        beside = " and ".join(
            other + _at(place(path)) for other, path in zip(others, self.facts[1:], strict=True)
        )
        return f"{first} cannot be beside {beside}. {self.constraint.because} {self.possible}"


def nowhere(_: str) -> None:
    """Say that a fact stands in no file."""


def _at(place: tuple[str, int, int] | None) -> str:
    return "" if place is None else f" ({':'.join(map(str, place))})"


class Contradicted(Refused):
    """Raised when facts of a job cannot all be so.

    Attributes:
        paths: Paths of the facts that contradict each other.
    """

    def __init__(self, problems: Iterable[Problem], paths: Iterable[str] = ()) -> None:
        super().__init__(problems)
        self.paths = frozenset(paths)


class Contradictions:
    """Finds the facts of many jobs that contradict each other; safe to share between threads.

    Args:
        rulebook: The rulebook whose constraints they are held against.
    """

    def __init__(self, rulebook: RuleSet) -> None:
        self._rulebook = rulebook
        self._constraints = list(rulebook.constraints.values())
        codes = rulebook.cached("constraints", self._compiled) if self._constraints else ()
        budget = rulebook.budget
        self._functions = [
            load_fused(code, _ANSWERS, rulebook.session, budget.steps, budget.few) for code in codes
        ]

    def constraints_on(self, path: str) -> tuple[Constraint, ...]:
        """Return the constraints that read a fact, themselves or through quantities.

        Args:
            path: The path of the fact, without positions.
        """
        names = self._constraints_by_fact.get(path, ())
        return tuple(self._rulebook.constraints[name] for name in names)

    @cached_property
    def _constraints_by_fact(self) -> Mapping[str, tuple[str, ...]]:
        def compute() -> dict[str, tuple[str, ...]]:
            # Loaded here, as it is computed once for many runs.
            from tundish.rulebook.link.facts_read import readers_by_fact

            return readers_by_fact(self._rulebook.constraints, self._rulebook.quantities)

        return self._rulebook.cached("constrained", compute)

    def _compiled(self) -> tuple[CodeType, ...]:
        # Loaded here, as most runs find them compiled in the cache.
        from tundish.rulebook.evaluate.compile_rules import compile_rules

        return compile_rules(self._rulebook, self._constraints)

    def broken(self, values: Mapping[str, object]) -> list[tuple[Constraint, tuple[int, ...]]]:
        """Return the constraints that facts break, each with the positions of items, from 1.

        Args:
            values: The facts of a job.
        """
        try:
            rows = self._rulebook.rows_for(values)
            outcomes = [each for ask in self._functions for each in ask(values, rows)[1]]
        except TooManySteps:
            return []
        broken: list[tuple[Constraint, tuple[int, ...]]] = []
        for constraint, outcome in zip(self._constraints, outcomes, strict=True):
            if outcome is True:
                broken.append((constraint, ()))
            elif outcome.__class__ is tuple and True in outcome:
                items = enumerate(outcome, start=1)
                broken.append((constraint, tuple(at for at, is_broken in items if is_broken)))
        return broken

    def check(self, facts: Facts, job: Job) -> None:
        """Refuse facts that contradict each other, each problem at the place of the first.

        Args:
            facts: The facts of a job.
            job: The job, which knows where they stand.

        Raises:
            Contradicted: If some of them cannot be so together.
        """
        if not (found := list(self.of(facts))):
            return
        place = job.source.place if job.source else nowhere
        name = job.source.files[0].name if job.source else "<data>"
        problems = []
        for each in found[:MOST_PROBLEMS]:
            file, line, column = place(each.facts[0]) or (name, None, None)
            problems.append(Problem(file, line, column, each.sentence(place), each.facts[0]))
        if len(found) > MOST_PROBLEMS:
            more = f"Not listed one by one: {len(found) - MOST_PROBLEMS} more."
            problems.append(Problem(name, None, None, more))
        raise Contradicted(problems, (path for each in found for path in each.facts))

    def check_row(self, values: Mapping[str, Any], base: Facts) -> None:
        """Refuse facts of a row of a table that contradict each other.

        Args:
            values: The facts.
            base: The facts of the job that the row differs from.

        Raises:
            ValueError: If some cannot be so together; it tells the first of them.
        """
        if self.broken(values):
            for contradiction in self.of(Facts(dict(values), {}, base.names)):
                raise ValueError(contradiction.sentence(nowhere))

    def of(self, facts: Facts) -> Iterator[Contradiction]:
        """Give what facts contradict each other.

        Args:
            facts: The facts of a job.
        """
        broken = self.broken(facts.values)
        explainer = self._rulebook.explainer(facts) if broken else None
        for constraint, positions in broken:
            assert explainer is not None
            for position in positions or (None,):
                judgement = Judgement(constraint.name, "", Verdict.BREACHED, position)
                bindings = item_binding(constraint, judgement, facts)
                yield _told(constraint, explainer.explain(constraint.requires, bindings), facts)


def _told(constraint: Constraint, step: Step, facts: Facts) -> Contradiction:
    reads = {
        part.path: facts.written.get(part.path) or _shown(part)
        for part in step.walk()
        if isinstance(part.node, t.Read)
        and part.value is not None
        and part.needed
        and part.node.kind.name not in ("items", "record")
    }
    return Contradiction(
        constraint, tuple(reads), tuple(reads.values()), _possible(constraint, step, facts)
    )


def _possible(constraint: Constraint, step: Step, facts: Facts) -> str:
    """Say what either side could be beside the other."""
    assert isinstance(constraint.requires, t.Comparison)
    relation = RELATIONS[constraint.requires.sign]
    left, right = step.parts
    mirrored = RELATIONS[relation.mirrored].limit
    here, there = (facts.written.get(part.path) or _shown(part) for part in (left, right))
    names = [_named(constraint, part) for part in (left, right)]
    if isinstance(right.node, t.Constant):
        return f"Possible is {names[0]} {relation.limit}{there}."
    if isinstance(left.node, t.Constant):
        return f"Possible is {names[1]} {mirrored}{here}."
    worked_out = " and ".join(
        f"{name} comes to {shown}"
        for name, shown, part in zip(names, (here, there), (left, right), strict=True)
        if not isinstance(part.node, t.Read)
    )
    could = f"Possible is {names[0]} {relation.limit}{there}, or {names[1]} {mirrored}{here}."
    return f"As they stand, {worked_out}. {could}" if worked_out else could


def _named(constraint: Constraint, step: Step) -> str:
    """Return what a side is called: its path, or its text as written."""
    if isinstance(step.node, t.Read):
        return step.path
    if isinstance(step.node, t.Derived):
        return step.node.label
    written = constraint.written["requires"][step.node.start : step.node.end]
    return " ".join(written.split())


def _shown(step: Step) -> str:
    value, kind = step.value, step.node.kind
    if not isinstance(value, float) or kind.name != "quantity":
        return str(value)
    unit = getattr(step.node, "unit", None) or usual_unit(kind.dimension, kind.point)
    return show(value, unit, difference=unit.point and not kind.point)
