"""The facts of a case, as those of a real job, and what is evaluated over them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.language.budget.budget import TooManySteps
from tundish.language.check.scope import Meaning
from tundish.language.evaluate.environment import Binding
from tundish.language.evaluate.session import Function
from tundish.rulebook.model.constraint import Constraint
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Problem, Refused

Proved = Rule | DerivedQuantity | Provision | Constraint


@dataclass(frozen=True, slots=True)
class CaseRun:
    """The facts of a job, and the item of it that is looked at.

    Attributes:
        facts: The facts.
        rulebook: The rulebook.
        item: The item, if one of a list is looked at.
        bindings: The item by the name that expressions give it.
        names_unknown: Whether the case says which facts it asks for, so that asking for others is
            noticed.
    """

    facts: Facts
    rulebook: Rulebook
    item: tuple[Mapping[str, object], ...] = ()
    bindings: Mapping[str, Binding] = field(default_factory=dict)
    names_unknown: bool = False

    def calculate(self, function: Function) -> object:
        """Return what an expression comes to.

        Raises:
            TooManySteps: If it takes more steps than it may.
        """
        session = self.rulebook.session(self.facts.values)
        return function(self.facts.values, session, *self.item)

    def value(self, function: Function) -> object:
        """Return what an expression comes to; None also where it takes too many steps."""
        try:
            return self.calculate(function)
        except TooManySteps:
            return None


def runs_on(facts: Facts, proved: Proved, item: int | None, rulebook: Rulebook) -> list[CaseRun]:
    """Return a run on some facts, or one on each item that is looked at.

    Args:
        facts: The facts of a job.
        proved: What is evaluated.
        item: Position of the one item meant, from 1; None for every one.
        rulebook: The rulebook.
    """
    each = proved.each
    rulebook = rulebook_for(facts, rulebook)
    if each is None:
        return [CaseRun(facts, rulebook)]
    items = facts.values.get(each.path)
    return [
        CaseRun(facts, rulebook, (record,), {each.variable: (record, f"{each.path}[{position}]")})
        for position, record in enumerate(items if isinstance(items, list) else [], start=1)
        if item in (None, position)
    ]


def case_runs(
    given: Mapping[str, Any], proved: Proved, item: int | None, rulebook: Rulebook
) -> list[CaseRun]:
    """Return the runs on facts as a case states them; none where they are refused."""
    facts = possible_facts(given, rulebook, isinstance(proved, Constraint))
    return [] if facts is None else runs_on(facts, proved, item, rulebook)


def possible_facts(
    given: Mapping[str, Any], rulebook: Rulebook, may_contradict: bool = False
) -> Facts | None:
    """Return the facts of a job, or None if there can be no such job.

    Args:
        given: The facts, as a case states them.
        rulebook: The rulebook.
        may_contradict: Whether facts that contradict each other are facts all the same.
    """
    try:
        return rulebook.facts(Job.from_data(given), may_contradict)
    except Refused:
        return None


def names_country(facts: Facts) -> bool:
    """Say whether a case names the country of its job.

    One that names none shows what is international, whichever countries have rules of their own.
    """
    return "job.region" in facts.values


def rulebook_for(facts: Facts, rulebook: Rulebook) -> Rulebook:
    """Return the rules by which a case is judged: those of its country, where it names one."""
    return rulebook if names_country(facts) else rulebook.as_written


def facts_of(case: Case, proved: Proved, rulebook: Rulebook) -> Facts | Refused:
    """Return a case's facts, or why they are no possible job; a constraint is shown broken too."""
    try:
        return rulebook.facts(Job.from_data(dict(case.given)), isinstance(proved, Constraint))
    except Refused as refused:
        lists = list(_lists_as_tables(case.given, rulebook.scope.facts))
        return Refused(lists) if lists else refused


def steps_in(given: Mapping[str, Any], path: str) -> tuple[str, ...]:
    """Return the keys under which a case states a fact.

    Args:
        given: What the case states: by whole paths, by tables inside one another, or both.
        path: The fact, with dots.

    Example:
        >>> steps_in({"site.snow_depth": "1 m"}, "site.snow_depth")
        ('site.snow_depth',)
    """
    names = path.split(".")
    for length in range(len(names), 0, -1):
        key = ".".join(names[:length])
        if key in given:
            inner, below = given[key], ".".join(names[length:])
            return (key, *steps_in(inner, below)) if isinstance(inner, dict) and below else (key,)
    return ()


def _lists_as_tables(
    given: Mapping[str, Any], facts: Mapping[str, Meaning], above: str = ""
) -> Iterator[Problem]:
    """Give the lists that are stated as one table, as dots without quotes make one."""
    for key, value in given.items():
        path = above + key
        if not isinstance(value, dict):
            continue
        meaning = facts.get(path)
        if meaning is None or meaning.kind.name != "items":
            yield from _lists_as_tables(value, facts, path + ".")
            continue
        inner = next(iter(value), "")
        sentence = f'{path} is a list: write "{path}" = [{{ {inner} = ... }}], with its quotes.'
        yield Problem("", None, None, sentence, path)
