"""Trying mutants: which of them no case of a rule, quantity or part notices."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field, replace
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.explained_lists import Binding
from tundish.language.evaluate.session import Function, Session, TooManySteps
from tundish.language.tree import tree as t
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.prove.case_facts import rulebook_for
from tundish.rulebook.prove.mutants import Mutant, is_same, mutants
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Refused

Proved = Rule | DerivedQuantity | Provision


@dataclass(frozen=True, slots=True)
class Attempt:
    """A mutant of one expression, compiled.

    Attributes:
        key: The key of the file whose expression was changed.
        mutant: What was put wrong.
        function: The changed expression, compiled.
    """

    key: str
    mutant: Mutant
    function: Function = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Round:
    """The facts of a job, and the item of it that is looked at."""

    facts: Facts
    item: tuple[Mapping[str, object], ...]
    rulebook: Rulebook
    bound: Mapping[str, Binding] = field(default_factory=dict)
    names_unknown: bool = False
    """Whether the case says which facts it asks for, so that asking for others is noticed."""

    def value(self, function: Function) -> object:
        """Return what an expression comes to; None also where it takes too many steps."""
        session: Session = self.rulebook.session(self.facts.values)
        try:
            return function(self.facts.values, session, *self.item)
        except TooManySteps:
            return None


@dataclass(frozen=True, slots=True)
class Survivor:
    """A mutant that no case notices.

    Attributes:
        attempt: The mutant, ready to be run.
        change: What was put wrong in it.
        because: Why it makes no difference, as the file says; "" where it says nothing.
        place: ``file:line`` of the expression.
    """

    attempt: Attempt
    change: str
    because: str
    place: str

    @property
    def excuse(self) -> str:
        """Return what a file must say to excuse it."""
        return f"{self.attempt.key}: {self.change}"


@dataclass(frozen=True, slots=True)
class Trial:
    """What came of the mutants of one rule, quantity or part.

    Attributes:
        name: Its name.
        kind: What it is.
        tried: How many mutants there were.
        survivors: Those that no case notices.
        excused: Excuses in its file that excuse no mutant that survives.
    """

    name: str
    kind: str
    tried: int
    survivors: tuple[Survivor, ...]
    excused: tuple[str, ...]

    @property
    def unexcused(self) -> tuple[Survivor, ...]:
        """Return the survivors that the file gives no reason for."""
        return tuple(one for one in self.survivors if not one.because)


def try_mutants(proved: Proved, rulebook: Rulebook) -> Trial:
    """Run every mutant of a rule, quantity or part on its cases.

    Args:
        proved: What is proved.
        rulebook: The rulebook it belongs to.
    """
    if isinstance(proved, DerivedQuantity):
        proved = proved.as_written
    rounds = [
        replace(one, names_unknown=case.unknown is not None)
        for case in proved.cases
        for one in attempts(proved, case.given, case.item, rulebook)
    ]
    before = [outcome(proved, None, one) for one in rounds]
    asking = [(one, asked(proved, None, one)) for one in rounds if one.names_unknown]
    tried, survivors = 0, []
    excuses = dict(proved.unnoticed)
    for attempt in _attempted(proved):
        tried += 1
        after = (outcome(proved, attempt, one) for one in rounds)
        if all(map(is_same, before, after)) and all(
            asked(proved, attempt, one) == facts for one, facts in asking
        ):
            change = attempt.mutant.change
            because = excuses.get(f"{attempt.key}: {change}", "")
            place = _place(proved, attempt.key)
            survivors.append(Survivor(attempt, change, because, place))
    kind = {Rule: "rule", DerivedQuantity: "quantity", Provision: "part"}[type(proved)]
    found = {one.excuse for one in survivors}
    idle = tuple(excuse for excuse in excuses if excuse not in found)
    return Trial(proved.name, kind, tried, tuple(survivors), idle)


def attempts(
    proved: Proved, given: Mapping[str, Any], item: int | None, rulebook: Rulebook
) -> list[Round]:
    """Return what to run expressions on: a job's facts, with each item that is looked at.

    Args:
        proved: What the expressions are of.
        given: The facts, as a case states them; none are given back where they are refused.
        item: Position of the one item meant, from 1; None for every one.
        rulebook: The rulebook.
    """
    try:
        facts = rulebook.facts(Job.from_data(given))
    except Refused:
        return []
    rulebook = rulebook_for(facts, rulebook)
    each = None if isinstance(proved, Provision) else proved.each
    if each is None:
        return [Round(facts, (), rulebook)]
    items = facts.values.get(each.path)
    numbered = enumerate(items if isinstance(items, list) else [], start=1)
    return [
        Round(facts, (one,), rulebook, {each.variable: (one, f"{each.path}[{position}]")})
        for position, one in numbered
        if item in (None, position)
    ]


def outcome(proved: Proved, attempt: Attempt | None, one: Round) -> object:
    """Return what a rule, quantity or part comes to, with a mutant in it or without.

    Args:
        proved: What is asked.
        attempt: The mutant that takes the place of one of its expressions, or None.
        one: The job and item it is asked of.
    """
    functions = dict(_functions(proved))
    if attempt is not None:
        functions[attempt.key] = attempt.function
    if "formula" in functions:
        return one.value(functions["formula"])
    if "applies" in functions:
        applies = one.value(functions["applies"])
        if applies is not True:
            return "not applicable" if applies is False else None
        return one.value(functions["requires"])
    needed = one.value(functions["needed"])
    if needed is not True:
        return needed
    with_unit = one.value(functions["with_unit"])
    return "with the unit" if with_unit else (with_unit, one.value(functions["number"]))


def asked(proved: Proved, attempt: Attempt | None, one: Round) -> frozenset[str]:
    """Return the facts that a rule or quantity asks for, with a mutant in it or without.

    Args:
        proved: What is asked; a part of the order list names none.
        attempt: The mutant that takes the place of one of its expressions, or None.
        one: The job and item it is asked of.
    """
    if isinstance(proved, Provision):
        return frozenset()
    explainer = one.rulebook.explainer(one.facts)
    needs: frozenset[str] = frozenset()
    for key, written, _ in expressions(proved):
        root = attempt.mutant.root if attempt and attempt.key == key else written
        step = explainer.explain(root, one.bound)
        needs |= step.needs
        if step.value is not True:
            break
    return needs


def _functions(proved: Proved) -> Mapping[str, Function]:
    match proved:
        case Rule():
            return {"applies": proved.applies_where, "requires": proved.is_met}
        case DerivedQuantity():
            return {"formula": proved.calculate}
        case _:
            return {
                "needed": proved.needed_where,
                "with_unit": proved.is_with_unit,
                "number": proved.amount,
            }


def _attempted(proved: Proved) -> Iterator[Attempt]:
    variables = {}
    if not isinstance(proved, Provision) and proved.each is not None:
        variables = {proved.each.variable: proved.each.path}
    for key, root, written in expressions(proved):
        for mutant in mutants(root, written):
            yield Attempt(key, mutant, compile_function(mutant.root, variables))


def expressions(proved: Proved) -> Iterator[tuple[str, t.Node, str]]:
    """Give each expression that was written: its key, checked tree and text."""
    match proved:
        case Rule():
            if not isinstance(proved.asked_where, t.Constant):
                yield "applies", proved.asked_where, proved.written["applies"]
            yield "requires", proved.requires, proved.written["requires"]
        case DerivedQuantity():
            yield "formula", proved.formula.root, proved.written
        case Provision():
            for key, root in (
                ("needed", proved.asked_where),
                ("with_unit", proved.with_unit),
                ("number", proved.number),
            ):
                if not isinstance(root, t.Constant):
                    yield key, root, proved.written[key]


def _place(proved: Proved, key: str) -> str:
    at = () if isinstance(proved, Rule) else (proved.name.replace(" ", "-"),)
    line, _ = proved.source.places.of((*at, key))
    return f"{proved.source.file.name}:{line}"
