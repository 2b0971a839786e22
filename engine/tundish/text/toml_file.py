"""Reading a TOML file whole, and refusing it with a sentence when it cannot be read."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.text.bounds import (
    DEEPEST_NESTING,
    LARGEST_FILE,
    LONGEST_NAME,
    MOST_PROBLEMS,
    MOST_VALUES,
)
from tundish.text.file import decoded, read_content, too_large
from tundish.text.problem import Problem, Refused, refusal
from tundish.text.quoted import quoted

_BYTE_ORDER_MARK = "\ufeff"


@dataclass(frozen=True, slots=True)
class TomlFile:
    """A TOML file as text and as data.

    Args:
        name: Name of the file, as problems show it.
        text: The whole text, without a byte order mark.
        data: The tables, as Python dictionaries, lists and values.
        mistakes: What is wrong with the file. If there is anything, text and data are those of a
            mended copy, whose lines keep their numbers; empty for a file that is TOML.
    """

    name: str
    text: str
    data: dict[str, Any]
    mistakes: tuple[Problem, ...] = ()

    def with_mistakes(self, problems: Iterable[Problem]) -> list[Problem]:
        """Return its mistakes and further problems, without those on a line that was mended."""
        lines = {(problem.file, problem.line) for problem in self.mistakes}
        others = [problem for problem in problems if (problem.file, problem.line) not in lines]
        most = MOST_PROBLEMS - len(self.mistakes)
        if self.mistakes and len(others) > most:
            sentence = f"Not listed one by one: {len(others) - most} more."
            others[most:] = [Problem(self.name, None, None, sentence)]
        return [*self.mistakes, *others]


def read_toml(path: str | Path) -> TomlFile:
    """Return the TOML file at a path.

    Args:
        path: Where the file is; problems name it as written here.

    Returns:
        The file.

    Raises:
        Refused: If there is no such file, or it cannot be read as TOML in UTF-8 within the bounds.
    """
    return toml_of(content_of(path), str(path))


def read_mended(path: str | Path) -> TomlFile:
    """Return the TOML file at a path, mended where what was meant is plain.

    Args:
        path: Where the file is; problems name it as written here.

    Returns:
        The file; it says itself what is wrong with it.

    Raises:
        Refused: If it cannot be read, not even so.
    """
    name = str(path)
    return parse_mended(decoded(content_of(path), name), name)


def content_of(path: str | Path) -> bytes:
    """Return the bytes of a file that should be TOML, never more than one past the bound.

    Args:
        path: Where the file is; problems name it as written here.

    Raises:
        Refused: If there is no such file, or it is no plain file within the bound.
    """
    return read_content(path, str(path), LARGEST_FILE, "TOML file")


def toml_of(content: bytes, name: str) -> TomlFile:
    """Return the bytes of a TOML file as a file.

    Args:
        content: The bytes.
        name: Name of the file, as problems show it.

    Returns:
        The file.

    Raises:
        Refused: If they are not TOML in UTF-8, or past the bounds; with line and column.
    """
    return parse_toml(decoded(content, name), name)


def parse_toml(text: str, name: str) -> TomlFile:
    """Return TOML text as a file.

    Args:
        text: The TOML text; a byte order mark and Windows line ends are accepted.
        name: Name of the file, as problems show it.

    Returns:
        The file.

    Raises:
        Refused: If the text is not TOML, or is past the bounds; with line and column.
    """
    file = parse_mended(text, name)
    if file.mistakes:
        raise Refused(file.mistakes)
    return file


def parse_mended(text: str, name: str) -> TomlFile:
    """Return TOML text as a file, mended where what was meant is plain.

    Args:
        text: The TOML text; a byte order mark and Windows line ends are accepted.
        name: Name of the file, as problems show it.

    Returns:
        The file; it says itself what is wrong with it.

    Raises:
        Refused: If the text cannot be read, not even so, or is past the bounds.
    """
    text = text.removeprefix(_BYTE_ORDER_MARK)
    # A Python string may hold surrogates, which no file can; they would shift the places.
    size = len(text.encode("utf-8", "surrogatepass"))
    if size > LARGEST_FILE:
        raise refusal(name, too_large(size, LARGEST_FILE))
    _refuse_long_keys(text, name)
    mistakes: tuple[Problem, ...] = ()
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        text, data, mistakes = _mended(text, name)
    except RecursionError:
        raise refusal(name, _TOO_DEEP) from None
    except ValueError as error:
        # A whole number of thousands of digits is TOML, but Python declines to convert it.
        raise refusal(name, f"A value cannot be read: {error}.") from None
    wrong = _TOO_DEEP if deeper_than(data, DEEPEST_NESTING) else _past_bounds(data)
    if wrong:
        raise Refused(mistakes) if mistakes else refusal(name, wrong)
    return TomlFile(name, text, data, mistakes)


def _mended(text: str, name: str) -> tuple[str, dict[str, Any], tuple[Problem, ...]]:
    """Return a copy of a broken text that can be read, its data and what is wrong with it."""
    # Imported here, as only a broken file needs it.
    from tundish.text.toml_mistakes.mending import mended

    copy = mended(text, name)
    if copy.text is None or copy.data is None:
        raise Refused(copy.problems)
    return copy.text, copy.data, copy.problems


_MOST_NAMES = 1_000
_PIECE = re.compile(r"""[A-Za-z0-9_-]+|"[^"\n]*"|'[^'\n]*'|[ \t]+|.""", re.DOTALL)


