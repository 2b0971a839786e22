"""Provisions: asking one of a job."""

from __future__ import annotations

from enum import StrEnum

from tundish.groundwork.dataclass import dataclass
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.session import Session
from tundish.language.evaluate.step import Step
from tundish.rulebook.model.provision import Provision


class Need(StrEnum):
    """Whether a job needs a part."""

    NEEDED = "needed"
    NOT_NEEDED = "not needed"
    WITH_UNIT = "with the unit"
    UNDECIDED = "undecided"


@dataclass(frozen=True, slots=True)
class Provided:
    """What asking a provision came to.

    Attributes:
        need: Whether the job needs the part.
        amount: How much of it, in SI units; None while it is not known, or not needed.
    """

    need: Need
    amount: float | None = None


def ask(provision: Provision, session: Session) -> Provided:
    """Ask whether and how much of a part a job needs.

    Args:
        provision: The part.
        session: The running evaluation of that job.
    """
    session.budget.begin()
    try:
        needed = provision.is_needed(session.values, session)
        if needed is not True:
            return Provided(Need.NOT_NEEDED if needed is False else Need.UNDECIDED)
        with_unit = provision.is_with_unit(session.values, session)
        amount = provision.amount(session.values, session)
    except TooManySteps:
        return Provided(Need.UNDECIDED)
    number = amount if isinstance(amount, float) else None
    if with_unit is None:
        return Provided(Need.UNDECIDED)
    if with_unit:
        return Provided(Need.WITH_UNIT, number)
    if number is not None and number <= 0:
        return Provided(Need.NOT_NEEDED)
    return Provided(Need.NEEDED if number is not None else Need.UNDECIDED, number)


def explain_provision(provision: Provision, explainer: Explainer) -> tuple[Step, ...]:
    """Return the steps of what is asked of a part: whether, whether with the unit, how many.

    Args:
        provision: The part.
        explainer: Walks trees over the job.
    """
    steps: tuple[Step, ...] = ()
    for root, goes_on in ((provision.needed, True), (provision.with_unit, False)):
        step = explainer.explain(root, {})
        steps += (step,)
        if (step.value is True) is not goes_on:
            return steps
    return (*steps, explainer.explain(provision.number, {}))
