"""Putting lines out, on a console or as plain text, and problems on standard error."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tundish.report.page.line import Line
    from tundish.text.problem import Problem

CANNOT_READ = 2
"""What the command ends with when something could not be read."""


def put_out(lines: Iterable[Line], plain: bool) -> None:
    """Put lines on standard output."""
    if plain:
        from tundish.report.page.plain import as_plain

        sys.stdout.write(as_plain(lines))
        return
    from tundish.report.page.console import print_lines

    print_lines(lines)


def complain(problems: Iterable[Problem]) -> None:
    """Put problems on standard error, below anything that was put out before."""
    from tundish.report.page.piped import terminal_width
    from tundish.report.tell.problem_text import problems_text

    sys.stdout.flush()  # or a page and its complaints would come out of order on one terminal
    sys.stderr.write(problems_text(problems, min(terminal_width(), 100)))
