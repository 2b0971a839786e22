"""Plain text: the same lines without colour, drawn with ASCII, for mail, files and print."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.report.page.glyphs import TYPED
from tundish.report.page.layout import lay_out
from tundish.report.page.line import Line

WIDTH = 72
"""Columns of plain text, which mail leaves unbroken."""


def as_plain(lines: Iterable[Line], width: int = WIDTH) -> str:
    """Return lines as plain text.

    Args:
        lines: What is to be said.
        width: Columns of the page [1].

    Returns:
        Text that ends with a line break.
    """
    rows = ("".join(piece for _, piece in row).rstrip() for row in lay_out(lines, width, TYPED))
    return "".join(f"{row}\n" for row in rows)
