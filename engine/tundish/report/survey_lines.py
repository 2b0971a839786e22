"""What is said of a survey: the questions, in the order of what they decide, by who can answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count

from tundish.assessment.finding import SEVERITIES, Assessment, Finding
from tundish.assessment.survey import Inquiry
from tundish.job.hints import choices_in_a_row
from tundish.job.schema import Entry, Fact, Items, Record
from tundish.report.assessment_lines import caution_lines
from tundish.report.line import GAP, Line, entries
from tundish.report.words import counted, in_words, listed
from tundish.rulebook.rulebook import Rulebook

_MOST_PLACES = 3


def survey_lines(
    assessment: Assessment, found: Sequence[Inquiry], rulebook: Rulebook
) -> Iterator[Line]:
    """Give all questions, grouped by who can answer, those who decide the most first.

    Args:
        assessment: The findings that wait.
        found: What is not known, ranked.
        rulebook: Knows the facts that packs declare.
    """
    yield Line("heading", f"To find out: {assessment.job or assessment.file or 'a job'}")
    yield Line("under", f"stage: {assessment.stage or 'not said, so everything is asked'}")
    number = count(1)
    for who in dict.fromkeys(inquiry.asked.who for inquiry in found):
        asked = [inquiry for inquiry in found if inquiry.asked.who == who]
        yield from (GAP, Line("section", f"ask the {who} ({counted(len(asked), 'question')})"))
        for inquiry in asked:
            yield GAP
            yield from _inquiry(inquiry, next(number), rulebook)
    yield from (GAP, Line("section", "how it stands"), Line("words", _summary(found)))
    yield from caution_lines(assessment.cautions)


def _inquiry(inquiry: Inquiry, number: int, rulebook: Rulebook) -> Iterator[Line]:
    yield Line("question", f"{number}. {inquiry.asked.question}")
    yield from entries("how", [inquiry.asked.how] if inquiry.asked.how else [])
    yield from entries("answer in", _answers(inquiry, rulebook))
    limits = dict.fromkeys(one.limit for one in inquiry.facts if one.limit)
    yield from entries("against", list(limits)[:_MOST_PLACES])
    yield from entries("write in", _places(inquiry))
    yield Line("entry", _decides(inquiry), "decides")


def _answers(inquiry: Inquiry, rulebook: Rulebook) -> list[str]:
    """Return how a question is answered; a group or list by the few questions in it."""
    entry = rulebook.asked(inquiry.asked.path)
    if not inquiry.inside:
        return [_answer(entry)]
    if isinstance(entry, Items):
        return ["[] if there are none; else for each:", *map(_question_inside, inquiry.inside)]
    return ['"none" if there is none; else:', *map(_question_inside, inquiry.inside)]


def _question_inside(entry: Entry) -> str:
    return f"{entry.question} {_answer(entry)[:1].upper()}{_answer(entry)[1:]} ({entry.path})"


def _answer(entry: Entry | None) -> str:
    if isinstance(entry, Record) and entry.example:
        return f"a size such as {entry.example}"
    if not isinstance(entry, Fact):
        return "a group of facts"
    if entry.choices:
        several = "a list out of" if entry.kind == "texts" else "one of"
        return f"{several} {', '.join(choices_in_a_row(entry.choices))}"
    if entry.kind == "truth":
        return "true or false"
    words = {
        "quantity": f"any unit of {entry.dimension.name if entry.dimension else ''},",
        "number": "a plain number",
        "date": "a day",
        "texts": "a list",
    }.get(entry.kind, "text")
    return f"{words} such as {entry.example}" if entry.example else words


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
        f"{counted(len(findings), 'requirement')}. Of each who is asked, what decides the most "
        "stands first."
    )
