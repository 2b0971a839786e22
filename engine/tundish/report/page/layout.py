"""Layout: lines put on a page of some width, as pieces of text that each have one style."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Literal

from rich.cells import cell_len

from tundish.report.page.bar import bar
from tundish.report.page.glyphs import Look
from tundish.report.page.line import Line
from tundish.report.page.site_plan import plan
from tundish.report.page.wrapping import wrap
from tundish.text.escape import escape, escape_aligned

Style = Literal[
    "danger", "fault", "caution", "note", "strong", "section", "label", "text", "faint", "memory"
]
Piece = tuple[Style, str]
Row = list[Piece]

WIDEST = 100
"""Columns past which lines are hard to read."""

_NARROW = 60  # columns below which labels no longer get a column of their own
_LABEL = 12  # columns of that column, so that texts begin where those of findings do
_INDENT = "  "
_LONGEST_BAR = 30

_STYLE: dict[str, Style] = {
    "heading": "strong",
    "under": "faint",
    "statement": "text",
    "recalled": "memory",
    "question": "strong",
    "words": "text",
}


def lay_out(lines: Iterable[Line], width: int, look: Look) -> Iterator[Row]:
    """Put lines on a page.

    Args:
        lines: What is to be said.
        width: Columns of the page [1]; more than is good to read is left unused.
        look: The characters to draw with.

    Yields:
        One row of the page after the other, none wider than the page but for verbatim texts.
    """
    page = _Page(max(20, min(width, WIDEST)), look)
    for line in lines:
        yield from page.rows(line)


class _Page:
    """Knows the width and the look."""

    def __init__(self, width: int, look: Look) -> None:
        self._width = width
        self._look = look
        self._narrow = width < _NARROW

    def rows(self, line: Line) -> Iterator[Row]:
        match line.role:
            case "gap":
                yield []
            case "section":
                yield from self._section(line)
            case "finding":
                yield from self._finding(line)
            case "bar":
                yield from self._bar(line)
            case "plan":
                yield from self._plan(line)
            case "entry" | "source" | "recalled" | "code":
                yield from self._entry(line)
            case "item":
                yield from self._hanging(f"{_INDENT}{self._look.bullet} ", "faint", line, "text")
            case "question":
                yield from self._hanging("", "strong", line, "strong")
            case "verbatim":
                yield [("text", _INDENT + escape(line.text))]
            case "statement":
                yield from self._hanging(_INDENT, "text", line, "text")
            case _:
                yield from self._hanging("", "text", line, _STYLE[line.role])

    def _section(self, line: Line) -> Iterator[Row]:
        """Give the name of a section, with a line after it where there is room for one."""
        rows = wrap(escape(line.text).upper(), self._width)
        for row in rows[:-1]:
            yield [("section", row)]
        left = self._width - cell_len(rows[-1]) - 1
        rule_line: Row = [("faint", f" {self._look.line * left}")] if left > 2 else []
        yield [("section", rows[-1]), *rule_line]

    def _finding(self, line: Line) -> Iterator[Row]:
        """Give a severity as gauge and word, then what it is about."""
        severity = line.severity
        word = severity.upper() if severity else "none"
        mark = f"{self._look.gauge(severity)} {word:<7}"
        style: Style = severity or "faint"
        lead = _INDENT if line.label else ""  # a finding under a label is one of a list
        if self._narrow:
            yield [("text", lead), (style, mark.rstrip())]
            yield from self._hanging(lead + _INDENT, "text", line, "strong")
            return
        about: Style = "text" if line.label else "strong"
        yield from self._hanging(f"{lead}{mark}  ", style, line, about)

    def _entry(self, line: Line) -> Iterator[Row]:
        """Give a label and its text side by side, or one after the other on a narrow page."""
        style = _STYLE.get(line.role, "text")
        label = escape(line.label)
        if self._narrow:
            first = f"{_INDENT}{label}: " if label else _INDENT * 2
            lead = _INDENT * 2
        else:
            first = f"{_INDENT}{label:<{_LABEL - 1}} "
            lead = " " * (len(_INDENT) + _LABEL)
        # Several texts under one label stay apart, as all but their first rows hang in.
        hang = lead if line.role == "entry" and line.label else lead + _INDENT
        for text in _texts(line):
            for row in self._rows_of(text, first, hang):
                yield [("label", first), (style, row)]
                first = hang
            first = lead

    def _rows_of(self, text: str, first: str, hang: str) -> list[str]:
        """Break text for rows that begin with `hang`, but for the first one."""
        return wrap(text, self._width - cell_len(hang), cell_len(hang) - cell_len(first))

    def _bar(self, line: Line) -> Iterator[Row]:
        """Give value, bar and limit in a row; nothing where no bar can be drawn."""
        assert line.margin is not None
        value, limit = escape(line.margin.value), f"limit {escape(line.margin.limit)}"
        taken = cell_len(_INDENT + value) + cell_len(limit) + 4
        drawn = bar(line.margin, min(_LONGEST_BAR, self._width - taken))
        if drawn is None:
            return
        look = self._look
        style: Style = line.severity or "text"
        row: Row = [
            ("strong", f"{_INDENT}{value}  "),
            (style, drawn.drawn(look.full, look.blank, look.limit)),
            ("text", f"  {limit}"),
        ]
        words = f", {drawn.words}"
        if sum(cell_len(text) for _, text in row) + cell_len(words) <= self._width:
            row.append(("text", words))
        yield row

    def _plan(self, line: Line) -> Iterator[Row]:
        """Draw a place from above."""
        assert line.siting is not None
        for row in plan(line.siting, self._width - 2 * len(_INDENT), self._look):
            yield [("text", _INDENT + row)]

    def _hanging(self, lead: str, lead_style: Style, line: Line, style: Style) -> Iterator[Row]:
        """Give text whose rows all begin below the first one's text."""
        room = self._width - cell_len(lead)
        for at, row in enumerate(wrap(escape(line.text), room)):
            yield [(lead_style, lead if at == 0 else " " * cell_len(lead)), (style, row)]


def _texts(line: Line) -> list[str]:
    """Return an expression line by line as it was written, any other text as one."""
    if line.role != "code":
        return [escape(line.text)]
    return [escape_aligned(text) for text in line.text.strip().splitlines()] or [""]
