"""Finding all mistakes in a broken text, by mending a copy mistake by mistake."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.text.bounds import LARGEST_FILE, MOST_VALUES
from tundish.text.escape import escape_aligned
from tundish.text.problem import Problem, Problems
from tundish.text.toml_mistakes.failure import Failure
from tundish.text.toml_mistakes.mistake import Cure, Mistake
from tundish.text.toml_mistakes.recognisers import recognised
from tundish.text.toml_mistakes.scanner import Scanner, Statement
from tundish.text.toml_mistakes.tables import Tables

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")
# Most lines look like this, and are valid without asking the parser.
_PLAIN = re.compile(
    r"[ \t]*[A-Za-z0-9_-]+(?:\.[A-Za-z0-9_-]+)*[ \t]*=[ \t]*"
    r"(?:\"[^\"\\\x00-\x1f\x7f]*\"|true|false|0|[1-9][0-9]*)[ \t]*"
)
_LONGEST_STATEMENT = 1_000_000  # characters; a longer one is not analysed
_SHOWN_WIDTH = 70  # with what it is indented by, a line stays within 80 columns
_SHOWN_BEFORE = 30
_CUT = "…"


@dataclass(frozen=True, slots=True)
class Mended:
    """A broken text, as far as it could be read.

    Attributes:
        problems: What is wrong with it.
        text: A copy with the same number of lines that is TOML; None where a mistake remains.
        data: What the copy holds, or None.
    """

    problems: tuple[Problem, ...]
    text: str | None
    data: dict[str, Any] | None


def mended(text: str, name: str) -> Mended:
    """Find what is wrong with a text that is no TOML, and mend a copy of it.

    Each statement is parsed by itself, so that one mistake hides no other; then statements that
    clash are looked for. The time grows linearly with the length of the text.

    Args:
        text: The text.
        name: Name of the file, as problems show it.

    Raises:
        Refused: If there are more problems than the bound.
    """
    return _Mending(text.replace("\r\n", "\n"), name).done()


class _Mending:
    def __init__(self, text: str, name: str) -> None:
        self._text = text
        self._name = name
        self._problems = Problems()
        self._lines = [""] * (text.count("\n") + 1)
        self._whole = True
        self._tables = Tables(text.split("\n"))
        self._left = LARGEST_FILE  # characters that may still be analysed
        self._last = ""  # the mistake that the statement before could not be mended for

    def done(self) -> Mended:
        for count, statement in enumerate(Scanner(self._text).statements()):
            if count > MOST_VALUES:
                self._whole = False
                break
            self._statement(statement)
        data = self._read() if self._whole else None
        if not self._problems:
            self._report_parser_error()
        text = "\n".join(self._lines) if data is not None else None
        return Mended(tuple(self._problems), text, data)

    def _statement(self, statement: Statement) -> None:
        text = self._mended(statement)
        self._last = self._last if text is None else ""
        if text is None:
            self._whole = False
            if statement.text.lstrip(" \t").startswith("["):
                self._tables.leave()
            return
        self._put(statement, text)
        clash = self._tables.add(statement, text)
        if clash is not None:
            self._report(clash.at, clash.start, clash.end, clash.sentence)
            if clash.needless is not None:
                self._put(clash.needless, "\n" * clash.needless.text.count("\n"))
                return
            self._whole = self._whole and clash.cure is not None
            self._put(clash.at, clash.cure or "")
            if clash.header is not None:  # what follows is taken to be below it
                self._put(clash.header, clash.header.text)
                self._tables.add(clash.header, clash.header.text)
                self._tables.add(statement, text)

    def _put(self, statement: Statement, text: str) -> None:
        """Put a statement in its place in the copy."""
        rows = text.split("\n")
        self._lines[statement.line - 1 : statement.line - 1 + len(rows)] = rows

    def _mended(self, statement: Statement) -> str | None:
        """Return a statement that can be read, or None where nobody can know what was meant."""
        if _PLAIN.fullmatch(statement.text):
            return statement.text
        text, edits, reported = statement.text, list[Cure](), set[tuple[int, str]]()
        while (failure := failure_of(text)) is not None:
            mistake = self._recognised(failure)
            if mistake is None:
                if not reported:
                    start = _in_original(failure.at, edits)
                    self._report(statement, start, start + 1, unrecognised(failure.message))
                return None
            start, end = (_in_original(at, edits) for at in (mistake.start, mistake.end))
            if (start, mistake.sentence) in reported:
                return None
            reported.add((start, mistake.sentence))
            again = mistake.cure is None and mistake.sentence == self._last
            if not again:  # one cause, such as a missing bracket above, makes many such lines
                self._report(statement, start, end, mistake.sentence)
            if mistake.cure is None:
                self._last = mistake.sentence
                return None
            edits.append(mistake.cure)
            text = text[: mistake.cure.start] + mistake.cure.text + text[mistake.cure.end :]
        return text

    def _recognised(self, failure: Failure) -> Mistake | None:
        self._left -= len(failure.text)
        if self._left < 0 or len(failure.text) > _LONGEST_STATEMENT:
            return None
        return recognised(failure)

    def _report(self, statement: Statement, start: int, end: int, sentence: str) -> None:
        """Note a problem in a statement, with its line."""
        text = statement.text
        start = min(start, len(text))
        begins = text.rfind("\n", 0, start) + 1
        ends = text.find("\n", start)
        line = text[begins : len(text) if ends < 0 else ends]
        number = statement.line + text.count("\n", 0, begins)
        shown = _line_and_caret(line, start - begins, end - begins)
        self._problems.append(
            Problem(self._name, number, start - begins + 1, f"{sentence}\n{shown}")
        )

    def _read(self) -> dict[str, Any] | None:
        try:
            return tomllib.loads("\n".join(self._lines))
        except (ValueError, RecursionError):
            return None

    def _report_parser_error(self) -> None:
        failure = failure_of(self._text)
        if failure is not None:
            whole = Statement(1, self._text)
            self._report(whole, failure.at, failure.at + 1, unrecognised(failure.message))


def failure_of(text: str) -> Failure | None:
    """Return where and why a text cannot be read, or None if it can."""
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        place = _PLACE.search(str(error))
        message = _PLACE.sub("", str(error))
        if place is None or place[1] is None:
            return Failure(text, len(text), message)
        rows = text.split("\n")[: int(place[1]) - 1]
        return Failure(text, sum(len(row) + 1 for row in rows) + int(place[2]) - 1, message)
    except RecursionError:
        return Failure(text, 0, "Tables and lists stand too deep inside one another")
    except ValueError as error:
        return Failure(text, 0, f"A value cannot be read: {error}")
    return None


def unrecognised(message: str) -> str:
    """Return the sentence for a mistake that is not known."""
    return f"This is not TOML: {message}."


def _in_original(at: int, edits: list[Cure]) -> int:
    """Return the index that a character had in the statement before it was mended."""
    for edit in reversed(edits):
        after = edit.start + len(edit.text)
        if at >= after:
            at -= len(edit.text) - (edit.end - edit.start)
        else:
            at = min(at, edit.start + max(0, min(at - edit.start, edit.end - edit.start)))
    return at


def _line_and_caret(line: str, start: int, end: int) -> str:
    r"""Return a line and carets below it, as two rows that begin with blanks.

    Args:
        line: The line; of a long one the part around the place is shown.
        start: Index in it of the first character that is meant.
        end: Index after the last.

    Example:
        >>> print(_line_and_caret("bonding = yes", 10, 13))
            bonding = yes
                      ^^^
    """
    cut = 0
    if len(line) > _SHOWN_WIDTH:
        cut = max(0, min(start - _SHOWN_BEFORE, len(line) - _SHOWN_WIDTH + 1))
        part = line[cut : cut + _SHOWN_WIDTH - 2]
        behind = _CUT if cut + len(part) < len(line) else ""
        line = (_CUT if cut else "") + part + behind
        cut -= 1 if cut else 0
    start, end = start - cut, min(end - cut, len(line))
    return f"    {escape_aligned(line).rstrip()}\n    {' ' * start}{'^' * max(1, end - start)}"
