"""The summary: one or two sentences that say how a job stands."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.findings.finding import SEVERITIES, Assessment, Finding
from tundish.report.tell.phrases import counted, in_words, listed
from tundish.rulebook.evaluate.judge import Verdict
from tundish.survey.question import questions


def breached_worst_first(assessment: Assessment) -> list[Finding]:
    """Return the breached findings by severity alone, those alike in the order they came."""
    # A danger is a danger, even one that need not be settled yet.
    breached = assessment.of(Verdict.BREACHED)
    return sorted(breached, key=lambda finding: SEVERITIES.index(finding.severity))


def breaches(assessment: Assessment) -> str:
    """Return how many of each severity are breached: ``one danger and two faults``."""
    return listed(by_severity(assessment.of(Verdict.BREACHED)))


def summary(assessment: Assessment) -> str:
    """Return how a job stands, in words."""
    wrong = breaches(assessment)
    due, later = due_and_later(assessment)
    numbers = {
        "Cannot be decided": sum(not finding.open for finding in due),
        "Can wait": len(later),
        "Set aside": assessment.count(Verdict.WAIVED),
        "In order": assessment.count(Verdict.MET),
        "Not asked of this job": assessment.count(Verdict.NOT_APPLICABLE),
    }
    asked = len(questions(due))
    sentences = [f"To put right: {wrong}." if wrong else "Nothing is known to be wrong."]
    sentences += [f"To find out now: {counted(asked, 'question')}."] if asked else []
    sentences += [
        f"{words}: {counted(number, 'requirement')}." for words, number in numbers.items() if number
    ]
    return " ".join(sentences)


def memory_note(assessment: Assessment) -> str:
    """Return how much of what is told rests on memory, or nothing."""
    decided = (Verdict.BREACHED, Verdict.MET)
    rules = [row.rule for row in assessment.judgements if row.verdict in decided]
    number = sum(rule in assessment.unverified for rule in rules)
    if not number:
        return ""
    return (
        f"Resting on a figure or clause written from memory: {counted(number, 'answer')} of "
        f"{in_words(len(rules))}. Read it in its source before relying on it."
    )


def due_and_later(assessment: Assessment) -> tuple[list[Finding], list[Finding]]:
    """Return the undecided findings that are due at the job's stage, and those that can wait."""
    undecided = assessment.of(Verdict.UNDECIDED)
    return [finding for finding in undecided if finding.due], [
        finding for finding in undecided if not finding.due
    ]


def by_severity(findings: Iterable[Finding], before: str = "") -> list[str]:
    """Return how many findings there are of each severity, the worst first.

    Args:
        findings: The findings.
        before: A word and a space before each severity.
    """
    severities = [finding.severity for finding in findings]
    numbers = [(name, severities.count(name)) for name in SEVERITIES]
    return [counted(number, f"{before}{name}") for name, number in numbers if number]
