"""Sentences with places for numbers: ``The base carries {placement.base.capacity}``."""

from __future__ import annotations

import re

_PLACE = re.compile(r"\{([^{}]*)\}")


def split_template(text: str) -> list[tuple[str, int | None]]:
    """Split a sentence into texts and expressions.

    Args:
        text: The sentence; an expression stands in curly brackets.

    Returns:
        Each piece, with the index where it starts for an expression and None for a text.

    Example:
        >>> split_template("Only {volume} free.")
        [('Only ', None), ('volume', 6), (' free.', None)]
    """
    pieces: list[tuple[str, int | None]] = []
    at = 0
    for match in _PLACE.finditer(text):
        if match.start() > at:
            pieces.append((text[at : match.start()], None))
        pieces.append((match[1], match.start(1)))
        at = match.end()
    if at < len(text):
        pieces.append((text[at:], None))
    return pieces


def stray_brackets(text: str) -> list[tuple[int, str]]:
    """Find curly brackets that do not come in pairs.

    Args:
        text: A sentence with expressions in curly brackets.

    Returns:
        The index of each, with what is wrong about it.

    Example:
        >>> stray_brackets("Only {volume free.")[0][0]
        5
    """
    stray: list[tuple[int, str]] = []
    opened: int | None = None
    for at, character in enumerate(text):
        if character == "{":
            if opened is not None:
                stray.append((opened, _NOT_CLOSED))
            opened = at
        elif character == "}":
            if opened is None:
                stray.append((at, _NOT_OPENED))
            opened = None
    return stray if opened is None else [*stray, (opened, _NOT_CLOSED)]


_NOT_CLOSED = "This bracket is never closed: write '}' after the fact or quantity it shows."
_NOT_OPENED = "Nothing opens this bracket: write '{' before the fact or quantity it shows."
