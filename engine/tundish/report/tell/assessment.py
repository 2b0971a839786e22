"""What is said of a whole assessment, in the order in which a reader should act on it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from typing import Literal

from tundish.findings.finding import Assessment, Finding
from tundish.report.page.line import GAP, Line, apart, items, section
from tundish.report.tell.finding import breached_lines, short_lines, undecided_lines
from tundish.report.tell.margins import doubt_lines, margin_lines
from tundish.report.tell.phrases import day
from tundish.report.tell.questions import early_lines, question_lines, waiting_lines
from tundish.report.tell.siting import siting_lines
from tundish.report.tell.summary import breached_worst_first, due_and_later, memory_note, summary
from tundish.rulebook.evaluate.judge import Verdict
from tundish.survey.question import questions

Show = Literal["usual", "all", "open", "breached"]
"""What to tell: what is wrong and what is open now; everything; all that is open; what is wrong."""

SectionName = Literal["siting", "margins"]
"""Further sections that can be asked for."""


def verdicts_told(show: Show, sections: Collection[SectionName]) -> tuple[Verdict, ...]:
    """Return the verdicts whose findings a page needs explained.

    Args:
        show: What to tell.
        sections: Further sections to tell.
    """
    usual = (Verdict.BREACHED, Verdict.UNDECIDED, Verdict.WAIVED)
    return (*usual, Verdict.MET) if show == "all" or "margins" in sections else usual


def assessment_lines(
    assessment: Assessment,
    show: Show = "usual",
    cautions: bool = True,
    workings: bool = False,
    sections: Collection[SectionName] = (),
) -> Iterator[Line]:
    """Give all that is said of an assessment.

    Args:
        assessment: The findings, worst first.
        show: What to tell.
        cautions: Whether to end with the cautions.
        workings: Whether to tell every figure and formula behind a breach.
        sections: Further sections to tell.

    Yields:
        Lines, for a page of any width.
    """
    yield from _heading(assessment)
    if show != "open":
        yield from _breached(assessment, workings)
    if show != "breached":
        yield from _undecided(assessment, show)
    if show in ("usual", "all"):
        waived = assessment.of(Verdict.WAIVED)
        yield from _short("set aside by a waiver", waived)
    if show == "all":
        yield from _short("in order", assessment.of(Verdict.MET), full=workings)
    if show != "open":
        yield from doubt_lines(assessment)
    if "margins" in sections:
        yield from margin_lines(assessment)
    if "siting" in sections:
        yield from siting_lines(assessment.siting)
    yield from _summary(assessment)
    yield from made_from_lines(
        assessment.job_digest, assessment.rulebook_digest, assessment.version
    )
    if cautions:
        yield from caution_lines(assessment.cautions)


def caution_lines(cautions: Iterable[str]) -> Iterator[Line]:
    """Give the cautions, which every page ends with."""
    return section("before you act on this", items(cautions))


def _heading(assessment: Assessment) -> Iterator[Line]:
    yield Line("heading", assessment.job or assessment.file or "A job without a title")
    parts = [
        assessment.file if assessment.job else "",
        f"stage: {assessment.stage or 'not said, so everything is asked'}",
        f"region: {assessment.region or 'not said'}",
        day(assessment.date) if assessment.date else "",
    ]
    yield Line("under", "; ".join(part for part in parts if part))
    yield from (Line("words", sentence) for sentence in assessment.silent)


def _breached(assessment: Assessment, workings: bool) -> Iterator[Line]:
    findings = breached_worst_first(assessment)
    blocks = (breached_lines(finding, workings) for finding in findings)
    return section("to put right", apart(blocks))


def _undecided(assessment: Assessment, show: Show) -> Iterator[Line]:
    due, later = due_and_later(assessment)
    asked = questions(due)
    stage = f" at the {assessment.stage} stage" if assessment.stage else ""
    yield from section(f"to find out{stage}", apart(map(question_lines, asked)))
    yield from _stuck("cannot be decided", due)
    if show == "usual" and not asked:
        yield from early_lines(later, assessment)
    if show == "usual":
        yield from section("can wait", waiting_lines(later, asked))
        return
    yield from section("to find out later", apart(map(question_lines, questions(later))))
    yield from _stuck("cannot be decided, and can wait", later)


def _stuck(name: str, findings: list[Finding]) -> Iterator[Line]:
    """Give the findings that no fact would decide."""
    stuck = [finding for finding in findings if not finding.open]
    return section(name, apart(map(undecided_lines, stuck)))


def _short(name: str, findings: tuple[Finding, ...], full: bool = False) -> Iterator[Line]:
    lines: list[Line] = []
    for finding in findings:
        lines += [GAP] if full and lines else []
        lines += short_lines(finding, full)
    return section(name, lines)


def _summary(assessment: Assessment) -> Iterator[Line]:
    texts = (summary(assessment), memory_note(assessment))
    return section("how it stands", (Line("words", text) for text in texts if text))


def made_from_lines(job: str, rules: str, version: str) -> Iterator[Line]:
    """Give what tells a page from one of another job or other rules.

    Args:
        job: Digest of the facts of the job; empty if there is none.
        rules: Digest of the rulebook.
        version: The program's version.
    """
    texts = (f"job: {job}", f"rules: {rules}", f"tundish: {version}") if job or rules else ()
    return section("made from", (Line("words", text) for text in texts))
