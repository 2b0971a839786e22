"""Whether compiled, fused, explained and columnar form agree, on expressions and jobs by chance."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from random import Random
from typing import Any

from fuzzing.expressions import an_expression
from fuzzing.facts import as_world, more_facts, some_facts, without_the_absent
from language.world import (
    FACTS,
    FORMULAS,
    QUANTITIES,
    ROWS,
    SCOPE,
    TABLES,
    World,
    by_columns,
    computed,
    started,
)
from tundish.language.check.checker import check_expression
from tundish.language.codegen.common_subexpressions import Conditions
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.environment import Binding, groups_around
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.fused import Answers, compile_fused, load_fused
from tundish.language.evaluate.session import Function, Item
from tundish.language.syntax.problem import ExpressionError
from tundish.language.tree.tree import Node, part_of_job

LIST = "water.run"
VARIABLE = "run"
ANSWERS = Answers("met", "breached", "undecided", "not applicable")
# Each behind all it is made of, as the world is declared in that order.
NEEDED = {key: (FORMULAS[key].root, QUANTITIES[key][2]) for key in QUANTITIES}
_ITEMS = [path for path in FACTS if FACTS[path].kind.name == "items"]
VARYING = [
    path
    for path in FACTS
    if path not in _ITEMS and not any(path.startswith(f"{items}.") for items in _ITEMS)
]
RULES, RULES_OF_ITEMS, JOBS = 4, 2, 60
NOT_LEARNING = ("known(", "assume(")
"""A decided verdict may change when something is learnt only where one of these asks for it."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A rule in its two conditions, as written, as trees and compiled."""

    written: tuple[str, str]
    roots: tuple[Node, Node]
    calculate: tuple[Function, Function]
    of_items: bool


@dataclass(frozen=True, slots=True)
class Disagreement:
    """A rule and a job of which two forms say different things."""

    rule: tuple[str, str]
    facts: dict[str, Any]
    found: dict[str, Any]

    def __str__(self) -> str:
        """Return all of it, for a test to be made of it."""
        return f"rule: {self.rule}\nfacts: {self.facts}\nfound: {self.found}\n"


def rounds(chance: Random) -> Iterator[tuple[int, list[Disagreement]]]:
    """Give, round by round, how many pairs of rule and job were looked at and what was found."""
    while True:
        rules = [
            *(_a_rule(chance, of_items=False) for _ in range(RULES)),
            *(_a_rule(chance, of_items=True) for _ in range(RULES_OF_ITEMS)),
        ]
        yield JOBS * len(rules), list(_disagreements(chance, rules, JOBS))


def _a_rule(chance: Random, of_items: bool) -> Asked:
    lists = {VARIABLE: LIST} if of_items else {}
    while True:
        depth = chance.choice((1, 2, 3, 3, 4))
        written = (
            chance.choice(("true", "f", an_expression(chance, "truth", 2, lists))),
            an_expression(chance, "truth", depth, lists),
        )
        try:
            applies, requires = (check_expression(one, SCOPE, lists) for one in written)
        except ExpressionError:  # by chance some pass a bound, or compare words that never meet
            continue
        calculate = compile_function(applies, lists), compile_function(requires, lists)
        return Asked(written, (applies, requires), calculate, of_items)


def _disagreements(chance: Random, rules: list[Asked], jobs: int) -> Iterator[Disagreement]:
    code = compile_fused(
        [Conditions(*rule.roots, *((VARIABLE, LIST) if rule.of_items else ())) for rule in rules],
        NEEDED,
        chance.choice(({}, {LIST: False}, {LIST: True})),  # lists counted before, or as they come
    )
    function = load_fused(code, ANSWERS, started)
    worlds = [as_world(some_facts(chance)) for _ in range(jobs)]
    yield from _by_columns(rules, worlds)
    for facts in worlds:
        _, by_fused = function(facts.values, ROWS)
        learnt = as_world(more_facts(chance, facts.values))
        for rule, fused in zip(rules, by_fused, strict=True):
            found = {
                "compiled": _told(_compiled, rule, facts),
                "fused": fused,
                "explained": _told(_explained, rule, facts),
            }
            # Of an unknown list a rule may be left to be judged by itself.
            is_deferred = fused is None and rule.of_items and LIST not in facts.values
            if found["explained"] != found["compiled"] or (
                fused != found["compiled"] and not is_deferred
            ):
                yield Disagreement(rule.written, facts.values, found)
            if not any(word in text for text in rule.written for word in NOT_LEARNING):
                later = _compiled(rule, learnt)
                if not _only_learnt(found["compiled"], later):
                    told = {"before": found["compiled"], "later": later, "of": learnt.values}
                    yield Disagreement(rule.written, facts.values, told)


