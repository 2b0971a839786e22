"""Proving: every rule and quantity run on its own cases."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.language.explained import Explainer
from tundish.language.session import TooManySteps
from tundish.measure.quantity import parse_quantity
from tundish.measure.showing import show
from tundish.measure.unit import MeasureError
from tundish.reading.problem import Refused
from tundish.rulebook.judging import Judgement, Verdict, explain_judgement, judge
from tundish.rulebook.proving_provisions import MUST_HAVE, provision_fault
from tundish.rulebook.provision import Provision
from tundish.rulebook.rule import Case, DerivedQuantity, Rule
from tundish.rulebook.rulebook import Rulebook

_WORST_FIRST = (Verdict.BREACHED, Verdict.UNDECIDED, Verdict.MET, Verdict.NOT_APPLICABLE)
_MUST_HAVE = ("met", "breached", "undecided")


@dataclass(frozen=True, slots=True)
class Failure:
    """A case that does not hold, or one that is missing.

    Attributes:
        case: Its number from 1; 0 where a case is missing.
        why: What the case was to show.
        sentence: What came out instead.
        place: ``file:line`` of the case.
    """

    case: int
    why: str
    sentence: str
    place: str


@dataclass(frozen=True, slots=True)
class Proof:
    """A rule, quantity or part to be ordered, with the cases it does not stand up to."""

    name: str
    kind: Literal["rule", "quantity", "part"]
    cases: int
    failures: tuple[Failure, ...]


def prove(rulebook: Rulebook) -> Iterator[Proof]:
    """Run all cases of a rulebook.

    A case's facts pass the same job model as a real job, so that no rule is proved on an
    impossible one.

    Yields:
        A proof for each quantity, each rule and each part to be ordered.
    """
    for quantity in rulebook.quantities.values():
        yield _proof_of_quantity(quantity, rulebook)
    for rule in rulebook.rules.values():
        yield _proof_of_rule(rule, rulebook)
    for provision in rulebook.provisions.values():
        yield _proof_of_provision(provision, rulebook)


def _proof_of_rule(rule: Rule, rulebook: Rulebook) -> Proof:
    failures = []
    for number, case in enumerate(rule.cases, start=1):
        sentence = _rule_fault(rule, case, rulebook)
        if sentence:
            failures.append(_failure(rule, number, case, sentence))
    outcomes = {case.outcome for case in rule.cases}
    for missing in _MUST_HAVE:
        if missing not in outcomes:
            failures.append(Failure(0, "", f"No case shows it {missing}.", rule.source.file.name))
    return Proof(rule.name, "rule", len(rule.cases), tuple(failures))


def _proof_of_quantity(quantity: DerivedQuantity, rulebook: Rulebook) -> Proof:
    failures = []
    for number, case in enumerate(quantity.cases, start=1):
        sentence = _quantity_fault(quantity, case, rulebook)
        if sentence:
            failures.append(_failure(quantity, number, case, sentence))
    if not quantity.cases:
        failures.append(Failure(0, "", "It has no case.", quantity.source.file.name))
    return Proof(quantity.name, "quantity", len(quantity.cases), tuple(failures))


def _proof_of_provision(provision: Provision, rulebook: Rulebook) -> Proof:
    failures = []
    for number, case in enumerate(provision.cases, start=1):
        facts = facts_of(case, rulebook)
        fault = facts if isinstance(facts, str) else ""
        if not isinstance(facts, str):
            fault = provision_fault(provision, case, facts, rulebook)
        if fault:
            failures.append(_failure(provision, number, case, fault))
    outcomes = {case.outcome for case in provision.cases}
    for missing in MUST_HAVE:
        if missing not in outcomes:
            sentence = f"No case shows it {missing}."
            failures.append(Failure(0, "", sentence, provision.source.file.name))
    return Proof(provision.name, "part", len(provision.cases), tuple(failures))


def _failure(
    proved: Rule | DerivedQuantity | Provision, number: int, case: Case, sentence: str
) -> Failure:
    at = () if isinstance(proved, Rule) else (proved.name.replace(" ", "-"),)
    line, _ = proved.source.places.of((*at, "case", number - 1))
    return Failure(number, case.why, sentence, f"{proved.source.file.name}:{line}")


def facts_of(case: Case, rulebook: Rulebook) -> Facts | str:
    """Return a case's facts, or why they are no possible job."""
    try:
        return rulebook.facts(Job.from_data(dict(case.given)))
    except Refused as refused:
        return "Its facts are refused: " + " ".join(each.sentence for each in refused.problems)


