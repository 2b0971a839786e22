"""What is said of a survey: the questions, in the order of what they decide, by who can answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.assessment.finding import SEVERITIES, Assessment, Finding
from tundish.assessment.survey import Inquiry
from tundish.job.schema import Fact, job_schema
from tundish.report.assessment_lines import caution_lines
from tundish.report.line import GAP, Line, entries
from tundish.report.words import counted, in_words, listed

_MOST_PLACES = 3


def survey_lines(assessment: Assessment, found: Sequence[Inquiry]) -> Iterator[Line]:
    """Give all questions, grouped by who can answer, those who decide the most first.

    Args:
        assessment: The findings that wait.
        found: What is not known, ranked.
    """
    yield Line("heading", f"To find out: {assessment.job or assessment.file or 'a job'}")
    yield Line("under", f"stage: {assessment.stage or 'not said, so everything is asked'}")
    ranks = {id(one): rank for rank, one in enumerate(found, start=1)}
    for who in dict.fromkeys(one.asked.who for one in found):
        asked = [one for one in found if one.asked.who == who]
        yield from (GAP, Line("section", f"ask the {who} ({counted(len(asked), 'question')})"))
        for inquiry in asked:
            yield GAP
            yield from _inquiry(inquiry, ranks[id(inquiry)])
    yield from (GAP, Line("section", "how it stands"), Line("words", _summary(found)))
    yield from caution_lines(assessment.cautions)


def _inquiry(inquiry: Inquiry, rank: int) -> Iterator[Line]:
    yield Line("question", f"{rank}. {inquiry.asked.question}")
    yield from entries("how", [inquiry.asked.how] if inquiry.asked.how else [])
    yield from entries("answer in", [_answer(inquiry.asked.path)])
    limits = dict.fromkeys(one.limit for one in inquiry.facts if one.limit)
    yield from entries("against", list(limits)[:_MOST_PLACES])
    yield from entries("write in", _places(inquiry))
    yield Line("entry", _decides(inquiry), "decides")


def _answer(path: str) -> str:
    part = job_schema().find(path)
    if not isinstance(part, Fact):
        return "a group of facts, or what says that there is none"
    if part.choices:
        return f"one of {', '.join(part.choices)}"
    return {
        "quantity": f"any unit of {part.dimension.name if part.dimension else ''}, "
        f"such as {part.example}",
        "truth": "true or false",
        "number": "a plain number",
        "date": f"a day such as {part.example}",
    }.get(part.kind, "text")


def _places(inquiry: Inquiry) -> list[str]:
    told = [one.path for one in inquiry.facts[:_MOST_PLACES]]
    more = len(inquiry.facts) - len(told)
    return [*told, f"and {counted(more, 'place')} more"] if more else told


def _decides(inquiry: Inquiry) -> str:
    total = len(inquiry.findings)
    said = possible(inquiry.findings)
    if inquiry.alone:
        said += " by itself" if inquiry.alone == total else f", {in_words(inquiry.alone)} by itself"
    if inquiry.through:
        told = "all" if len(inquiry.through) == total else in_words(len(inquiry.through))
        said += f"; {told} through a figure that is worked out from it"
    return said


def possible(findings: Sequence[Finding]) -> str:
    """Return how many breaches of each severity findings that wait may turn out to be."""
    severities = [one.severity for one in findings]
    numbers = [(name, severities.count(name)) for name in SEVERITIES]
    return listed([counted(number, f"possible {name}") for name, number in numbers if number])


def _summary(found: Sequence[Inquiry]) -> str:
    if not found:
        return "Nothing is left to find out at this stage."
    findings = {(one.rule, one.item) for inquiry in found for one in inquiry.findings}
    return (
        f"{counted(len(found), 'question').capitalize()} would decide "
        f"{counted(len(findings), 'requirement')}. The number before each is its rank by what it "
        "decides."
    )
