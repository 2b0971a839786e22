"""Where in a TOML file a character of a text stands, past the escapes before it."""

from __future__ import annotations

import re

from tundish.text.place import Place

_STEP = re.compile(
    r"\\u[0-9A-Fa-f]{4}|\\U[0-9A-Fa-f]{8}|(?P<joined>\\[ \t]*\r?\n\s*)|\\.|\r?\n|.", re.DOTALL
)
_LITERAL_STEP = re.compile(r"\r?\n|.", re.DOTALL)


def place_within(toml: str, begin: Place, index: int) -> Place:
    r"""Return the place of a character of a text in a TOML file.

    Args:
        toml: The whole file.
        begin: The place of the text's first character, inside its quotes.
        index: Index of the character in the text as it was read, from 0.

    Returns:
        Line and column, counted from 1.

    Example:
        >>> place_within(r'a = "\"red\" is"', (1, 6), 6)
        (1, 14)
    """
    line, column = begin
    at = _offset(toml, line) + column - 1
    step = _STEP if toml[:at].rstrip("\r\n").endswith('"') else _LITERAL_STEP
    read = 0
    while read < index and (match := step.match(toml, at)):
        at = match.end()
        # A line that goes on after a backslash gives the text no character.
        read += 0 if step is _STEP and match["joined"] else 1
        breaks = match[0].count("\n")
        if breaks:
            line, column = line + breaks, len(match[0]) - match[0].rindex("\n")
        else:
            column += len(match[0])
    if step is _STEP and (match := step.match(toml, at)) and match["joined"]:
        return place_within(toml, _after(match[0], line), 0)
    return line, column


def _after(joined: str, line: int) -> Place:
    return line + joined.count("\n"), len(joined) - joined.rindex("\n")


def _offset(text: str, line: int) -> int:
    """Return the index of a line's first character."""
    at = 0
    for _ in range(line - 1):
        at = text.index("\n", at) + 1
    return at
