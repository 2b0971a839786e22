"""What an interview says: its questions, what became of each answer, and how it leaves the job."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from tundish.interview.interview import BACK
from tundish.interview.open_questions import JobStatus
from tundish.interview.question import Question
from tundish.interview.reply import Decided, Reply, Summary
from tundish.job.model.kinds import DateKind, TextsKind, TruthKind
from tundish.report.page.line import GAP, Line, entries
from tundish.report.tell.command_text import typed
from tundish.report.tell.fact_phrases import kind_words
from tundish.report.tell.phrases import as_sentence, counted, in_words, listed
from tundish.report.tell.summary import by_severity
from tundish.report.tell.survey import possible
from tundish.rulebook.evaluate.judge import Verdict
from tundish.text.escape import escape

_MOST_TOLD = 12

_WORDS = {
    "Enter alone": "not known",
    "none": "there is none",
    "back": "the question before again",
    "?": "what an answer would decide",
    "stop": "enough for now",
}
"""What can be said to every question."""


def opening_lines(status: JobStatus, file: str) -> Iterator[Line]:
    """Give what stands above the first question.

    Args:
        status: How the job stands.
        file: The file of the job.
    """
    assessment = status.assessment
    yield Line("heading", f"Asked about: {assessment.job or file}")
    stage = assessment.stage or "not said, so everything is asked"
    yield Line("under", f"stage: {stage}; open: {counted(len(status.waiting), 'question')}")
    if not status.waiting:
        yield Line("words", "All that is due is known; --stage asks for a later stage.")
        return
    yield Line("words", f"Each answer is written into {file} at once.")
    yield from (Line("item", f"{word}: {does}") for word, does in _WORDS.items())


def question_lines(question: Question, number: int, more: int) -> Iterator[Line]:
    """Give a question with all that helps to answer it.

    Args:
        question: The question.
        number: Its number [1].
        more: How many others are open [1].
    """
    yield GAP
    yield Line("section", f"question {number}, {more} more open")
    yield asked_line(question)
    if question.form != "another":
        yield from entries("find out", [question.asked.how] if question.asked.how else [])
        yield from entries("held to", list(question.limits[:1]))
    yield from entries("answer", _allowed(question))
    if question.findings:
        yield Line("entry", possible(question.findings), "decides")
    yield Line("entry", f"{question.path} in {question.file}", "written as")


def asked_line(question: Question) -> Line:
    """Give the question alone."""
    text = question.asked.question
    if question.form == "another":
        text = f"Another {question.of_one}? ({text})"
        return Line("question", f"{question.item}: {text}" if question.item else text)
    about = ", ".join(name for name in (question.item, question.group) if name)
    if not question.item:  # a name of the user's stays as it is written
        about = about[:1].upper() + about[1:]
    return Line("question", f"{about}: {text}" if about else text)


def _allowed(question: Question) -> list[str]:
    """Say what may be answered."""
    noun = question.of_one
    match question.form:
        case "group":
            none = ", or none" if question.can_be_absent else ""
            return [f"yes{none}; if yes, what rules ask of it comes next"]
        case "list" if question.named:
            return [f"none, or the name of the first, such as {noun} 1"]
        case "list":
            return ["none, or yes for the first"]
        case "another":
            return [
                f"its name, such as {noun} 2" if question.named else "yes",
                "nothing if no more",
            ]
    if question.choices:
        return _choices(question)
    return [_in_words(question)]


def _in_words(question: Question) -> str:
    match question.kind:
        case TruthKind():
            return "yes or no"
        case TextsKind():
            return "words with commas between them, or none"
        case DateKind():
            return f"{kind_words(question.asked, question.kind)} or 2.11.2026"
        case kind:
            return kind_words(question.asked, kind)


def _choices(question: Question) -> list[str]:
    """Give the choices, each with the number that stands for it."""
    texts = [f"{at}  {choice}" for at, choice in enumerate(question.choices, start=1)]
    if isinstance(question.kind, TextsKind):
        texts.append("several with commas between them, or none")
    if set(BACK) & set(question.choices):
        texts.append(f"{BACK[-1]} goes back to the question before")
    return texts


def reply_lines(reply: Reply, question: Question, rules: Sequence[str] = ()) -> Iterator[Line]:
    """Give what became of an answer.

    Args:
        reply: What the interview says to it.
        question: The question that was answered.
        rules: Folders of rules on top of the built-in ones, for the commands that are named.
    """
    yield from (Line("words", note) for note in reply.notes)
    match reply.outcome:
        case "misread":
            yield from (Line("statement", reply.sentence), asked_line(question))
        case "more":
            yield from _more(question, rules)
        case "written":
            yield Line("entry", reply.sentence, "written")
        case "left":
            open_yet = reply.sentence or ("" if question.form == "another" else "Left open.")
            yield from [Line("statement", open_yet)] if open_yet else []
    if reply.decided is not None and (reply.outcome == "written" or reply.decided != Decided()):
        yield Line("entry", _decided(reply.decided, rules), "decided")


def _more(question: Question, rules: Sequence[str]) -> Iterator[Line]:
    """Give the rules that wait for an answer, the worst first."""
    shown = question.findings[:_MOST_TOLD]
    if not shown:
        yield Line("statement", "No rule waits for it alone.")
    for finding in shown:
        of = f" ({finding.item})" if finding.item else ""
        text = f"{finding.title}{of}; {typed('explain', finding.rule, rules=rules)}"
        yield Line("finding", text, label="decides", severity=finding.severity)
    if len(question.findings) > len(shown):
        yield Line("statement", f"And {in_words(len(question.findings) - len(shown))} more.")


def _decided(decided: Decided, rules: Sequence[str]) -> str:
    """Say in one line what an answer has decided."""
    numbers = [(len(decided.met), "met"), (len(decided.not_applicable), "not applicable")]
    parts = [f"{in_words(number)} {word}" for number, word in numbers if number]
    parts += by_severity(decided.breached)
    text = as_sentence(", ".join(parts))
    if not decided.breached:
        return f"{text}." if text else "Nothing by itself yet."
    worst, more = decided.breached[0], len(decided.breached) - 1
    others = f"; {in_words(more)} more" if more else ""
    explain = typed("explain", worst.rule, rules=rules)
    return f"{text}: {_first_sentence(worst.statement)} ({explain}{others})"


def _first_sentence(text: str) -> str:
    return re.split(r"(?<=\.) (?=[A-Z])", text, maxsplit=1)[0]


def summary_lines(summary: Summary, check: str) -> Iterator[Line]:
    """Give how an interview leaves the job.

    Args:
        summary: How it leaves it.
        check: The command to run next.
    """
    yield from (GAP, Line("section", "how it stands"))
    yield Line("entry", _answered(summary), "answered")
    yield from entries(
        "unfinished", [_unfinished(*path_and_count) for path_and_count in summary.unfinished]
    )
    assessment = summary.assessment
    breached = by_severity(assessment.of(Verdict.BREACHED))
    numbers = [
        f"{_number(assessment.count(Verdict.MET), 'requirement')} met",
        f"breached: {listed(breached)}" if breached else "none breached",
    ]
    yield Line("entry", as_sentence("; ".join(numbers)), "decided")
    left = _number(summary.open, "question")
    yield Line("entry", as_sentence(f"{left} left to find out at this stage"), "open")
    yield Line("entry", check, "next")


def _answered(summary: Summary) -> str:
    left = f"; {in_words(summary.left)} left open" if summary.left else ""
    return as_sentence(f"{_number(summary.answered, 'question')}{left}")


def _number(number: int, noun: str) -> str:
    return counted(number, noun) if number else f"no {noun}"


def _unfinished(path: str, count: int) -> str:
    items = counted(count, "item")
    return f"{path} has {items} so far; add what is missing, as rules take it for the whole"


def interrupted_text(answered: int, file: str) -> str:
    """Say what stands where after an interview was broken off."""
    return f"{as_sentence(_number(answered, 'answer'))} written into {escape(file)}."


def completions(question: Question) -> Sequence[str]:
    """Return the words that may be completed when a question is answered at a terminal."""
    if question.form == "group":
        return ("yes", "none")
    if question.form == "list":
        return ("none",)
    return question.choices or (("yes", "no") if isinstance(question.kind, TruthKind) else ())