def _rule_fault(rule: Rule, case: Case, rulebook: Rulebook) -> str:
    """Say how a case fails, or nothing where it holds."""
    facts = facts_of(case, rulebook)
    if isinstance(facts, str):
        return facts
    judgements = list(judge(rule, facts, rulebook.session(facts.values)))
    explainer = rulebook.explainer(facts)
    judgement = _chosen(judgements, case.item)
    if judgement is None:
        return f"There is no item {case.item}."
    if judgement.verdict != case.outcome:
        return f"It comes out {judgement.verdict}, not {case.outcome}."
    if case.unknown is None:
        return ""
    try:
        return _misnamed(_needs(judgement, facts, explainer), case.unknown)
    except TooManySteps:
        return "It takes more steps over these lists than it may."


def _chosen(judgements: list[Judgement], item: int | None) -> Judgement | None:
    """Return the judgement of the item meant, else the worst."""
    if item is not None:
        return next((each for each in judgements if each.position == item), None)
    return min(judgements, key=lambda each: _WORST_FIRST.index(each.verdict))


def _needs(judgement: Judgement, facts: Facts, explainer: Explainer) -> frozenset[str]:
    if judgement.open_list:
        return frozenset((judgement.open_list,))
    if judgement.obstacle or (judgement.rule.each is not None and judgement.position is None):
        return frozenset()
    applies, requires = explain_judgement(judgement, facts, explainer)
    return applies.needs | (requires.needs if requires else frozenset())


def _misnamed(needs: frozenset[str], expected: frozenset[str]) -> str:
    if needs == expected:
        return ""
    names = ", ".join(sorted(needs)) or "nothing"
    return f"It names as unknown {names}, not {', '.join(sorted(expected)) or 'nothing'}."


def _quantity_fault(quantity: DerivedQuantity, case: Case, rulebook: Rulebook) -> str:
    """Say how a case fails, or nothing where it holds."""
    facts = facts_of(case, rulebook)
    if isinstance(facts, str):
        return facts
    explainer = rulebook.explainer(facts)
    bindings = {}
    arguments: tuple[Mapping[str, object], ...] = ()
    if quantity.each is not None:
        items = facts.values.get(quantity.each.path)
        position = case.item or 1
        if not isinstance(items, list) or len(items) < position:
            return f"There is no item {position} of {quantity.each.path}."
        item = items[position - 1]
        bindings = {quantity.each.variable: (item, f"{quantity.each.path}[{position}]")}
        arguments = (item,)
    session = rulebook.session(facts.values)
    try:
        value = quantity.calculate(facts.values, session, *arguments)
        fault = _value_fault(quantity, case, value)
        if fault or case.unknown is None:
            return fault
        return _misnamed(explainer.explain(quantity.formula.root, bindings).needs, case.unknown)
    except TooManySteps:
        return "It takes more steps over these lists than it may."


def _value_fault(quantity: DerivedQuantity, case: Case, value: object) -> str:
    if value is None or case.value is None:
        return "" if value == case.value else f"It comes out {_shown(quantity, value)}."
    if quantity.unit is None:
        return "" if value == case.value else f"It comes out {value!r}, not {case.value!r}."
    try:
        expected = parse_quantity(_with_unit(str(case.value), quantity))
    except MeasureError as error:
        return str(error)
    if expected.dimension != quantity.kind.dimension:
        return f"{expected} is not {quantity.kind}."
    assert isinstance(value, float)
    # The tolerance of a temperature is a share of its distance from 0 degC, not from 0 K.
    scale = abs(expected.si - float(quantity.unit.zero)) or 1.0
    if abs(value - expected.si) <= case.within * scale:
        return ""
    return f"It comes out {_shown(quantity, value)}, not {expected}."


def _with_unit(written: str, quantity: DerivedQuantity) -> str:
    """Give the value of a plain number, such as a count, the unit that nobody writes."""
    bare = quantity.kind.dimension.is_number and written[-1:].isdigit()
    return f"{written} 1" if bare else written


def _shown(quantity: DerivedQuantity, value: object) -> str:
    if isinstance(value, float) and quantity.unit is not None:
        return show(value, quantity.unit, digits=8)
    return "unknown" if value is None else repr(value)
