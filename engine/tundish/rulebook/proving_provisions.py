"""Proving provisions: every part run on its own cases."""

from __future__ import annotations

from tundish.job.facts import Facts
from tundish.language.explained import Explainer
from tundish.language.session import TooManySteps
from tundish.measure.quantity import parse_quantity
from tundish.measure.showing import show
from tundish.measure.unit import MeasureError
from tundish.rulebook.providing import Need, ask
from tundish.rulebook.provision import Provision
from tundish.rulebook.rule import Case
from tundish.rulebook.rulebook import Rulebook

MUST_HAVE = ("needed", "not needed", "undecided")
"""Outcomes that a part must be shown with."""


def provision_fault(provision: Provision, case: Case, facts: Facts, rulebook: Rulebook) -> str:
    """Say how a case of a part fails, or nothing where it holds."""
    provided = ask(provision, rulebook.session(facts.values))
    if provided.need != case.outcome:
        return f"It comes out {provided.need}, not {case.outcome}."
    if provided.need is Need.NEEDED and case.value is not None:
        return _amount_fault(provision, str(case.value), provided.amount, case.within)
    if case.unknown is None:
        return ""
    try:
        needs = needs_of(provision, rulebook.explainer(facts))
    except TooManySteps:
        return "It takes more steps over these lists than it may."
    if needs == case.unknown:
        return ""
    named, expected = (", ".join(sorted(each)) or "nothing" for each in (needs, case.unknown))
    return f"It names as unknown {named}, not {expected}."


def needs_of(provision: Provision, explainer: Explainer) -> frozenset[str]:
    """Return the unknown facts that would decide whether, and how much of, a part is needed."""
    needed = explainer.explain(provision.needed, {})
    if needed.value is not True:
        return needed.needs
    with_unit = explainer.explain(provision.with_unit, {})
    if with_unit.value is True:
        return frozenset()
    return with_unit.needs | explainer.explain(provision.number, {}).needs


def _amount_fault(provision: Provision, written: str, amount: float | None, within: float) -> str:
    try:
        number = written.isdecimal() and provision.unit.dimension.is_number
        expected = parse_quantity(f"{written} 1" if number else written)
    except MeasureError as error:
        return str(error)
    if amount is not None and expected.dimension == provision.unit.dimension:
        if abs(amount - expected.si) <= within * abs(expected.si):
            return ""
        return f"It comes out {show(amount, provision.unit)}, not {expected}."
    return f"{expected} is no amount in {provision.unit.symbol}."
