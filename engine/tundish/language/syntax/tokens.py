"""The tokens of an expression: numbers with their units, names, texts, signs."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.operators import ARITHMETIC, RELATIONS
from tundish.text.bounds import LONGEST_QUANTITY
from tundish.units.unit import MeasureError, Unit, read_unit

RESERVED = frozenset(
    ("and", "or", "not", "in", "if", "then", "else", "for", "true", "false"),
)
"""Words that are part of the language and can name nothing."""

TokenKind = Literal["number", "name", "text", "sign", "reserved", "end"]

SPACE = re.compile(r"\s+")
NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]{1,3})?")
NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z_][A-Za-z0-9_]*)*")
TEXT = re.compile(r"'([^'\n]*)'")
SIGN = re.compile(
    "|".join(
        re.escape(sign) + (f"(?!{re.escape(after)})" if after else "")
        for sign, after in sorted(
            (
                *((record.sign, record.unless_before) for record in ARITHMETIC.values()),
                *((record.sign, record.unless_before) for record in RELATIONS.values()),
                *((sign, "") for sign in "(),[]"),
            ),
            key=lambda pair: -len(pair[0]),
        )
    )
)
UNIT = re.compile(
    rf" ?([A-Za-z°℃µμΩ%][A-Za-z0-9°µμΩ%²³/.()^·-]{{0,{LONGEST_QUANTITY - 1}}})",
)


@dataclass(frozen=True, slots=True)
class Token:
    """One token of an expression.

    Attributes:
        kind: What sort of token it is.
        text: Its characters; for a text those between the quotes, for a number those before
            its unit.
        start: Index of its first character, from 0.
        end: Index after its last character.
        unit: The unit of a number that has one.
        mark: The characters of a sign or a reserved word; "" for all others, so that a name or a
            text is never taken for one.
    """

    kind: TokenKind
    text: str
    start: int
    end: int
    unit: Unit | None = None
    mark: str = ""

    @property
    def written(self) -> str:
        """Return its source text."""
        if self.kind == "text":
            return f"'{self.text}'"
        return self.text if self.unit is None else f"{self.text} {self.unit}"


class UnknownUnitError(ValueError):
    """What stands after a number is no unit.

    Args:
        start: Index of its first character.
        text: What stands there.
    """

    def __init__(self, start: int, text: str) -> None:
        self.start, self.end, self.text = start, start + len(text), text
        super().__init__(text)


def unit_after(expression: str, at: int) -> tuple[Unit | None, int]:
    """Read the longest unit that stands right after a number.

    Args:
        expression: The expression.
        at: Index after the number.

    Returns:
        The unit and the index after it; nothing and `at` where none is written.

    Raises:
        UnknownUnitError: If what stands there is no unit.
    """
    match = UNIT.match(expression, at)
    first_name = NAME.match(expression, match.start(1)) if match else None
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
    raise UnknownUnitError(match.start(1), shown)


def _cuts_a_word(text: str, length: int) -> bool:
    """Say whether ending a unit here would leave half a word behind.

    An exponent that touches its unit belongs to it: 2 m^12 is never (2 m)^12.
    """
    if length == len(text):
        return False
    return text[length] == "^" or (text[length - 1].isalnum() and text[length].isalnum())


def missing_quotes(tokens: Sequence[Token], at: int) -> str:
    """Ask for quotes around several names in a row, which can only be a text.

    Args:
        tokens: The tokens of an expression.
        at: Index of a token that does not fit after the one before it.

    Returns:
        A sentence with a leading space, or nothing.
    """
    if at < 2 or tokens[at - 2].mark not in ("==", "!=", "[", ","):
        return ""
    names: list[str] = []
    for token in tokens[at - 1 :]:
        if token.kind != "name" or "." in token.text:
            break
        names.append(token.text)
    return f" A text stands in quotes: '{' '.join(names)}'." if len(names) > 1 else ""
