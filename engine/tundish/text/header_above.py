"""The header above a line of a TOML text, whether it is commented out or not."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tundish.groundwork.dataclass import dataclass

_NAME = r"[A-Za-z0-9_-]+"
_HEADER = re.compile(
    rf"[ \t]*(#[ \t]*)?((?:\[\[?)[ \t]*({_NAME}(?:[ \t]*\.[ \t]*{_NAME})*)[ \t]*\]\]?)"
    r"[ \t]*(?:#.*)?\r?"
)
_MOST_ROWS = 300  # of a block; no starter has a longer one


@dataclass(frozen=True, slots=True)
class HeaderAbove:
    """A line that is a header.

    Attributes:
        line: Its number, counted from 1.
        text: The header with its brackets.
        names: The names in it.
        marked: Whether it is commented out.
    """

    line: int
    text: str
    names: tuple[str, ...]
    marked: bool

    @property
    def whole(self) -> str:
        """Return the header, with its # if it is commented out."""
        return f"# {self.text}" if self.marked else self.text


def marked_header_above(rows: Sequence[str], line: int) -> HeaderAbove | None:
    """Return the commented-out header of the block that a line stands in, if there is one.

    Args:
        rows: The lines of the text.
        line: The number of the line, counted from 1.

    Returns:
        The header; None where a blank line or a real header comes first.
    """
    for number in range(line - 1, max(0, line - 1 - _MOST_ROWS), -1):
        if not rows[number - 1].strip():
            return None
        header = _header(rows, number)
        if header is not None:
            return header if header.marked else None
    return None


def headers_in(rows: Sequence[str]) -> list[HeaderAbove]:
    """Return the headers of a text, as far as single lines show them.

    Args:
        rows: The lines of the text.

    Returns:
        The headers that are not commented out, from top to bottom.
    """
    numbers = (number for number, row in enumerate(rows, 1) if row.lstrip().startswith("["))
    headers = (_header(rows, number) for number in numbers)
    return [header for header in headers if header is not None]


def _header(rows: Sequence[str], number: int) -> HeaderAbove | None:
    match = _HEADER.fullmatch(rows[number - 1])
    if match is None:
        return None
    names = tuple(re.findall(_NAME, match[3]))
    return HeaderAbove(number, match[2], names, match[1] is not None)
