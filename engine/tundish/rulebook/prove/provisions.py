"""Proving provisions: every part run on its own cases."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.job.facts import Facts
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.session import TooManySteps
from tundish.language.evaluate.step import Step
from tundish.rulebook.evaluate.provisions import Need, Provided, ask
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.provision import Provision
from tundish.rulebook.prove.reasons import (
    TOO_MANY_STEPS,
    Wording,
    misnamed,
    other_outcome,
    what_is_open,
)
from tundish.rulebook.rulebook import Rulebook
from tundish.units.format import show
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError

MUST_HAVE = ("needed", "not needed", "undecided")
"""Outcomes that a part must be shown with."""


def provision_fault(
    provision: Provision, case: Case, facts: Facts, rulebook: Rulebook, wording: Wording
) -> str:
    """Say how a case of a part fails, or nothing where it holds."""
    provided = ask(provision, rulebook.session(facts.values))
    is_other = provided.need != case.outcome
    is_counted = provided.need is Need.NEEDED and case.value is not None
    fault = _amount_fault(provision, case, provided.amount) if is_counted else ""
    if not is_other and not fault and (is_counted or case.unknown is None):
        return ""
    try:
        steps = _steps(provision, rulebook.explainer(facts))
    except TooManySteps:
        return other_outcome(provided.need, str(case.outcome)) if is_other else TOO_MANY_STEPS
    if not is_other and fault:
        said = wording.numbers(steps[-1], facts)
        return f"{fault.removesuffix('.')}: {said}." if said not in fault else fault
    needs = frozenset[str]().union(*(step.needs for step in steps))
    obstacles = frozenset[str]().union(*(step.obstacles for step in steps))
    if not is_other:
        return misnamed(needs, case.unknown or frozenset(), obstacles)
    why = what_is_open(needs, obstacles) if provided.need is Need.UNDECIDED else ""
    return other_outcome(
        provided.need, str(case.outcome), why or _why(steps, provided, facts, wording)
    )


def _why(steps: Sequence[Step], provided: Provided, facts: Facts, wording: Wording) -> str:
    """Say what decides whether a part is needed, with the numbers put in."""
    match provided.need:
        case Need.NOT_NEEDED if steps[0].value is True:
            number = wording.numbers(steps[-1], facts)
            return f"its number is {number}" if number else ""
        case Need.WITH_UNIT:
            return wording.statement(steps[1], facts)
        case _:
            return wording.statement(steps[0], facts)


def _steps(provision: Provision, explainer: Explainer) -> tuple[Step, ...]:
    """Return the steps of what is asked of a part: whether, whether with the unit, how many."""
    needed = explainer.explain(provision.needed, {})
    if needed.value is not True:
        return (needed,)
    with_unit = explainer.explain(provision.with_unit, {})
    if with_unit.value is True:
        return (needed, with_unit)
    return (needed, with_unit, explainer.explain(provision.number, {}))


def needs_of(provision: Provision, explainer: Explainer) -> frozenset[str]:
    """Return the unknown facts that would decide whether, and how much of, a part is needed."""
    return frozenset[str]().union(*(step.needs for step in _steps(provision, explainer)))


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
        return f"It comes out {show(amount, provision.unit)}, not {expected}."
    return f"{expected} is no amount in {provision.unit.symbol}."
