"""Tolerances: which verdicts still hold when the figures of a job are off as far as they may be."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from tundish.findings.details import label_of
from tundish.findings.finding import Finding
from tundish.job.changes import value_at
from tundish.job.facts import Facts
from tundish.job.job import Job
from tundish.job.model.schema import Fact
from tundish.job.parts.tolerance import Tolerance
from tundish.job.schema import job_schema
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.environment import Binding
from tundish.language.evaluate.ranges import RangeEvaluator, Span
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.rulebook import Rulebook
from tundish.text.nearest import did_you_mean
from tundish.text.problem import Problem, Problems, Refused
from tundish.units.quantity import parse_quantity
from tundish.units.unit import MeasureError

_DECIDED = (Verdict.MET, Verdict.BREACHED, Verdict.WAIVED)


def doubted(
    findings: Iterable[Finding], job: Job, facts: Facts, rulebook: Rulebook
) -> list[Finding]:
    """Mark the findings that could come out otherwise within the stated tolerances.

    Args:
        findings: The findings.
        job: The job; its tolerances say how far off which facts may be.
        facts: Its facts.
        rulebook: The rules that were asked.

    Returns:
        The findings, those that are not certain with what makes them so.

    Raises:
        Refused: If a tolerance names no fact that has one, or states none.
    """
    told = list(findings)
    if not job.tolerance:
        return told
    spans = _spans(job, facts)
    if not spans:
        return told
    steps = rulebook.budget.explaining(facts.values).steps
    tables = rulebook.tables_for(facts.values)
    ranger = RangeEvaluator(facts, rulebook.formulas, tables, spans, steps)
    return [_marked(finding, facts, rulebook, ranger, spans) for finding in told]


def _marked(
    finding: Finding,
    facts: Facts,
    rulebook: Rulebook,
    ranger: RangeEvaluator,
    spans: dict[str, Span],
) -> Finding:
    rests_on = [one.path for one in finding.inputs if one.path in spans]
    if finding.verdict not in _DECIDED or not rests_on:
        return finding
    if _is_certain(finding, facts, rulebook, ranger):
        return finding
    labels = ", ".join(dict.fromkeys(label_of(path) for path in rests_on))
    return replace(finding, doubtful=f"within the tolerance of {labels} it may come out otherwise")


def _is_certain(finding: Finding, facts: Facts, rulebook: Rulebook, ranger: RangeEvaluator) -> bool:
    rule = rulebook.rules[finding.rule]
    bindings = _bindings(finding, facts, rule.each)
    try:
        if ranger.range_of(rule.applies, bindings) is not True:
            return False
        met = ranger.range_of(rule.requires, bindings)
    except TooManySteps:
        return False
    return met is (finding.verdict is Verdict.MET)


def _bindings(finding: Finding, facts: Facts, each: object) -> dict[str, Binding]:
    from tundish.rulebook.model.definition import Each

    if not isinstance(each, Each):
        return {}
    items = facts.values.get(each.path)
    for position, item in enumerate(items if isinstance(items, list) else [], start=1):
        place = f"{each.path}[{position}]"
        if facts.names.get(place) == finding.item:
            return {each.variable: (item, place)}
    return {}


def _spans(job: Job, facts: Facts) -> dict[str, Span]:
    problems = Problems()
    found: dict[str, Span] = {}
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
            found[path] = Span(value - off, value + off)
    if problems:
        raise Refused(problems)
    return found


def _wrong(tolerance: Tolerance) -> str:
    """Say what is wrong with a tolerance, or nothing."""
    path = tolerance.of or ""
    part = job_schema().find(path)
    if not isinstance(part, Fact) or part.kind not in ("quantity", "number"):
        paths = [one.path for one in job_schema().facts() if one.kind in ("quantity", "number")]
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
