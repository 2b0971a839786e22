"""What goes into a pipe or a file: the same words without colour, and nothing loaded for them."""

from __future__ import annotations

import os
import sys
from typing import TextIO

_USUAL = 80
"""Columns where nobody says how many there are."""


def may_have_colour(stream: TextIO) -> bool:
    """Say whether what is written may be seen in colour: on a terminal, or where that is wished."""
    # The variables by which users of rich ask for colour.
    wished = os.environ.get("FORCE_COLOR", "") or os.environ.get("TTY_COMPATIBLE", "") == "1"
    return bool(wished) or stream.isatty()


def terminal_width() -> int:
    """Return the columns to keep to: as told, or those of the terminal, behind a pipe too."""
    columns = os.environ.get("COLUMNS", "")
    if columns.isdigit() and int(columns):
        return int(columns)
    for stream in (sys.__stdin__, sys.__stdout__, sys.__stderr__):
        try:
            width = os.get_terminal_size(stream.fileno()).columns if stream else 0
        except (AttributeError, ValueError, OSError):
            continue
        if width:
            return width
    return _USUAL
