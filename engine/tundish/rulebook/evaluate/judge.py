"""Judging: one rule, one job, a verdict for each item it looks at."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from functools import cache
from typing import NamedTuple

from tundish.job.model.paths import outer_paths
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.environment import Binding
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.session import Item, JobFacts, Session
from tundish.language.evaluate.step import Step
from tundish.rulebook.model.asked import Asked


class Verdict(StrEnum):
    """What came out of asking a rule."""

    MET = "met"
    BREACHED = "breached"
    UNDECIDED = "undecided"
    NOT_APPLICABLE = "not applicable"
    WAIVED = "waived"

    __hash__ = str.__hash__  # an enumeration's own is written in Python, and slow


class Judgement(NamedTuple):
    """A verdict on one rule, and on one item where the rule looks at each of a list.

    Attributes:
        rule: Name of the rule (``topic/rule``).
        item: What the item is called, or "".
        verdict: What came out.
        position: The item's position from 1, or None.
        open_list: The list that is not known yet, where the rule looks at each of its items.
        obstacle: Why nothing could be decided, where that is not a fact left out.
        early: Whether it was decided though not all is known, as every completion of the job
            comes out alike.
    """

    rule: str
    item: str
    verdict: Verdict
    position: int | None = None
    open_list: str = ""
    obstacle: str = ""
    early: bool = False


_TOO_MANY = "the rule takes more steps over these lists than it may"


def judge(
    rule: Asked, given: JobFacts, session: Session, only: str | None = None
) -> Iterator[Judgement]:
    """Judge a job by one rule, in the compiled form.

    Args:
        rule: The rule.
        given: The job's facts.
        session: The running evaluation of that job.
        only: The item to judge, where not every one of a list.

    Yields:
        One judgement, or one for each item of the list the rule looks at.
    """
    if rule.each is None:
        yield _judged(rule, session, None, None, "")
        return
    items = given.values.get(rule.each.path)
    if not isinstance(items, list):
        yield _of_unknown_list(rule, given, session)
        return
    if ("", rule.name) in session.barred:
        yield Judgement(rule.name, "", Verdict.UNDECIDED, obstacle=_TOO_MANY)
        return
    if not items:
        yield Judgement(rule.name, "", Verdict.NOT_APPLICABLE)
    for position, item in enumerate(items, start=1):
        name = given.names[f"{rule.each.path}[{position}]"]
        if only is not None and only != name:
            continue
        yield _judged(rule, session, item, position, name, len(items))


def explain_judgement(
    rule: Asked, judgement: Judgement, given: JobFacts, explainer: Explainer
) -> tuple[Step, Step | None]:
    """Walk the two conditions behind a judgement.

    Args:
        rule: The rule that was asked.
        judgement: The judgement; of an unknown list, what is asked of the job as a whole is walked.
        given: The job's facts.
        explainer: Walks trees over that job.

    Returns:
        The steps of `applies`, and those of `requires` where it was looked at.
    """
    if rule.each is not None and judgement.position is None:
        return explainer.explain(rule.asked_of_job), None
    bindings = item_binding(rule, judgement, given)
    applies = explainer.explain(rule.applies, bindings)
    if applies.value is not True:
        return applies, None
    return applies, explainer.explain(rule.requires, bindings)


def item_binding(rule: Asked, judgement: Judgement, given: JobFacts) -> dict[str, Binding]:
    """Return the item a judgement is about, bound to the rule's name for it."""
    each = rule.each
    if each is None or judgement.position is None:
        return {}
    items = given.values[each.path]
    assert isinstance(items, list)
    place = f"{each.path}[{judgement.position}]"
    return {each.variable: (items[judgement.position - 1], place)}


def _judged(
    rule: Asked,
    session: Session,
    item: Item | None,
    position: int | None,
    name: str,
    items: int = 1,
) -> Judgement:
    session.budget.begin(items)
    arguments = (session.values, session) if item is None else (session.values, session, item)
    try:
        applies = rule.does_apply(*arguments)
        met = rule.is_met(*arguments) if applies is True else None
    except TooManySteps:
        return Judgement(rule.name, name, Verdict.UNDECIDED, position, obstacle=_TOO_MANY)
    if applies is False:
        return Judgement(rule.name, name, Verdict.NOT_APPLICABLE, position)
    if met is None:
        return Judgement(rule.name, name, Verdict.UNDECIDED, position)
    return Judgement(rule.name, name, Verdict.MET if met else Verdict.BREACHED, position)


def verdict_of(rule: Asked, session: Session, position: int | None = None) -> Verdict:
    """Return what a rule comes to, of the whole job or of one item of its list.

    Args:
        rule: The rule.
        session: The running evaluation of the job.
        position: The position of the item from 1; None where the rule looks at no list.
    """
    item: Item | None = None
    if rule.each is not None and position is not None:
        items = session.values.get(rule.each.path)
        assert isinstance(items, list)
        item = items[position - 1]
    return _judged(rule, session, item, position, "").verdict


def _of_unknown_list(rule: Asked, given: JobFacts, session: Session) -> Judgement:
    """Judge a rule whose list is not known, or known to belong to something that is absent."""
    assert rule.each is not None
    path, values = rule.each.path, given.values
    for group in _groups(path):
        if values.get(group) is False:
            return Judgement(rule.name, "", Verdict.NOT_APPLICABLE)
    if _is_ruled_out(rule, session):
        return Judgement(rule.name, "", Verdict.NOT_APPLICABLE)
    return Judgement(rule.name, "", Verdict.UNDECIDED, open_list=path)


@cache
def _groups(path: str) -> tuple[str, ...]:
    """Return the groups that a list stands in, and itself, as it is asked of every job anew."""
    return (*outer_paths(path), path)


def _is_ruled_out(rule: Asked, session: Session) -> bool:
    """Say whether what a rule asks of the whole job fails, so that its list need not be known."""
    session.budget.begin()
    try:
        return rule.could_apply(session.values, session) is False
    except TooManySteps:
        return False
