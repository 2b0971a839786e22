"""What is said of a comparison: what is mended, what is new, and which figures made it so."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.compare.compare import FindingChange, JobComparison, ValueChange
from tundish.findings.finding import Assessment
from tundish.report.page.line import Line, apart, items, section
from tundish.report.tell.assessment import caution_lines
from tundish.report.tell.finding import about
from tundish.report.tell.phrases import counted
from tundish.rulebook.evaluate.judge import Verdict

_MOST_FIGURES = 60
"""Figures past which nobody reads them one by one; data for programs has all."""


def comparison_lines(comparison: JobComparison) -> Iterator[Line]:
    """Give all that is said of a comparison."""
    yield Line("heading", "Comparison")
    yield Line("entry", _named(comparison.before), "before")
    yield Line("entry", _named(comparison.after), "after")
    yield from _rulebooks(comparison)
    for name, changes in (
        ("newly breached", comparison.new),
        ("breached no more", comparison.gone),
        ("answered otherwise", comparison.changed),
    ):
        yield from section(name, apart(map(_finding, changes)))
    yield from _values("facts that differ", comparison.inputs)
    yield from _values("figures that differ", comparison.quantities)
    yield from section("how it stands", [Line("words", _summary(comparison))])
    yield from caution_lines(comparison.after.cautions)


def _named(assessment: Assessment) -> str:
    parts = (assessment.job, assessment.file, assessment.stage, assessment.region)
    return "; ".join(part for part in parts if part) or "a job without a title"


def _rulebooks(comparison: JobComparison) -> Iterator[Line]:
    before, after = comparison.before.rulebook_digest, comparison.after.rulebook_digest
    if before != after:
        yield Line("entry", f"{before[:12]} before, {after[:12]} after", "rulebook")


def _finding(change: FindingChange) -> Iterator[Line]:
    yield Line("finding", about(change), severity=change.severity)
    yield Line("entry", f"{_verdict(change.was)}, now {_verdict(change.now)}", "verdict")
    if change.now in (Verdict.BREACHED, Verdict.MET):
        yield Line("entry", change.statement, "found now")
    yield Line("entry", change.rule, "rule")


def _verdict(verdict: Verdict | None) -> str:
    return "not asked" if verdict is None else str(verdict)


def _values(name: str, changes: tuple[ValueChange, ...]) -> Iterator[Line]:
    texts = []
    for change in changes[:_MOST_FIGURES]:
        was, now = (text or "not known" for text in (change.was, change.now))
        texts.append(f"{change.label}: {was}, now {now}  ({change.path})")
    more = len(changes) - _MOST_FIGURES
    texts += [f"and {counted(more, 'other')}"] if more > 0 else []
    return section(name, items(texts))


def _summary(comparison: JobComparison) -> str:
    numbers = (
        (len(comparison.new), "newly breached"),
        (len(comparison.gone), "breached no more"),
        (len(comparison.changed), "answered otherwise"),
    )
    sentences = [
        f"{words}: {counted(number, 'requirement')}." for number, words in numbers if number
    ]
    if not sentences:
        sentences = ["Every requirement is answered alike."]
    values = (
        (len(comparison.inputs), "fact"),
        (len(comparison.quantities), "figure"),
    )
    sentences += [f"{counted(number, noun)} differ." for number, noun in values if number > 1]
    sentences += [f"one {noun} differs." for number, noun in values if number == 1]
    return " ".join(sentence[:1].upper() + sentence[1:] for sentence in sentences)
