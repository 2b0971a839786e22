"""What is said of the facts that are not known yet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.findings.finding import STAGES, Assessment, Finding
from tundish.job.hints import written_path
from tundish.report.page.line import GAP, Line, entries
from tundish.report.tell.phrases import counted, listed
from tundish.survey.question import Question, questions

_MOST_NAMED = 2

_MOST_EARLY = 10
"""Questions of an enquiry on a page; 'tundish survey' has all."""


def question_lines(question: Question) -> Iterator[Line]:
    """Give all that is said of one question."""
    asked = question.asked
    yield Line("question", asked.question)
    yield from entries("how", [asked.how] if asked.how else [])
    yield from entries("who", [asked.who] if asked.who else [])
    # The path is what one writes into the job; the label says what it means.
    yield from entries("write in", _places(question))
    waiting: dict[str, list[Finding]] = {}
    for finding in question.decides.values():
        waiting.setdefault(finding.rule, []).append(finding)
    yield Line("entry", f"{counted(len(waiting), 'requirement')}:", "decides")
    for findings in waiting.values():
        text = _decided(findings, question)
        yield Line("finding", text, label="decides", severity=findings[0].severity)


def waiting_lines(later: Iterable[Finding], asked_now: Iterable[Question]) -> Iterator[Line]:
    """Give one item for each later stage with the facts that can wait until then.

    Args:
        later: Undecided findings that are not due yet.
        asked_now: Questions that are asked now, so that none of them is said to be able to wait.
    """
    now = {question.asked.question for question in asked_now}
    asked_already: set[str] = set()
    for stage in STAGES:
        at_stage = questions(finding for finding in later if finding.stage == stage)
        labels = [
            question.label
            for question in at_stage
            if question.asked.question not in now | asked_already
        ]
        asked_already |= {question.asked.question for question in at_stage}
        if labels:
            yield Line("item", f"until {stage}: {', '.join(dict.fromkeys(labels))}")


def early_lines(later: Iterable[Finding], assessment: Assessment) -> Iterator[Line]:
    """Give what can be asked already although nothing has to be decided yet, as at an enquiry.

    Args:
        later: Undecided findings that are not due yet.
        assessment: The assessment that they are of.
    """
    # Loaded here, as only a page without a question that is due needs it.
    from tundish.rulebook.forms.walk import Walk

    walk, stage = Walk.built_in(), assessment.stage
    early = [
        question
        for question in questions(later)
        if walk.is_asked_at(stage, question.asked.path, question.asked.who)
    ]
    if not early:
        return
    yield from (GAP, Line("section", f"to find out at the {stage} stage"))
    yield Line("words", "Nothing has to be decided yet; these decide the most later.")
    for question in early[:_MOST_EARLY]:
        yield Line("item", f"{question.asked.question} ({written_path(question.asked.path)})")
    more = len(early) - _MOST_EARLY
    left = f" {counted(more, 'further question').capitalize()}." if more > 0 else ""
    file = assessment.file or "JOB"
    yield Line("words", f"'tundish ask {file}' asks them one by one.{left}")


def _places(question: Question) -> list[str]:
    """Return the paths that a file has the answers at, each with the label of the fact."""
    places: dict[str, str] = {}
    for path, fact in question.facts.items():
        places.setdefault(written_path(path), fact.label)
    return [f"{path}  ({label})" for path, label in places.items()]


def _decided(findings: list[Finding], question: Question) -> str:
    items = ", ".join(finding.item for finding in findings if finding.item)
    text = f"{findings[0].title}: {items}" if items else findings[0].title
    others = list(
        dict.fromkeys(other for finding in findings for other in question.others(finding))
    )
    if not others:
        return text
    # The rest is asked too, but a long list would hide what it decides.
    if len(others) > _MOST_NAMED:
        return f"{text} (with {counted(len(others), 'other fact')})"
    return f"{text} (with {listed(others)})"
