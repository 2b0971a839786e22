"""The words of an expression: numbers with their units, names, texts, signs."""

from __future__ import annotations

import re
from typing import Literal

from tundish.groundwork.dataclass import dataclass
from tundish.language.problem import ExpressionError, ExpressionProblem
from tundish.measure.unit import MeasureError, Unit, nearest_units, read_unit
from tundish.reading.bounds import LONGEST_EXPRESSION, LONGEST_QUANTITY, MOST_TOKENS

RESERVED = frozenset(
    ("and", "or", "not", "in", "if", "then", "else", "for", "true", "false"),
)
"""Words that are part of the language and can name nothing."""

WordKind = Literal["number", "name", "text", "sign", "reserved", "end"]

_SPACE = re.compile(r"\s+")
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]{1,3})?")
_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z_][A-Za-z0-9_]*)*")
_TEXT = re.compile(r"'([^'\n]*)'")
_SIGN = re.compile(r"<=|>=|==|!=|[-+*/^<>(),\[\]]")
_UNIT = re.compile(
    rf" ?([A-Za-z°℃µμΩ%][A-Za-z0-9°µμΩ%²³/.()^·-]{{0,{LONGEST_QUANTITY - 1}}})",
)


@dataclass(frozen=True, slots=True)
class Word:
    """One word of an expression.

    Attributes:
        kind: What sort of word it is.
        text: Its characters; for a text those between the quotes, for a number those before
            its unit.
        start: Index of its first character, from 0.
        end: Index after its last character.
        unit: The unit of a number, where one is written.
        mark: Of a sign or a reserved word its characters again, of others nothing.
    """

    kind: WordKind
    text: str
    start: int
    end: int
    unit: Unit | None = None
    mark: str = ""


def split_words(expression: str) -> list[Word]:
    """Split an expression into its words, ending with one of kind ``end``.

    Raises:
        ExpressionError: If a character fits nowhere, a unit is unknown or a bound is passed.

    Example:
        >>> [word.text for word in split_words("depth >= 150 mm")]
        ['depth', '>=', '150', '']
    """
    if len(expression) > LONGEST_EXPRESSION:
        raise _refusal(0, 1, f"An expression holds at most {LONGEST_EXPRESSION:,} characters.")
    words: list[Word] = []
    at = 0
    while at < len(expression):
        if match := _SPACE.match(expression, at):
            at = match.end()
            continue
        word = _next_word(expression, at)
        words.append(word)
        at = word.end
        if len(words) > MOST_TOKENS:
            raise _refusal(at, at, f"An expression holds at most {MOST_TOKENS:,} words and signs.")
    words.append(Word("end", "", len(expression), len(expression)))
    return words


def _next_word(expression: str, at: int) -> Word:
    if match := _NUMBER.match(expression, at):
        unit, end = _unit_after(expression, match.end())
        return Word("number", match[0], at, end, unit)
    if match := _NAME.match(expression, at):
        if match[0] in RESERVED:
            return Word("reserved", match[0], at, match.end(), mark=match[0])
        return Word("name", match[0], at, match.end())
    if match := _TEXT.match(expression, at):
        return Word("text", match[1], at, match.end())
    if match := _SIGN.match(expression, at):
        return Word("sign", match[0], at, match.end(), mark=match[0])
    raise _refusal(at, at + 1, _stray(expression[at]))


def _unit_after(expression: str, at: int) -> tuple[Unit | None, int]:
    """Read the longest unit that stands right after a number."""
    match = _UNIT.match(expression, at)
    first_name = _NAME.match(expression, match.start(1)) if match else None
    if match is None or (first_name and first_name[0] in RESERVED):
        return None, at
    text = match[1]
    for length in range(len(text), 0, -1):
        if _cuts_a_word(text, length):
            continue
        try:
            return read_unit(text[:length]), match.start(1) + length
        except MeasureError:
            continue
    whole = re.match(r"[^)\s]+", text)
    shown = whole[0] if whole else text
    raise _refusal(
        match.start(1),
        match.start(1) + len(shown),
        f"'{shown}' is no known unit.{nearest_units(shown)}",
    )


def _cuts_a_word(text: str, length: int) -> bool:
    """Say whether ending a unit here would leave half a word behind.

    An exponent that touches its unit belongs to it: 2 m^12 is never (2 m)^12.
    """
    if length == len(text):
        return False
    return text[length] == "^" or (text[length - 1].isalnum() and text[length].isalnum())


def _stray(character: str) -> str:
    if character in "\"'":
        return "A text stands between single quotes, on one line: 'outdoor air'."
    if character == "=":
        return "Equality is written '=='."
    if character in "&|!":
        return "Conditions are joined with the words 'and', 'or', 'not'."
    return f"The character {character!r} has no meaning in an expression."


def _refusal(start: int, end: int, sentence: str) -> ExpressionError:
    return ExpressionError([ExpressionProblem(start, end, sentence)])
