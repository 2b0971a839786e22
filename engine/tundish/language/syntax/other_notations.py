"""Signs and words of other notations, each with what this language writes instead."""

from __future__ import annotations

import re
import unicodedata

from tundish.groundwork.dataclass import dataclass

_SIGNS: dict[str, str] = {
    **dict.fromkeys(("===", "="), "=="),
    **dict.fromkeys(("!==", "<>", "≠"), "!="),
    **dict.fromkeys(("=>", "≥", "⩾", "≧"), ">="),
    **dict.fromkeys(("=<", "≤", "⩽", "≦"), "<="),
    **dict.fromkeys(("&&", "&", "∧"), "and"),
    **dict.fromkeys(("||", "|", "∨"), "or"),
    **dict.fromkeys(("!", "¬"), "not"),
    **dict.fromkeys(("×", "·", "⋅", "∙", "∗"), "*"),
    **dict.fromkeys(("÷", "∕", "⁄"), "/"),
    **dict.fromkeys(("−", "–", "—", "‐", "‑"), "-"),
    "**": "^",
    "²": "^ 2",
    "³": "^ 3",
    "π": "pi",
    "{": "[",
    "}": "]",
}
_SIGN = re.compile("|".join(re.escape(sign) for sign in sorted(_SIGNS, key=len, reverse=True)))

_PHRASES: dict[str, str] = {
    "is not in": "not in",
    "is not one of": "not in",
    "is in": "in",
    "is one of": "in",
    **dict.fromkeys(("is not equal to", "does not equal", "is not"), "!="),
    **dict.fromkeys(("is equal to", "is", "equals", "equal to", "equal"), "=="),
    **dict.fromkeys(("is at least", "at least"), ">="),
    **dict.fromkeys(("is at most", "at most"), "<="),
    **dict.fromkeys(("is more than", "is greater than", "is above"), ">"),
    **dict.fromkeys(("more than", "greater than"), ">"),
    **dict.fromkeys(("is less than", "is smaller than", "is below"), "<"),
    **dict.fromkeys(("less than", "smaller than"), "<"),
}
_PHRASE = re.compile(
    "(?:"
    + "|".join(phrase.replace(" ", r"\s+") for phrase in sorted(_PHRASES, key=len, reverse=True))
    + r")(?![A-Za-z0-9_.])",
    re.IGNORECASE,
)

QUOTES = "'\"‘’‚‛“”„‟`´′″«»"
_QUOTED = re.compile(rf"[{QUOTES}]([^{QUOTES}\n]*)([{QUOTES}])")

SPELLED_OUT = {
    "√": "A square root is written square_root(...).",
    "%": "A unit stands right after its number: 30 %.",
    "°": "A temperature is written as 20 degC, right after its number.",
}
"""Characters that no one sign stands for, each with what to write."""

_ORDINARY_BLANKS = " \t\n\r"
_NON_BREAKING = "\u00a0\u202f"


@dataclass(frozen=True, slots=True)
class Foreign:
    """Something written as another notation writes it.

    Attributes:
        start: Index of the first character that is wrong.
        end: Index after the last.
        sentence: What to write instead.
        meant: What it says in this language.
        after: Index of the character after all of it, from which reading goes on.
    """

    start: int
    end: int
    sentence: str
    meant: str
    after: int


def foreign_sign(text: str, at: int) -> Foreign | None:
    """Return the sign of another notation that stands at a place, if one does."""
    match = _SIGN.match(text, at)
    if match is None:
        return None
    meant = _SIGNS[match[0]]
    return Foreign(at, match.end(), f"Write '{meant}' for '{match[0]}'.", meant, match.end())


def foreign_phrase(text: str, at: int) -> Foreign | None:
    """Return the words that stand at a place for a sign, such as "is at least", if some do.

    Args:
        text: The expression.
        at: A place right after a value, where no name can stand.
    """
    match = _PHRASE.match(text, at)
    if match is None:
        return None
    written = " ".join(match[0].split())
    meant = _PHRASES[written.lower()]
    return Foreign(at, match.end(), f"Write '{meant}' for '{written}'.", meant, match.end())


def foreign_quotes(text: str, at: int) -> Foreign | None:
    """Return the text that stands at a place between other quotes than single ones, if one does."""
    match = _QUOTED.match(text, at)
    if match is None:
        return None
    wrong = at if text[at] != "'" else match.start(2)
    sort = "single quotes" if text[wrong] == '"' else "straight single quotes"
    sentence = f"A text stands between {sort}: write '{match[1]}'."
    return Foreign(wrong, wrong + 1, sentence, match[1], match.end())


def strange_blanks(text: str, at: int) -> list[Foreign]:
    """Return the blanks from a place on that are no ordinary ones, seen or not."""
    blanks = []
    while at < len(text) and (sentence := _strange(text[at])):
        blanks.append(Foreign(at, at + 1, sentence, " ", at + 1))
        at += 1
    return blanks


def _strange(character: str) -> str:
    """Say what a blank is that is no ordinary one, or nothing of any other character."""
    if character in _NON_BREAKING:
        return "This blank is a non-breaking space: write an ordinary blank."
    name = unicodedata.name(character, "without a name").lower()
    if unicodedata.category(character) == "Cf":
        return f"An invisible character stands here ({name}): delete it."
    if character.isspace() and character not in _ORDINARY_BLANKS:
        return f"This blank is no ordinary one ({name}): write an ordinary blank."
    return ""