def _by_columns(rules: list[Asked], worlds: list[World]) -> Iterator[Disagreement]:
    """Hold rules of the whole job by columns against the compiled form, job by job.

    Lists are those of the first job in all, as they are of the base job in a table of jobs.
    """
    lists = _lists_in(worlds[0])
    alike = [as_world(without_the_absent({**_varied(one), **lists})) for one in worlds]
    alike = [one for one in alike if _lists_in(one) == lists] or [worlds[0]]
    for rule in rules:
        if rule.of_items:
            continue
        columns = [by_columns(root, alike, VARYING) for root in rule.roots]
        for facts, applies, requires in zip(alike, *columns, strict=True):
            found = _answer(partial(_same, applies), partial(_same, requires))
            compiled = _compiled(rule, facts)
            if found != compiled:
                told = {"columnar": found, "compiled": compiled}
                yield Disagreement(rule.written, facts.values, told)


def _varied(facts: World) -> dict[str, Any]:
    return {path: fact for path, fact in facts.values.items() if not isinstance(fact, list)}


def _lists_in(facts: World) -> dict[str, Any]:
    return {path: fact for path, fact in facts.values.items() if isinstance(fact, list)}


def _same(value: Any) -> Any:
    return value


def _told(form: Callable[[Asked, World], Any], rule: Asked, facts: World) -> Any:
    try:
        return form(rule, facts)
    except Exception as error:  # whatever a form raises is no verdict
        return repr(error)


def _only_learnt(before: Any, later: Any) -> bool:
    """Say whether no verdict that was decided is another later."""
    if isinstance(before, tuple):
        return all(map(_only_learnt, before, later))
    if isinstance(later, tuple):  # its list has become known
        return all(_only_learnt(before, verdict) for verdict in later)
    return before in (later, "undecided", None)


def _compiled(rule: Asked, facts: World) -> Any:
    session = started(facts.values)

    def answer(*item: Item) -> str:
        return _answer(*(partial(one, facts.values, session, *item) for one in rule.calculate))

    if not rule.of_items:
        return answer()
    items = facts.values.get(LIST)
    if items is None:
        return _of_unknown_list(computed(part_of_job(rule.roots[0], (VARIABLE,)), facts), facts)
    return tuple(answer(item) for item in items)


def _explained(rule: Asked, facts: World) -> Any:
    explainer = Explainer(facts, FORMULAS, TABLES)

    def answer(bindings: dict[str, Binding]) -> str:
        return _answer(*(partial(_value, explainer, root, bindings) for root in rule.roots))

    if not rule.of_items:
        return answer({})
    items = facts.values.get(LIST)
    if items is None:
        of_job = explainer.explain(part_of_job(rule.roots[0], (VARIABLE,))).value
        return _of_unknown_list(of_job, facts)
    named = ((item, f"{LIST}[{at}]") for at, item in enumerate(items, start=1))
    return tuple(answer({VARIABLE: binding}) for binding in named)


def _of_unknown_list(of_job: Any, facts: World) -> str:
    """Return what a rule of items comes to whose list is not known.

    Args:
        of_job: What the rule asks of the whole job.
        facts: The facts.
    """
    is_absent = any(facts.values.get(group) is False for group in groups_around(LIST))
    return "not applicable" if of_job is False or is_absent else "undecided"


def _value(explainer: Explainer, root: Node, bindings: dict[str, Binding]) -> Any:
    step = explainer.explain(root, bindings)
    wanting = bool(step.needs or step.obstacles)
    assert (step.value is None) == wanting, "undecided without saying what is wanting, or decided"
    return step.value


def _answer(applies: Any, requires: Any) -> str:
    asked = applies()
    if asked is not True:
        return "undecided" if asked is None else "not applicable"
    met = requires()
    return "undecided" if met is None else "met" if met else "breached"
