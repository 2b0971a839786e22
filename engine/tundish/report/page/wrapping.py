"""Breaking text into lines: never inside a word that fits, never between a number and its unit."""

from __future__ import annotations

import re

from rich.cells import cell_len

from tundish.units.unit import is_unit

_NUMBER = re.compile(r"[(\[=]*[-+\u2212]?[0-9][0-9.,]*")
_AFTER_WHICH_TO_BREAK = "/\\._-"


def wrap(text: str, width: int, more: int = 0) -> list[str]:
    """Break a text into lines.

    Args:
        text: The text, without line breaks of its own.
        width: Most columns a line may take [1], at least 1.
        more: Columns that the first line may take beyond that [1]; fewer if negative.

    Returns:
        The lines, at least one; no character is lost but the spaces where lines were broken.

    Example:
        >>> wrap("it is short by 3.8 L", 18)
        ['it is short by', '3.8 L']
    """
    lines = [""]
    for word in _words(text):
        room = max(1, width + (more if len(lines) == 1 else 0))
        joined = f"{lines[-1]} {word}" if lines[-1] else word
        if cell_len(joined) <= room:
            lines[-1] = joined
        elif lines[-1]:
            lines += _pieces(word, width)
        else:
            lines[-1:] = _pieces(word, min(width, room))
    return lines


def _words(text: str) -> list[str]:
    """Return the words, a number and its unit as one."""
    words: list[str] = []
    for word in text.split():
        if words and _NUMBER.fullmatch(words[-1]) and is_unit(word.rstrip(".,:;)]")):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words


def _pieces(word: str, width: int) -> list[str]:
    """Return a word whole if it fits a line, else in parts, where it has a joint if it can be."""
    pieces = []
    while cell_len(word) > width:
        length = _fitting(word, width)
        joint = max(word.rfind(mark, 0, length) for mark in _AFTER_WHICH_TO_BREAK) + 1
        cut = joint if joint > length // 3 else length
        pieces.append(word[:cut])
        word = word[cut:]
    return [*pieces, word] if word else pieces


def _fitting(word: str, width: int) -> int:
    """Return how many characters fit a line; accents stay with the letter before them."""
    length, taken = 0, 0
    for character in word:
        taken += cell_len(character)
        if taken > width and length:
            break
        length += 1
    return length
