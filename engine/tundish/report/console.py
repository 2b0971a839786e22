"""The console: lines shown on a terminal, in colour where it has some."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console
from rich.text import Text

from tundish.report.layout import Style, lay_out
from tundish.report.line import Line
from tundish.report.look import DRAWN, TYPED

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


class _PipedConsole(Console):
    """Leaves a reader that went away to the command, which knows how to end quietly."""

    def on_broken_pipe(self) -> None:
        raise BrokenPipeError


def print_lines(lines: Iterable[Line], console: Console | None = None) -> None:
    """Show lines on a console.

    Args:
        lines: What is to be said.
        console: Where; standard output if left out. Its width is kept to, and NO_COLOR as well
            as a pipe takes the colours away, never the words.
    """
    console = console or _PipedConsole(highlight=False)
    look = DRAWN if _knows_more_than_ascii(console.encoding) else TYPED
    for row in lay_out(lines, console.width, look):
        # Assembled from pieces, so that brackets in a job's text are never taken for markup.
        text = Text.assemble(*((piece, _COLOURS[style]) for style, piece in row))
        text.rstrip()
        console.print(text, soft_wrap=True)


def _knows_more_than_ascii(encoding: str) -> bool:
    try:
        (DRAWN.step + DRAWN.no_step + DRAWN.full + DRAWN.blank + DRAWN.limit).encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True
