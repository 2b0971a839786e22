"""How far an interview has got, and the steps by which it goes back."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.interview.question import Question
from tundish.interview.reply import Verdicts
from tundish.text.inline_toml import inline


@dataclass(frozen=True, slots=True)
class Progress:
    """How far an interview has got.

    Attributes:
        verdicts: The verdicts that have been told.
        left: Places that were left open.
        within: Groups and list items whose facts are asked for first, the innermost last.
        answered: Places that were answered.
    """

    verdicts: Verdicts
    left: frozenset[str] = frozenset()
    within: tuple[str, ...] = ()
    answered: tuple[str, ...] = ()

    @property
    def lists(self) -> tuple[str, ...]:
        """Return the lists of which an item is asked about, so that more may come."""
        return tuple(path.rpartition("[")[0] for path in self.within if path.endswith("]"))

    def with_left(self, question: Question) -> Progress:
        """Return the progress once a question was left open."""
        return replace(self.with_end(question), left=self.left | {question.path})

    def with_end(self, question: Question) -> Progress:
        """Return the progress once no more of a list is asked for; else the same."""
        if question.form != "another":
            return self
        return replace(self, within=self._without_item(question.path))

    def with_answer(self, question: Question, place: str, value: Any) -> Progress:
        """Return the progress once an answer stands in the file.

        Args:
            question: The question.
            place: Where the answer stands.
            value: What stands there.
        """
        within = self.within
        if question.form == "another":
            within = self._without_item(question.path)
        if isinstance(value, dict):
            within = (*within, place)
        left = self.left - {question.path}
        return replace(self, left=left, within=within, answered=(*self.answered, place))

    def _without_item(self, path: str) -> tuple[str, ...]:
        """Return what is asked for first without the item of a list, and what is inside it."""
        lists = [name.rpartition("[")[0] for name in self.within]
        return self.within[: lists.index(path)] if path in lists else self.within


@dataclass(frozen=True, slots=True)
class Step:
    """What was before an answer, to go back to.

    Attributes:
        question: The question.
        progress: How far the interview had got.
        file: The file that the answer changed, or None.
        before: The file's bytes before the answer.
        after: The file's bytes with it.
    """

    question: Question
    progress: Progress
    file: Path | None = None
    before: bytes = b""
    after: bytes = b""


def place_of(question: Question, value: Any, count: int) -> str:
    """Return where an answer is written: of a list that has items, where the next one stands.

    Args:
        question: The question.
        value: The answer.
        count: How many items its list has [1].
    """
    is_item = question.form in ("list", "another") and isinstance(value, dict)
    return f"{question.path}[{count + 1}]" if is_item else question.path


def written_words(question: Question, place: str, value: Any) -> str:
    """Say what was written, as it stands in the file where that is short.

    Args:
        question: The question.
        place: Where it was written.
        value: What was written.
    """
    if not isinstance(value, dict):
        return f"{place} = {inline(value)}"
    if question.form == "group":
        return f"{place} is there"
    name = f" '{value['name']}'" if "name" in value else ""
    return f"{place}, {question.of_one}{name}"
