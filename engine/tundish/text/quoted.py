"""Quoting untrusted text: cut short, with control characters escaped."""

from __future__ import annotations

import datetime

_LONGEST = 60


def quoted(value: object) -> str:
    """Return a value as it would stand in TOML, cut short.

    Args:
        value: A value out of a TOML file.

    Returns:
        The value; a text in quotes, with control characters written as escapes.

    Example:
        >>> quoted("120 mm"), quoted(True), quoted([1, 2])
        ("'120 mm'", 'true', 'a list')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f"'{printable(value)}'"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list | tuple):
        return "a list"
    if isinstance(value, int | float | datetime.date | datetime.time):
        return printable(_number(value))
    return f"a value of the kind {type(value).__name__}"


def printable(text: str) -> str:
    """Return text with every character that is not printable escaped, cut short.

    Args:
        text: Any text.

    Returns:
        At most sixty characters, and an ellipsis where it was cut.
    """
    cut = escaped(text[:_LONGEST])
    return cut if len(text) <= _LONGEST else f"{cut}…"


def escaped(text: str) -> str:
    r"""Return text with every character that is not printable escaped.

    Args:
        text: Any text.

    Returns:
        Text on one line.

    Example:
        >>> print(escaped("a" + chr(27)))
        a\x1b
    """
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def _number(value: int | float | datetime.date | datetime.time) -> str:
    # Python declines to write a whole number of thousands of digits.
    if isinstance(value, int) and value.bit_length() > 256:
        return "a very large number"
    return str(value)
