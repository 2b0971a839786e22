"""The console: lines shown on a terminal, in colour where it has some."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from tundish.report.page.glyphs import DRAWN, TYPED, Look
from tundish.report.page.layout import Row, Style, lay_out
from tundish.report.page.line import Line
from tundish.report.page.piped import may_have_colour, terminal_width

if TYPE_CHECKING:
    from rich.console import Console

_COLOURS: dict[Style, str] = {
    "danger": "bold red",
    "fault": "bold magenta",
    "caution": "bold yellow",
    "note": "bold cyan",
    "strong": "bold",
    "section": "bold",
    "label": "dim",
    "text": "",
    "faint": "dim",
    "memory": "italic",
}


def print_lines(lines: Iterable[Line], console: Console | None = None) -> None:
    """Show lines on a console.

    Args:
        lines: What is to be said.
        console: Where; standard output if left out. Its width is kept to, and NO_COLOR as well
            as a pipe takes the colours away, never the words.
    """
    if console is None and not may_have_colour(sys.stdout):
        look = _look(sys.stdout.encoding)
        for row in lay_out(lines, terminal_width(), look):
            sys.stdout.write("".join(piece for piece, _ in _pieces(row)).rstrip() + "\n")
        return
    _draw(lines, console)


def _draw(lines: Iterable[Line], console: Console | None) -> None:
    # Loaded here, as only a terminal pays for it.
    from rich.console import Console
    from rich.text import Text

    class PipedConsole(Console):
        """Passes a closed pipe on to the command, which ends quietly."""

        def on_broken_pipe(self) -> None:
            raise BrokenPipeError

    console = console or PipedConsole(highlight=False)
    for row in lay_out(lines, console.width, _look(console.encoding)):
        # Assembled from pieces, so that brackets in a job's text are never taken for markup.
        text = Text.assemble(*_pieces(row))
        text.rstrip()
        console.print(text, soft_wrap=True)


def _pieces(row: Row) -> Iterator[tuple[str, str]]:
    return ((piece, _COLOURS[style]) for style, piece in row)


def _look(encoding: str | None) -> Look:
    # A stream that keeps texts as they are, such as StringIO, has no encoding.
    return DRAWN if encoding is None or _knows_more_than_ascii(encoding) else TYPED


def _knows_more_than_ascii(encoding: str) -> bool:
    try:
        (DRAWN.step + DRAWN.no_step + DRAWN.full + DRAWN.blank + DRAWN.limit).encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True
