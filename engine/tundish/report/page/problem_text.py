"""Problems in files, told as a place and a sentence below it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.report.page.wrapping import wrap
from tundish.text.escape import escape, escape_aligned
from tundish.text.problem import Problem

_INDENT = "  "


def problems_text(problems: Iterable[Problem], width: int = 80) -> str:
    """Return problems as text, one after the other.

    Args:
        problems: The problems.
        width: Columns that running text may take [1]; an expression with a caret below it is
            never broken.

    Returns:
        Text that ends with a line break, or an empty text.

    Example:
        >>> print(problems_text([Problem("barn.toml", 3, 9, "'22' has no unit.")]), end="")
        barn.toml, line 3, column 9
          '22' has no unit.
    """
    return "".join(f"{row}\n" for problem in problems for row in _rows(problem, width))


def _rows(problem: Problem, width: int) -> Iterator[str]:
    yield escape(problem.place)
    for text in problem.sentence.split("\n"):
        if text.startswith(" "):
            yield _INDENT + escape_aligned(text)
            continue
        for row in wrap(escape(text), max(20, width - len(_INDENT))):
            yield _INDENT + row
