"""The summary: one or two sentences that say how a job stands."""

from __future__ import annotations

from tundish.assessment.finding import SEVERITIES, Assessment, Finding
from tundish.report.question import questions
from tundish.report.words import as_sentence, counted, listed
from tundish.rulebook.judging import Verdict


def breached_worst_first(assessment: Assessment) -> list[Finding]:
    """Return the breached findings by severity alone, those alike in the order they came."""
    # A danger is a danger, even one that need not be settled yet.
    breached = assessment.of(Verdict.BREACHED)
    return sorted(breached, key=lambda finding: SEVERITIES.index(finding.severity))


def breaches(assessment: Assessment) -> str:
    """Return how many of each severity are breached: ``one danger and two faults``."""
    breached = assessment.of(Verdict.BREACHED)
    numbers = [(sum(one.severity == name for one in breached), name) for name in SEVERITIES]
    return listed([counted(number, name) for number, name in numbers if number])


def summary(assessment: Assessment) -> str:
    """Return how a job stands, in words."""
    wrong = breaches(assessment)
    first = f"To put right: {wrong}." if wrong else "Nothing is known to be wrong."
    met = len(assessment.of(Verdict.MET))
    rest = [_open(assessment), f"{counted(met, 'requirement')} met" if met else ""]
    waived = len(assessment.of(Verdict.WAIVED))
    rest.append(f"{counted(waived, 'finding')} set aside" if waived else "")
    apart = len(assessment.of(Verdict.NOT_APPLICABLE))
    rest.append(f"{counted(apart, 'requirement')} not asked of this job" if apart else "")
    said = [part for part in rest if part]
    return f"{first} {as_sentence('; '.join(said))}." if said else first


def memory_note(assessment: Assessment) -> str:
    """Return how much of what is told rests on memory, or nothing."""
    told = [*assessment.of(Verdict.BREACHED), *assessment.of(Verdict.MET)]
    number = sum(finding.from_memory for finding in told)
    if not number:
        return ""
    return (
        f"Of {counted(len(told), 'answer')}, {number} rest on a figure or clause written from "
        "memory: read it in its source before relying on it."
    )


def due_and_later(assessment: Assessment) -> tuple[list[Finding], list[Finding]]:
    """Return the undecided findings that are due at the job's stage, and those that can wait."""
    undecided = assessment.of(Verdict.UNDECIDED)
    return [one for one in undecided if one.due], [one for one in undecided if not one.due]


def _open(assessment: Assessment) -> str:
    due, later = due_and_later(assessment)
    said = []
    if due:
        facts = len(questions(due))
        said.append(f"{counted(facts, 'question')} open now" if facts else "")
        stuck = sum(not one.open for one in due)
        said.append(f"{counted(stuck, 'requirement')} that cannot be decided" if stuck else "")
    if later:
        said.append(f"{counted(len(later), 'requirement')} that can wait")
    return ", ".join(part for part in said if part)
