"""What is said of a survey: the questions, in the order of what they decide, by who can answer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import count

from tundish.findings.finding import Assessment, Finding
from tundish.job.model.schema import Entry, Items
from tundish.report.page.line import GAP, Line, entries
from tundish.report.tell.assessment import caution_lines
from tundish.report.tell.fact_phrases import kind_words
from tundish.report.tell.phrases import counted, in_words, listed
from tundish.report.tell.summary import by_severity
from tundish.rulebook.model.declared_facts import kind_of
from tundish.rulebook.rulebook import Rulebook
from tundish.survey.survey import Inquiry

_MOST_PLACES = 3


def survey_lines(
    assessment: Assessment, survey: Sequence[Inquiry], rulebook: Rulebook
) -> Iterator[Line]:
    """Give all questions, grouped by who can answer, those who decide the most first.

    Args:
        assessment: The findings that wait.
        survey: What is not known, ranked.
        rulebook: Knows the facts that packs declare.
    """
    yield Line("heading", f"To find out: {assessment.job or assessment.file or 'a job'}")
    yield Line("under", f"stage: {assessment.stage or 'not said, so everything is asked'}")
    number = count(1)
    for who in dict.fromkeys(inquiry.asked.who for inquiry in survey):
        asked = [inquiry for inquiry in survey if inquiry.asked.who == who]
        yield from (GAP, Line("section", f"ask the {who} ({counted(len(asked), 'question')})"))
        for inquiry in asked:
            yield GAP
            yield from _inquiry(inquiry, next(number), rulebook)
    yield from (GAP, Line("section", "how it stands"), Line("words", _summary(survey)))
    yield from caution_lines(assessment.cautions)


def _inquiry(inquiry: Inquiry, number: int, rulebook: Rulebook) -> Iterator[Line]:
    yield Line("question", f"{number}. {inquiry.asked.question}")
    yield from entries("how", [inquiry.asked.how] if inquiry.asked.how else [])
    yield from entries("answer in", _answers(inquiry, rulebook))
    limits = dict.fromkeys(fact.limit for fact in inquiry.facts if fact.limit)
    yield from entries("against", list(limits)[:_MOST_PLACES])
    yield from entries("write in", _places(inquiry))
    yield Line("entry", _decides(inquiry), "decides")


def _answers(inquiry: Inquiry, rulebook: Rulebook) -> list[str]:
    """Return how a question is answered; a group or list by the few questions in it."""
    path = inquiry.asked.path
    entry = rulebook.asked(path)
    if not inquiry.inside:
        return [kind_words(entry, kind_of(path, rulebook.declared)) if entry else "a text"]
    inside = [_question_inside(inner, rulebook) for inner in inquiry.inside]
    if isinstance(entry, Items):
        if inquiry.asked.question != entry.question:  # some of them are listed already
            return ["for each that is missing:", *inside]
        return ["[] if there are none; else for each:", *inside]
    return ['"none" if there is none; else:', *inside]


def _question_inside(entry: Entry, rulebook: Rulebook) -> str:
    words = kind_words(entry, kind_of(entry.path, rulebook.declared))
    return f"{entry.question} {words[:1].upper()}{words[1:]} ({entry.path})"


def _places(inquiry: Inquiry) -> list[str]:
    places = list(inquiry.places[:_MOST_PLACES])
    more = len(inquiry.places) - len(places)
    return [*places, f"and {counted(more, 'place')} more"] if more else places


def _decides(inquiry: Inquiry) -> str:
    total = len(inquiry.findings)
    text = possible(inquiry.findings)
    if inquiry.alone:
        text += " by itself" if inquiry.alone == total else f", {in_words(inquiry.alone)} by itself"
    if inquiry.through:
        number = "all" if len(inquiry.through) == total else in_words(len(inquiry.through))
        text += f"; {number} through a figure that is worked out from it"
    return text


def possible(findings: Iterable[Finding]) -> str:
    """Return how many breaches of each severity findings that wait may turn out to be."""
    return listed(by_severity(findings, "possible "))


def _summary(survey: Sequence[Inquiry]) -> str:
    if not survey:
        return "Nothing is left to find out at this stage."
    findings = {(finding.rule, finding.item) for inquiry in survey for finding in inquiry.findings}
    return (
        f"{counted(len(survey), 'question').capitalize()} would decide "
        f"{counted(len(findings), 'requirement')}. Of each who is asked, what decides the most "
        f"stands first.{_early(survey)}"
    )


def _early(survey: Sequence[Inquiry]) -> str:
    """Say how many questions could wait, and why they are asked all the same."""
    early = sum(not any(finding.due for finding in inquiry.findings) for inquiry in survey)
    if not early:
        return ""
    due = counted(early, "of them is", "of them are")
    part = f"{due[:1].upper()}{due[1:]} due at a later stage only"
    return f" {part}, and asked now so that nobody has to go twice."
