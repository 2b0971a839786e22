"""Choosing one of a few words: by the word, its beginning, its number, or what is nearest to it."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.groundwork.dataclass import dataclass
from tundish.text.nearest import nearest
from tundish.text.quoted import quoted


@dataclass(frozen=True, slots=True)
class Choice:
    """What a word stands for.

    Attributes:
        word: The choice; empty where it is none.
        sentence: Why it is none.
        nearest: The choice that may have been meant, or an empty text.
    """

    word: str = ""
    sentence: str = ""
    nearest: str = ""


def chosen(text: str, choices: Sequence[str]) -> Choice:
    """Return the choice that a text stands for.

    Args:
        text: The choice itself, an unambiguous beginning of it, or its number counted from 1.
        choices: The choices.

    Example:
        >>> chosen("2", ["ground", "wall"]).word, chosen("gr", ["ground", "wall"]).word
        ('wall', 'ground')
    """
    word = text.strip().lower()
    if text in choices:
        return Choice(text)
    alike = [choice for choice in choices if choice.lower() == word]
    if not alike and word.isascii() and word.isdecimal() and 1 <= int(word[:9]) <= len(choices):
        return Choice(choices[int(word) - 1])
    alike = alike or [choice for choice in choices if choice.lower().startswith(word)]
    if len(alike) == 1:
        return Choice(alike[0])
    if alike:
        could_be = " or ".join(f"'{choice}'" for choice in alike)
        return Choice(sentence=f"{quoted(text)} could be {could_be}; write more of it.")
    near = nearest(text, choices, most=1)
    if near:
        question = f"{quoted(text)} is not among the choices. Did you mean '{near[0]}'?"
        return Choice(sentence=question, nearest=near[0])
    numbers = f"a number from 1 to {len(choices)}"
    return Choice(sentence=f"{quoted(text)} is not among the choices; write a word or {numbers}.")
