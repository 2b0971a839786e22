"""Escaping untrusted text for a terminal or a page, without cutting any of it."""

from __future__ import annotations


def escape(text: str) -> str:
    r"""Return text on one line in which nothing can move a cursor, colour a page or turn it.

    Args:
        text: Any text, such as the title of a job.

    Returns:
        The text; each white space a plain space, each unprintable character written as an escape.

    Example:
        >>> escape("front garden\x1b[2J")
        'front garden\\x1b[2J'
    """
    if text.isprintable():
        return text
    return "".join(_escape_character(character) for character in text)


def escape_aligned(text: str) -> str:
    """Return text with one mark for each unprintable character, so that a caret below still fits.

    Args:
        text: A line of an expression.

    Returns:
        A line of the same length.
    """
    return "".join(
        character if character.isprintable() else " " if character.isspace() else "?"
        for character in text
    )


def _escape_character(character: str) -> str:
    if character.isprintable():
        return character
    # Python calls a no-break space unprintable; a plain space says the same.
    return " " if character.isspace() else character.encode("unicode_escape").decode("ascii")
