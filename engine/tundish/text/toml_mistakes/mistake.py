"""A mistake in a statement: the sentence about it, and the edit that corrects it."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import TypeAlias

from tundish.groundwork.dataclass import dataclass
from tundish.text.toml_mistakes.failure import Failure

_LONGEST_CURE = 60


@dataclass(frozen=True, slots=True)
class Cure:
    """A change of a statement.

    Attributes:
        start: Index of the first character that is replaced.
        end: Index after the last.
        text: What stands there instead; it has as many line ends as what it replaces.
    """

    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class Mistake:
    """A mistake that is known.

    Attributes:
        start: Index in the statement of the first character it concerns.
        end: Index after the last.
        sentence: What is wrong and what to write.
        cure: The edit that makes the statement valid; None where the meaning is unclear.
    """

    start: int
    end: int
    sentence: str
    cure: Cure | None


Recogniser: TypeAlias = Callable[[Failure], Mistake | None]
"""Returns the mistake if it is the reason why a statement could not be parsed."""


def in_place(failure: Failure, sentence: str, text: str) -> Mistake:
    """Return the mistake of a whole value, with its replacement."""
    return Mistake(failure.begin, failure.end, sentence, Cure(failure.begin, failure.end, text))


def to_write(cure: str, otherwise: str = "put it in quotes") -> str:
    """Return what to do: ``write "120 mm"``, or in words where that is too long to be copied."""
    if len(cure) > _LONGEST_CURE or not cure.isprintable():
        return otherwise
    return f"write {cure}"


def in_quotes(text: str) -> str:
    r"""Return a text as a value of TOML, in the plainest quotes that will do.

    Example:
        >>> in_quotes('3/4" pipe'), in_quotes("120 mm")
        ('\'3/4" pipe\'', '"120 mm"')
    """
    if text.isprintable() and '"' not in text and "\\" not in text:
        return f'"{text}"'
    if text.isprintable() and "'" not in text:
        return f"'{text}'"
    return json.dumps(text).replace("\x7f", "\\u007f")
