"""Proving rules: every rule run on its own cases."""

from __future__ import annotations

from tundish.job.facts import Facts
from tundish.language.evaluate.explained import Explainer
from tundish.language.evaluate.session import TooManySteps
from tundish.language.evaluate.step import Step
from tundish.rulebook.evaluate.judge import Judgement, Verdict, explain_judgement, judge
from tundish.rulebook.model.definition import Case
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.prove.reasons import (
    TOO_MANY_STEPS,
    Wording,
    misnamed,
    other_outcome,
    what_is_open,
)
from tundish.rulebook.rulebook import Rulebook

MUST_HAVE = ("met", "breached", "undecided")
"""Outcomes that a rule must be shown with."""

_WORST_FIRST = (Verdict.BREACHED, Verdict.UNDECIDED, Verdict.MET, Verdict.NOT_APPLICABLE)


def rule_fault(rule: Rule, case: Case, facts: Facts, rulebook: Rulebook, wording: Wording) -> str:
    """Say how a case of a rule fails, or nothing where it holds."""
    if rule.each is None and case.item is not None:
        return "The rule looks at no list ('each'), so that its case has no 'item'."
    if "job.region" not in facts.values:
        rule = rule.as_written
    judgements = list(judge(rule, facts, rulebook.session(facts.values)))
    explainer = rulebook.explainer(facts)
    judgement = _chosen(judgements, case.item)
    if judgement is None:
        where = f" of {rule.each.path}" if rule.each else ""
        return f"There is no item {case.item}{where}."
    if judgement.verdict != case.outcome:
        why = _why(judgement, str(case.outcome), facts, explainer, wording)
        return other_outcome(judgement.verdict, str(case.outcome), why)
    if case.unknown is None:
        return ""
    try:
        steps = _steps(judgement, facts, explainer)
    except TooManySteps:
        return TOO_MANY_STEPS
    return misnamed(_needs(judgement, steps), case.unknown, _obstacles(judgement, steps))


def _chosen(judgements: list[Judgement], item: int | None) -> Judgement | None:
    """Return the judgement of the item meant, else the worst."""
    if item is not None:
        return next((each for each in judgements if each.position == item), None)
    return min(judgements, key=lambda each: _WORST_FIRST.index(each.verdict))


def _why(
    judgement: Judgement, stated: str, facts: Facts, explainer: Explainer, wording: Wording
) -> str:
    """Say why a rule comes out as it does, with the numbers put in."""
    try:
        steps = _steps(judgement, facts, explainer)
    except TooManySteps:
        return ""
    if judgement.verdict is Verdict.UNDECIDED:
        return what_is_open(_needs(judgement, steps), _obstacles(judgement, steps))
    if not steps:
        return f"there is nothing in {judgement.rule.each.path}" if judgement.rule.each else ""
    # Where it was to be not asked at all, it matters why it is asked.
    told = steps[0] if stated == Verdict.NOT_APPLICABLE else steps[-1]
    item = f"{judgement.item}: " if judgement.item else ""
    said = wording.statement(told, facts)
    return item + said if said else ""


def _steps(judgement: Judgement, facts: Facts, explainer: Explainer) -> tuple[Step, ...]:
    """Return the steps of what was asked; none where an item is missing or there are too many."""
    is_of_no_item = judgement.rule.each is not None and judgement.position is None
    if judgement.open_list or judgement.obstacle or is_of_no_item:
        return ()
    applies, requires = explain_judgement(judgement, facts, explainer)
    return (applies,) if requires is None else (applies, requires)


def _needs(judgement: Judgement, steps: tuple[Step, ...]) -> frozenset[str]:
    if judgement.open_list:
        return frozenset((judgement.open_list,))
    return frozenset[str]().union(*(step.needs for step in steps))


def _obstacles(judgement: Judgement, steps: tuple[Step, ...]) -> frozenset[str]:
    if judgement.obstacle:
        return frozenset((judgement.obstacle,))
    return frozenset[str]().union(*(step.obstacles for step in steps))
