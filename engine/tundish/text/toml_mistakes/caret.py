"""A line of a file with a caret under the place that a problem concerns."""

from __future__ import annotations

from tundish.text.escape import escape_aligned

_WIDTH = 70  # with what it is indented by, a line stays within 80 columns
_BEFORE = 30
_CUT = "…"


def line_and_caret(line: str, start: int, end: int) -> str:
    r"""Return a line and carets below it, as two rows that begin with blanks.

    Args:
        line: The line; of a long one the part around the place is shown.
        start: Index in it of the first character that is meant.
        end: Index after the last.

    Example:
        >>> print(line_and_caret("bonding = yes", 10, 13))
            bonding = yes
                      ^^^
    """
    cut = 0
    if len(line) > _WIDTH:
        cut = max(0, min(start - _BEFORE, len(line) - _WIDTH + 1))
        part = line[cut : cut + _WIDTH - 2]
        behind = _CUT if cut + len(part) < len(line) else ""
        line = (_CUT if cut else "") + part + behind
        cut -= 1 if cut else 0
    start, end = start - cut, min(end - cut, len(line))
    return f"    {escape_aligned(line).rstrip()}\n    {' ' * start}{'^' * max(1, end - start)}"
