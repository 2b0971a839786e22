"""What a case of a rule, quantity or part comes to, and how that is not what the case says."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import Facts
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.step import Step
from tundish.language.evaluate.strict_operations import possible
from tundish.language.tree.tree import Within
from tundish.rulebook.evaluate.completions import Completions
from tundish.rulebook.evaluate.judge import Judgement, Verdict, explain_judgement, judge
from tundish.rulebook.evaluate.provisions import Need, ask, explain_provision
from tundish.rulebook.model.asked import Asked
from tundish.rulebook.model.constraint import Constraint
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.model.rule import DerivedQuantity, Rule
from tundish.rulebook.prove.case_run import Proved, names_country, rulebook_for, runs_on
from tundish.rulebook.prove.reasons import Wording, misnamed, other_outcome, what_is_open
from tundish.rulebook.rulebook import Rulebook
from tundish.units.format import show
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError

_TOO_MANY_STEPS = "It takes more steps over these lists than it may."
_WORST_FIRST = (Verdict.BREACHED, Verdict.UNDECIDED, Verdict.MET, Verdict.NOT_APPLICABLE)

_POSSIBLE = {
    Verdict.MET: "possible",
    Verdict.NOT_APPLICABLE: "possible",
    Verdict.BREACHED: "impossible",
    Verdict.UNDECIDED: "undecided",
}
"""What comes of a constraint, by what would come of a rule of the same conditions."""

_Steps = tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class _Result:
    """What a case came to.

    Attributes:
        fault: A sentence on how that is not what the case says; empty where it is.
        explain: Gives the steps of all that was looked at.
        numbers: Says with its numbers what decides it, given those steps; "" if nothing does.
        is_open: Whether it came out undecided or unknown.
        needs: Facts that would decide it, beside those that the steps need.
        obstacles: What stands in the way, beside what the steps tell.
        names_unknown: Whether the unknown facts that the case states are compared.
    """

    fault: str
    explain: Callable[[], _Steps] = tuple
    numbers: Callable[[_Steps], str] = lambda _: ""
    is_open: bool = False
    needs: Iterable[str] = ()
    obstacles: Iterable[str] = ()
    names_unknown: bool = True


def case_fault(
    proved: Proved, case: Case, facts: Facts, rulebook: Rulebook, wording: Wording
) -> str:
    """Say how a case fails, or nothing where it holds.

    Args:
        proved: The rule, quantity or part that it is a case of.
        case: The case.
        facts: Its facts.
        rulebook: The rulebook.
        wording: Puts the numbers of what came out into words.
    """
    rulebook = rulebook_for(facts, rulebook)
    try:
        match proved:
            case Constraint():
                result = _of_rule(proved, case, facts, rulebook, wording)
            case Rule():
                proved = proved if names_country(facts) else proved.as_written
                result = _of_rule(proved, case, facts, rulebook, wording)
            case DerivedQuantity():
                result = _of_quantity(proved.as_written, case, facts, rulebook, wording)
            case _:
                result = _of_provision(proved, case, facts, rulebook, wording)
    except TooManySteps:
        return _TOO_MANY_STEPS
    if not result.fault and (case.unknown is None or not result.names_unknown):
        return ""
    try:
        steps = result.explain()
    except TooManySteps:
        return result.fault or _TOO_MANY_STEPS
    needs = frozenset(result.needs).union(*(step.needs for step in steps))
    obstacles = frozenset(result.obstacles).union(*(step.obstacles for step in steps))
    if not result.fault:
        return misnamed(needs, case.unknown or frozenset(), obstacles)
    why = what_is_open(needs, obstacles) if result.is_open else ""
    why = why or result.numbers(steps)
    # A formula of a single fact or constant has no other numbers to show.
    if not why or why in result.fault:
        return result.fault
    return f"{result.fault.removesuffix('.')}: {why}."


# -- rules --------------------------------------------------------------------------------------


def _of_rule(
    rule: Asked, case: Case, facts: Facts, rulebook: Rulebook, wording: Wording
) -> _Result:
    if rule.each is None and case.item is not None:
        return _Result("The rule looks at no list ('each'), so that its case has no 'item'.")
    judged = judge(rule, facts, rulebook.session(facts.values))
    if isinstance(rule, Rule):
        judged = iter(Completions(facts, rulebook).judged(judged))
    judgement = _chosen(list(judged), case.item)
    if judgement is None:
        where = f" of {rule.each.path}" if rule.each else ""
        return _Result(f"There is no item {case.item}{where}.")
    stated = str(case.outcome)

    def explain() -> _Steps:
        is_of_no_item = rule.each is not None and judgement.position is None
        if judgement.open_list or judgement.obstacle or is_of_no_item:
            return ()
        applies, requires = explain_judgement(rule, judgement, facts, rulebook.explainer(facts))
        return (applies,) if requires is None else (applies, requires)

    def numbers(steps: _Steps) -> str:
        if not steps:
            return f"there is nothing in {rule.each.path}" if rule.each else ""
        # If the case expects "not applicable", the reason is in `applies`.
        decisive = steps[0] if stated == Verdict.NOT_APPLICABLE else steps[-1]
        statement = wording.statement(decisive, facts)
        return f"{judgement.item}: {statement}" if judgement.item and statement else statement

    came = _POSSIBLE[judgement.verdict] if isinstance(rule, Constraint) else judgement.verdict
    return _Result(
        other_outcome(came, stated),
        explain,
        numbers,
        judgement.verdict is Verdict.UNDECIDED,
        [judgement.open_list] if judgement.open_list else [],
        [judgement.obstacle] if judgement.obstacle else [],
    )


def _chosen(judgements: list[Judgement], item: int | None) -> Judgement | None:
    """Return the judgement of the item meant, else the worst."""
    if item is not None:
        return next((judgement for judgement in judgements if judgement.position == item), None)
    return min(judgements, key=lambda judgement: _WORST_FIRST.index(judgement.verdict))


# -- quantities ---------------------------------------------------------------------------------


def _of_quantity(
    quantity: DerivedQuantity, case: Case, facts: Facts, rulebook: Rulebook, wording: Wording
) -> _Result:
    position = case.item or 1
    run = next(iter(runs_on(facts, quantity, position, rulebook)), None)
    if run is None:
        where = f" of {quantity.each.path}" if quantity.each else ""
        return _Result(f"There is no item {position}{where}.")
    value = run.calculate(quantity.calculate)
    fault = _value_fault(quantity, case, value)
    if fault and not fault.startswith(_COMES_OUT):
        return _Result(fault)
    root, bindings = quantity.formula.root, run.bindings
    return _Result(
        fault,
        lambda: (rulebook.explainer(facts).explain(root, bindings),),
        lambda steps: "" if value is None else wording.numbers(steps[0], facts),
        is_open=value is None,
    )


_COMES_OUT = "It comes out "


def _value_fault(quantity: DerivedQuantity, case: Case, value: object) -> str:
    expected: object = case.value
    if expected is not None and quantity.unit is not None:
        try:
            expected = parse_quantity(_with_unit(str(case.value), quantity))
        except MeasureError as error:
            return str(error)
        if expected.dimension != quantity.kind.dimension:
            return f"{expected} is not {quantity.kind}."
        root = quantity.as_written.formula.root
        while isinstance(root, Within):
            if not root.accepts(expected.si):
                return f"{expected} cannot be: {possible(root, expected.si)}."
            root = root.operand
        if value is None:
            return f"{_COMES_OUT}{_shown(quantity, value)}, not {expected}."
        assert isinstance(value, float)
        # The tolerance of a temperature is a share of its distance from 0 degC, not from 0 K.
        scale = abs(expected.si - float(quantity.unit.zero)) or 1.0
        if abs(value - expected.si) <= case.within * scale:
            return ""
        stated = str(expected)
    elif value == expected:
        return ""
    else:
        stated = _shown(quantity, expected)
    return f"{_COMES_OUT}{_shown(quantity, value)}, not {stated}."


def _with_unit(written: str, quantity: DerivedQuantity) -> str:
    """Give the value of a plain number, such as a count, the unit that nobody writes."""
    bare = quantity.kind.dimension.is_number and written[-1:].isdigit()
    return f"{written} 1" if bare else written


def _shown(quantity: DerivedQuantity, value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float) and quantity.unit is not None:
        return show(value, quantity.unit, digits=8)
    return "unknown" if value is None else repr(value)


# -- parts --------------------------------------------------------------------------------------


def _of_provision(
    provision: Provision, case: Case, facts: Facts, rulebook: Rulebook, wording: Wording
) -> _Result:
    answer = ask(provision, rulebook.session(facts.values))
    is_counted = answer.need is Need.NEEDED and case.value is not None
    fault = other_outcome(answer.need, str(case.outcome))
    is_amount = not fault and is_counted
    if is_amount:
        fault = _amount_fault(provision, case, answer.amount)

    def numbers(steps: _Steps) -> str:
        if is_amount:
            return wording.numbers(steps[-1], facts)
        if answer.need is Need.NOT_NEEDED and steps[0].value is True:
            number = wording.numbers(steps[-1], facts)
            return f"its number is {number}" if number else ""
        decisive = steps[1] if answer.need is Need.WITH_UNIT else steps[0]
        return wording.statement(decisive, facts)

    return _Result(
        fault,
        lambda: explain_provision(provision, rulebook.explainer(facts)),
        numbers,
        is_open=answer.need is Need.UNDECIDED,
        names_unknown=not is_counted,
    )


def _amount_fault(provision: Provision, case: Case, amount: float | None) -> str:
    written = str(case.value)
    try:
        number = written.isdecimal() and provision.unit.dimension.is_number
        expected = parse_quantity(f"{written} 1" if number else written)
    except MeasureError as error:
        return str(error)
    if amount is not None and expected.dimension == provision.unit.dimension:
        if abs(amount - expected.si) <= case.within * abs(expected.si):
            return ""
        return f"{_COMES_OUT}{show(amount, provision.unit)}, not {expected}."
    return f"{expected} is no amount in {provision.unit.symbol}."
