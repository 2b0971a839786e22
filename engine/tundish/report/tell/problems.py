"""What is said of files that could not be read, on pages that tell of jobs too."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.report.page.line import GAP, Line
from tundish.text.problem import Problem


def problem_lines(problems: Iterable[Problem]) -> Iterator[Line]:
    """Give a section with an item for each problem; nothing where there is none.

    Args:
        problems: The problems.
    """
    for at, problem in enumerate(problems):
        if at == 0:
            yield from (GAP, Line("section", "could not be read"))
        yield from _problem_lines(problem)


def _problem_lines(problem: Problem) -> Iterator[Line]:
    rows = problem.sentence.split("\n")
    text = " ".join(row.strip() for row in rows if not row.startswith(" "))
    yield Line("item", f"{problem.place}: {text}")
    # An expression and the caret below it stay as they are, or the caret would point elsewhere.
    shown = [row for row in rows if row.startswith(" ")]
    if shown:
        yield Line("code", "\n".join(shown))
