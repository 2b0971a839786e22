"""What an interview says to an answer: what became of it, and what it has decided."""

from __future__ import annotations

from typing import Literal

from tundish.findings.finding import Assessment, Finding
from tundish.findings.judged_job import JudgedJob
from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.evaluate.judge import Verdict

Outcome = Literal[
    "written",  # it stands in the file
    "left",  # it is not known, and is left open
    "misread",  # it was not understood, and the question stays
    "back",  # the question before is asked again
    "more",  # more is to be told of the question
    "stopped",  # the interview is over
]

Verdicts = dict[tuple[str, str], Verdict]
"""The verdict of each rule, by its name and the item it was asked of."""


@dataclass(frozen=True, slots=True)
class Decided:
    """What an answer has decided.

    Attributes:
        met: Findings that are met now.
        not_applicable: Findings whose rule does not apply.
        breached: Findings that are breached, the worst first.
    """

    met: tuple[Finding, ...] = ()
    not_applicable: tuple[Finding, ...] = ()
    breached: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class Reply:
    """What is said to an answer.

    Attributes:
        outcome: What became of it.
        sentence: Why it was not understood, or what was written where; or an empty text.
        notes: What else the user must know.
        decided: What it has decided; None while a list is not told to its end.
    """

    outcome: Outcome
    sentence: str = ""
    notes: tuple[str, ...] = ()
    decided: Decided | None = None


@dataclass(frozen=True, slots=True)
class Summary:
    """How an interview has left a job.

    Attributes:
        assessment: What the rules say of the job now.
        answered: How many answers stand in the file [1].
        left: How many questions were left open [1].
        open: How many questions there still are [1], those left open too.
        unfinished: What may still be missing from a list: its path and how many items it has.
    """

    assessment: Assessment
    answered: int
    left: int
    open: int
    unfinished: tuple[tuple[str, int], ...] = ()


def verdicts_in(judged: JudgedJob) -> Verdicts:
    """Return the verdicts of a judged job."""
    return {(row.rule, row.item): row.verdict for row in judged.judgements}


def decided_since(before: Verdicts, judged: JudgedJob) -> Decided:
    """Return what is decided and was not, or is breached and was not."""
    by_verdict: dict[Verdict, list[Finding]] = {}
    for row in judged.judgements:
        was = before.get((row.rule, row.item), Verdict.UNDECIDED)
        anew = was is Verdict.UNDECIDED or row.verdict is Verdict.BREACHED
        if row.verdict is not was and anew:
            by_verdict.setdefault(row.verdict, []).append(judged.explain(row))
    return Decided(
        tuple(by_verdict.get(Verdict.MET, ())),
        tuple(by_verdict.get(Verdict.NOT_APPLICABLE, ())),
        tuple(by_verdict.get(Verdict.BREACHED, ())),
    )
