"""Waivers: breaches that someone answerable sets aside, while the waiver holds."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import replace

from tundish.findings.finding import Finding
from tundish.job.job import Job
from tundish.job.parts.waiver import Waiver
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.rulebook import Rulebook
from tundish.text.nearest import did_you_mean
from tundish.text.problem import Problem, Problems, Refused


def waived(findings: Iterable[Finding], job: Job, rulebook: Rulebook) -> list[Finding]:
    """Set aside the breaches that a job waives; a waiver that does not hold says why.

    Args:
        findings: The findings.
        job: The job; its date decides whether a waiver holds, or today where it has none.
        rulebook: The rules that can be waived.

    Returns:
        The findings, those set aside with the verdict `waived`.

    Raises:
        Refused: If a waiver names no rule of the rulebook.
    """
    if not job.waiver:
        return list(findings)
    waivers = _by_rule(job, rulebook)
    day = job.date or datetime.date.today()
    return [_judged(finding, waivers.get(finding.rule, []), day) for finding in findings]


def _by_rule(job: Job, rulebook: Rulebook) -> dict[str, list[Waiver]]:
    found: dict[str, list[Waiver]] = {}
    problems = Problems()
    for position, waiver in enumerate(job.waiver or (), start=1):
        name = waiver.rule or ""
        try:
            rule = rulebook.rule(name)
            item = rule.former_names.get(name)
            if item and waiver.item not in (None, item):
                continue  # of a name that meant one item alone, and another item
            of_item = Waiver(**{**waiver.given, "item": item}) if item else waiver
            found.setdefault(rule.name, []).append(of_item)
        except KeyError:
            path = f"waiver[{position}].rule"
            place = job.source.place(path) if job.source else None
            file, line, column = place or ("", None, None)
            hint = did_you_mean(name, list(rulebook.rules))
            problems.append(Problem(file, line, column, f"No rule is called '{name}'.{hint}", path))
    if problems:
        raise Refused(problems)
    return found


def _judged(finding: Finding, waivers: list[Waiver], day: datetime.date) -> Finding:
    if finding.verdict is not Verdict.BREACHED:
        return finding
    reasons = []
    for waiver in waivers:
        if waiver.item is not None and waiver.item != finding.item:
            continue
        fault = _missing(waiver, finding) or _fault(waiver, day)
        if not fault:
            by = f"{waiver.by} ({waiver.person})" if waiver.person else waiver.by
            text = f"Set aside by the {by} until {waiver.until}: {waiver.reason}"
            return replace(finding, verdict=Verdict.WAIVED, waiver=text)
        reasons.append(fault)
    return replace(finding, waiver=" ".join(reasons)) if reasons else finding


_NEEDED = {
    "reason": "a reason",
    "by": "the role of who answers for it",
    "until": "a day on which it ends",
}


def _missing(waiver: Waiver, finding: Finding) -> str:
    """Say what a waiver lacks to hold, or nothing where it is whole."""
    lacking = [words for name, words in _NEEDED.items() if getattr(waiver, name) is None]
    if finding.severity == "danger" and waiver.person is None:
        lacking.append("the name of a competent person who answers for a danger")
    if not lacking:
        return ""
    told = lacking[0] if len(lacking) == 1 else f"{', '.join(lacking[:-1])} and {lacking[-1]}"
    return f"A waiver is written but does not hold: it lacks {told}."


def _fault(waiver: Waiver, day: datetime.date) -> str:
    """Say why a waiver does not hold on a day, or nothing where it does."""
    if waiver.until is not None and waiver.until < day:
        return f"The waiver by the {waiver.by} ended on {waiver.until}."
    if waiver.since is not None and day < waiver.since:
        return f"The waiver by the {waiver.by} begins on {waiver.since}."
    return ""
