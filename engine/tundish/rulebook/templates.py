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
