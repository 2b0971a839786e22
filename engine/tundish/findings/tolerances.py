"""Tolerances: which verdicts still hold when the figures of a job are off as far as they may be."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import TYPE_CHECKING

from tundish.findings.details import label_of
from tundish.findings.finding import Input
from tundish.job.changes import value_at
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Fact
from tundish.job.parts.tolerance import Tolerance
from tundish.job.schema import job_schema
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.ranges.range import Range, interval
from tundish.rulebook.evaluate.judge import Judgement, Verdict, item_binding
from tundish.rulebook.rulebook import Rulebook
from tundish.text.nearest import did_you_mean
from tundish.text.problem import Problem, Problems, Refused
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError

if TYPE_CHECKING:
    from tundish.language.evaluate.ranges.evaluate import RangeEvaluator

_DECIDED = (Verdict.MET, Verdict.BREACHED, Verdict.WAIVED)


class Tolerances:
    """The figures of one job that may be off, and the verdicts which that can turn.

    Args:
        job: The job; its tolerances say how far off which facts may be.
        facts: Its facts.
        rulebook: The rules it is judged by.

    Raises:
        Refused: If a tolerance names no fact that has one, or states none.
    """

    def __init__(self, job: Job, facts: Facts, rulebook: Rulebook) -> None:
        self._facts = facts
        self._rulebook = rulebook
        self._ranges = _ranges(job, facts)
        self._can_turn: dict[Judgement, bool] = {}

    def doubt(self, judgement: Judgement, inputs: Iterable[Input]) -> str:
        """Say why a judgement may come out otherwise within the tolerances, or nothing.

        Args:
            judgement: The judgement.
            inputs: The facts that it rests on.
        """
        if not self.can_turn(judgement):
            return ""
        paths = [fact.path for fact in inputs if fact.path in self._ranges]
        labels = ", ".join(dict.fromkeys(label_of(path) for path in paths))
        return f"within the tolerance of {labels} it may come out otherwise" if labels else ""

    def can_turn(self, judgement: Judgement) -> bool:
        """Say whether a decided verdict is another somewhere within the tolerances."""
        if judgement.rule not in self._rules or judgement.verdict not in _DECIDED:
            return False
        if judgement not in self._can_turn:
            self._can_turn[judgement] = not self._is_certain(judgement)
        return self._can_turn[judgement]

    @cached_property
    def _rules(self) -> frozenset[str]:
        """The rules that read a figure which may be off, themselves or through quantities."""
        if not self._ranges:
            return frozenset()
        readers = self._rulebook.rules_of_facts
        return frozenset(
            rule for path in self._ranges for rule in readers.get(without_positions(path), ())
        )

    @cached_property
    def _evaluator(self) -> RangeEvaluator:
        return self._rulebook.ranges(self._facts, self._ranges)

    def _is_certain(self, judgement: Judgement) -> bool:
        rule = self._rulebook.rules[judgement.rule]
        bindings = item_binding(rule, judgement, self._facts)
        try:
            if self._evaluator.range_of(rule.applies, bindings) is not True:
                return False
            met = self._evaluator.range_of(rule.requires, bindings)
        except TooManySteps:
            return False
        return met is (judgement.verdict is Verdict.MET)


def _ranges(job: Job, facts: Facts) -> dict[str, Range]:
    problems = Problems()
    ranges: dict[str, Range] = {}
    for position, tolerance in enumerate(job.tolerance or (), start=1):
        path = tolerance.of or ""
        wrong = _wrong(tolerance)
        if wrong:
            place = job.source.place(f"tolerance[{position}]") if job.source else None
            file, line, column = place or ("", None, None)
            problems.append(Problem(file, line, column, wrong, f"tolerance[{position}]"))
            continue
        value = value_at(facts, path)
        if isinstance(value, float):
            off = _off(tolerance, path, value)
            ranges[path] = interval(value - off, value + off)
    if problems:
        raise Refused(problems)
    return ranges


def _wrong(tolerance: Tolerance) -> str:
    """Say what is wrong with a tolerance, or nothing."""
    path = tolerance.of or ""
    part = job_schema().find(path)
    if not isinstance(part, Fact) or part.kind not in ("quantity", "number"):
        paths = [fact.path for fact in job_schema().facts() if fact.kind in ("quantity", "number")]
        return f"'{path}' is no figure of a job.{did_you_mean(path, paths)}"
    if (tolerance.share is None) == (tolerance.amount is None):
        return f"The tolerance of {path} is either a 'share' or an 'amount'."
    if tolerance.share is not None:
        return f"A share of {path} says nothing: it is a point on a scale." if part.point else ""
    try:
        amount = parse_quantity(tolerance.amount or "")
    except MeasureError as error:
        return str(error)
    if amount.dimension != part.dimension:
        return f"'{tolerance.amount}' is no amount of {path}, such as {part.example}."
    if amount.si < float(amount.unit.zero):
        return f"A tolerance is not below zero, as '{tolerance.amount}' is."
    return ""


def _off(tolerance: Tolerance, path: str, value: float) -> float:
    if tolerance.share is not None:
        return abs(value) * tolerance.share.si
    amount = parse_quantity(tolerance.amount or "")
    return amount.si - float(amount.unit.zero)
