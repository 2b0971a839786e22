"""Trying mutants: which of them no case of a rule, quantity or part notices."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from tundish.job.facts import Facts
from tundish.language import tree as t
from tundish.language.compiled import compile_function
from tundish.language.session import Function, Session, TooManySteps
from tundish.rulebook.mutants import Mutant, is_same, mutants
from tundish.rulebook.proving import facts_of
from tundish.rulebook.provision import Provision
from tundish.rulebook.rule import Case, DerivedQuantity, Each, Rule
from tundish.rulebook.rulebook import Rulebook

Proved = Rule | DerivedQuantity | Provision


@dataclass(frozen=True, slots=True)
class Survivor:
    """A mutant that no case notices.

    Attributes:
        key: The key of the file whose expression was changed.
        change: What was put wrong in it.
        because: Why it makes no difference, as the file says; "" where it says nothing.
        place: ``file:line`` of the expression.
    """

    key: str
    change: str
    because: str
    place: str


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
    rounds = list(_rounds(proved, rulebook))
    tried, survivors = 0, []
    excuses = dict(proved.unnoticed)
    for key, root, written in _expressions(proved):
        for mutant in mutants(root, written):
            tried += 1
            if not _is_noticed(proved, key, mutant, rounds):
                because = excuses.get(f"{key}: {mutant.change}", "")
                survivors.append(Survivor(key, mutant.change, because, _place(proved, key)))
    kind = {Rule: "rule", DerivedQuantity: "quantity", Provision: "part"}[type(proved)]
    found = {f"{one.key}: {one.change}" for one in survivors}
    idle = tuple(excuse for excuse in excuses if excuse not in found)
    return Trial(proved.name, kind, tried, tuple(survivors), idle)


@dataclass(frozen=True, slots=True)
class _Round:
    """One case made ready: its facts and item, and what the expressions come to."""

    facts: Facts
    item: tuple[Mapping[str, object], ...]
    rulebook: Rulebook

    def value(self, function: Function) -> object:
        session: Session = self.rulebook.session(self.facts.values)
        try:
            return function(self.facts.values, session, *self.item)
        except TooManySteps:
            return None


def _rounds(proved: Proved, rulebook: Rulebook) -> Iterator[_Round]:
    each = None if isinstance(proved, Provision) else proved.each
    for case in proved.cases:
        facts = facts_of(case)
        if isinstance(facts, Facts):
            for item in _items(each, case, facts):
                yield _Round(facts, item, rulebook)


def _items(
    each: Each | None, case: Case, facts: Facts
) -> Iterator[tuple[Mapping[str, object], ...]]:
    """Give the items a case is about: the one it names, or all there are."""
    if each is None:
        yield ()
        return
    items = facts.values.get(each.path)
    for position, item in enumerate(items if isinstance(items, list) else [], start=1):
        if case.item in (None, position):
            yield (item,)


def _expressions(proved: Proved) -> Iterator[tuple[str, t.Node, str]]:
    """Give each expression with its key; one that was not written is not put wrong."""
    match proved:
        case Rule():
            if not isinstance(proved.asked_where, t.Constant):
                yield "applies", proved.asked_where, proved.written["applies"]
            yield "requires", proved.requires, proved.written["requires"]
        case DerivedQuantity():
            yield "formula", proved.formula.root, proved.written
        case Provision():
            yield "needed", proved.asked_where, proved.written["needed"]
            yield "with_unit", proved.with_unit, proved.written["with_unit"]
            yield "number", proved.number, proved.written["number"]


def _is_noticed(proved: Proved, key: str, mutant: Mutant, rounds: Sequence[_Round]) -> bool:
    variables = {}
    if not isinstance(proved, Provision) and proved.each is not None:
        variables = {proved.each.variable: proved.each.path}
    function = compile_function(mutant.root, variables)
    return any(not is_same(*_outcomes(proved, key, function, one)) for one in rounds)


def _outcomes(proved: Proved, key: str, function: Function, one: _Round) -> tuple[object, object]:
    """Return what a case comes to, and what it would with the mutant."""
    match proved:
        case Rule() if key == "applies":
            met = one.value(proved.is_met)
            before, after = one.value(proved.applies_where), one.value(function)
            return _verdict(before, met), _verdict(after, met)
        case Rule():
            applies = one.value(proved.applies_where)
            return (
                _verdict(applies, one.value(proved.is_met)),
                _verdict(applies, one.value(function)),
            )
        case DerivedQuantity():
            return one.value(proved.calculate), one.value(function)
        case _:
            return _need(proved, key, function, one)


def _verdict(applies: object, met: object) -> object:
    if applies is False:
        return "not applicable"
    return None if applies is None or met is None else met


def _need(proved: Provision, key: str, function: Function, one: _Round) -> tuple[object, object]:
    now = {
        "needed": proved.needed_where,
        "with_unit": proved.is_with_unit,
        "number": proved.amount,
    }
    return _needed(one, now), _needed(one, {**now, key: function})


def _needed(one: _Round, functions: Mapping[str, Function]) -> object:
    needed = one.value(functions["needed"])
    if needed is not True:
        return needed
    with_unit = one.value(functions["with_unit"])
    return "with the unit" if with_unit else (with_unit, one.value(functions["number"]))


def _place(proved: Proved, key: str) -> str:
    at = {Rule: (), DerivedQuantity: (proved.name,)}.get(
        type(proved), (proved.name.replace(" ", "-"),)
    )
    line, _ = proved.source.places.of((*at, key))
    return f"{proved.source.file.name}:{line}"