def _refuse_long_keys(text: str, name: str) -> None:
    """Refuse a key of thousands of names, which would take the TOML parser minutes.

    No string within the bounds holds so many names in a row, so none is mistaken for a key.
    """
    for number, line in enumerate(text.split("\n"), start=1):
        if line.count(".") >= _MOST_NAMES and _most_names_in_a_row(line) > _MOST_NAMES:
            raise refusal(name, _TOO_DEEP, number)


def _most_names_in_a_row(line: str) -> int:
    most = names = 0
    joined = False
    for match in _PIECE.finditer(line):
        piece = match[0]
        if piece == ".":
            joined = True
        elif piece[0] in "\"'_-" or piece[0].isalnum():
            names = names + 1 if joined else 1
            joined = False
        elif not piece.isspace():
            names, joined = 0, False
        most = max(most, names)
    return most


_TOO_DEEP = f"Tables and lists stand inside one another more than {DEEPEST_NESTING} deep."


def deeper_than(data: object, bound: int) -> bool:
    """Return whether tables and lists are nested past a bound, without recursion."""
    layer = [data]
    for _ in range(bound + 1):
        layer = [inner for inner in _held(layer) if isinstance(inner, dict | list)]
        if not layer:
            return False
    return True


def _past_bounds(data: object) -> str:
    """Say whether tables hold too much or too long a name; without recursion."""
    layer, values = [data], 0
    while layer:
        for outer in layer:
            longest = max(outer, key=len, default="") if isinstance(outer, dict) else ""
            if len(longest) > LONGEST_NAME:
                return (
                    f"The key {quoted(longest)} has {len(longest):,} characters; "
                    f"the most is {LONGEST_NAME}."
                )
        held = _held(layer)
        values += len(held)
        if values > MOST_VALUES:
            return _TOO_MANY
        layer = [inner for inner in held if isinstance(inner, dict | list)]
    return ""


def _held(layer: list[object]) -> list[object]:
    """Return what tables and lists hold."""
    return [
        inner
        for outer in layer
        if isinstance(outer, dict | list)
        for inner in (outer.values() if isinstance(outer, dict) else outer)
    ]


_TOO_MANY = (
    f"The file holds more than {MOST_VALUES:,} keys and entries of lists, and no more are read; "
    "split it, or leave out what is no fact."
)
