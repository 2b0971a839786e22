"""The interview itself: the question that is asked now, and what becomes of each answer."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from tundish.groundwork.open_list import OpenList
from tundish.interview.answer import Answer, Misread, read_answer
from tundish.interview.job_text import AnswerConflictError, JobText
from tundish.interview.open_questions import JobStatus, question_at, status_of
from tundish.interview.order import Order
from tundish.interview.progress import Progress, Step, place_of, written_words
from tundish.interview.question import Form, Question
from tundish.interview.reply import Reply, Summary, decided_since, verdicts_in
from tundish.job.changes import value_at
from tundish.job.parts.heading import COMPLETE_LISTS, OPEN_LISTS, Heading
from tundish.rulebook.model.choices import Stage
from tundish.rulebook.rulebook import Rulebook

STOP = ("stop", "quit", "exit", "q")
BACK = ("back", "<")
MORE = ("?", "help")
OPEN = ("skip", "unknown", "not known", "don't know")


class Interview:
    """An interview about one job, whose answers go into its file one by one.

    Nothing is printed. `question` is what is asked now, or None at the end; `answer` takes what
    somebody said to it and tells what became of it.

    Args:
        path: The job's file.
        rulebook: The rules that decide what is asked; the built-in ones if left out.
        stage: The stage to judge at, in place of the job's own.
        region: The ISO 3166 code of the region to judge for, in place of the job's own.
        order: What facts are sorted by, such as `schema_order`; if left out, what decides the
            most comes first.

    Raises:
        Refused: If the job cannot be read, or is a form or sheet merged over one.
    """

    def __init__(
        self,
        path: str | Path,
        rulebook: Rulebook | None = None,
        *,
        stage: Stage | None = None,
        region: str | None = None,
        order: Order | None = None,
    ) -> None:
        self._rulebook = rulebook or Rulebook.built_in()
        self._stage, self._region, self._order = stage, region, order
        self._text = JobText(Path(path), self._rulebook)
        self._status = self._judged()
        self._progress = Progress(verdicts_in(self._status.judged))
        self._steps: list[Step] = []
        self._offer = ""
        self.question: Question | None = self._next()

    @property
    def status(self) -> JobStatus:
        """Return how the job stands now."""
        return self._status

    @property
    def number(self) -> int:
        """Return the number of the question that is asked now, counted from 1."""
        return len(self._steps) + 1

    def answer(self, text: str) -> Reply:
        """Take an answer to the question.

        Args:
            text: What was said. Nothing or "skip" says "not known"; "back", "stop" and "?" do what
                they say. In double quotes any word is taken as the answer itself.

        Raises:
            ValueError: If nothing is asked any more.
            Refused: If a file of the job was changed meanwhile and can no longer be read.
            OSError: If the file cannot be written.
        """
        question = self.question
        if question is None:
            raise ValueError("The interview is over.")
        word, offer, self._offer = text.strip(), self._offer, ""
        if offer and word.lower() in ("y", "yes"):
            word = offer
        literal = len(word) > 1 and word[0] == word[-1] == '"'
        command = "" if literal else _command(word, question)
        if command:
            return self._commanded(command, question)
        word = word[1:-1].strip() if literal else word
        if not word:
            return self._without_value(question)
        reading = read_answer(word, question, literal)
        if isinstance(reading, Misread):
            self._offer = reading.offer
            return Reply("misread", reading.sentence)
        return self._taken(question, reading)

    def stop(self) -> Reply:
        """End the interview; all that was answered stands in the file already."""
        self.question = None
        return Reply("stopped")

    def summary(self) -> Summary:
        """Return how the interview leaves the job."""
        progress = self._progress
        return Summary(
            self._status.assessment,
            len(set(progress.answered)),
            len(progress.left),
            len(self._status.waiting),
            tuple((path, self._count(path)) for path in progress.lists),
        )

    # -- what an answer does ------------------------------------------------------------------

    def _commanded(self, command: str, question: Question) -> Reply:
        if command == "stop":
            return self.stop()
        if command == "open":
            return self._left_open(question)
        return self._back() if command == "back" else Reply("more")

    def _left_open(self, question: Question) -> Reply:
        self._steps.append(Step(question, self._progress))
        self._progress = self._progress.with_left(question)
        return self._went_on(Reply("left"))

    def _without_value(self, question: Question) -> Reply:
        """Take that there is nothing to say; of a list, that no more is to be added to it."""
        if question.form != "another":
            return self._left_open(question)
        is_open = isinstance(value_at(self._status.facts, question.path), OpenList)
        if is_open and "[" not in question.path:
            return self._written(question, *self._completion(question.path))
        self._steps.append(Step(question, self._progress))
        self._progress = self._progress.with_end(question)
        return self._went_on(Reply("left"))

    def _completion(self, path: str) -> tuple[str, list[str]]:
        """Return where a job says that a list is complete, and what it says there."""
        heading = self._status.job.job or Heading()
        open_lists = list[str](heading.open_lists or ())
        if path in open_lists:
            return OPEN_LISTS, [other for other in open_lists if other != path]
        return COMPLETE_LISTS, [*(heading.complete_lists or ()), path]

    def _taken(self, question: Question, answer: Answer) -> Reply:
        if answer.value is None:
            return self._without_value(question)
        place = place_of(question, answer.value, self._count(question.path))
        return self._written(question, place, answer.value)

    def _written(self, question: Question, place: str, value: Any) -> Reply:
        notes = self._read_again()
        if notes and not self._is_still_asked(question):
            self.question = self._next()
            return Reply("left", "It is known by now; nothing was written.", notes)
        before = self._text.file_of(place).content
        try:
            file = self._text.put(place, value)
        except AnswerConflictError as conflict:
            return Reply("misread", str(conflict), notes)
        self._steps.append(Step(question, self._progress, file.path, before, file.content))
        self._progress = self._progress.with_answer(question, place, value)
        self._status = self._judged()
        if self._text.is_first_into_sheet(file):
            notes = (*notes, f"{file.path} is a unit sheet; other jobs may name it too.")
        words = written_words(question, place, value)
        return self._went_on(Reply("written", f"{words}, in {file.path}", notes))

    def _went_on(self, reply: Reply) -> Reply:
        """Go on to the next question; tell what is decided, unless a list is not told to its end.

        Half a list decides rules otherwise than the whole of it does.
        """
        self.question = self._next()
        if self._progress.lists:
            return reply
        judged = self._status.judged
        decided = decided_since(self._progress.verdicts, judged)
        self._progress = replace(self._progress, verdicts=verdicts_in(judged))
        return replace(reply, decided=decided)

    def _back(self) -> Reply:
        if not self._steps:
            return Reply("misread", "This is the first question; there is none before it.")
        step = self._steps.pop()
        notes = self._read_again()
        if step.file is not None and not self._text.put_back(step.file, step.before, step.after):
            notes = (*notes, "What was answered stands in the file still; answer it anew.")
        self._progress, self._status = step.progress, self._judged()
        self.question = self._question(step.question.path, step.question.form)
        return Reply("back", notes=notes)

    # -- how it stands ------------------------------------------------------------------------

    def _judged(self) -> JobStatus:
        job = self._text.job
        return status_of(job, self._rulebook, self._stage, self._region, self._order)

    def _next(self) -> Question | None:
        """Return the next question: within the group or item that was begun, while there is one."""
        progress = self._progress
        waiting = [place for place in self._status.waiting if place not in progress.left]
        while progress.within:
            inner = progress.within[-1]
            inside = [place for place in waiting if place.startswith((f"{inner}.", f"{inner}["))]
            if inside:
                return self._question(inside[0])
            if inner.endswith("]"):
                return self._question(inner.rpartition("[")[0], "another")
            progress = self._progress = replace(progress, within=progress.within[:-1])
        return self._question(waiting[0]) if waiting else None

    def _question(self, place: str, form: Form | None = None) -> Question:
        file = str(self._text.file_of(place).path)
        return question_at(place, self._status, self._rulebook, file, form)

    def _count(self, path: str) -> int:
        items = value_at(self._status.facts, path)
        return len(items) if isinstance(items, list) else 0

    def _read_again(self) -> tuple[str, ...]:
        """Read the files anew if somebody else has changed them, and judge the job anew."""
        changed = self._text.read_again()
        if changed:
            self._status = self._judged()
        return tuple(f"{path} was changed meanwhile; it was read anew." for path in changed)

    def _is_still_asked(self, question: Question) -> bool:
        if question.form == "another":
            return self._count(question.path) > 0
        return question.path in self._status.waiting


def _command(word: str, question: Question) -> str:
    """Return which command a word is; none where the question has a choice of that word."""
    lowered = word.lower().replace("\u2019", "'")
    if lowered in question.choices:
        return ""
    return next((name for name, words in _COMMANDS.items() if lowered in words), "")


_COMMANDS = {"stop": STOP, "back": BACK, "more": MORE, "open": OPEN}
