"""Blocks as HTML: every text escaped, every severity told by gauge and word."""

from __future__ import annotations

import html
from collections.abc import Iterable, Iterator
from itertools import groupby

from tundish.report.page.bar import Bar, bar
from tundish.report.page.blocks import Block, Group, Section, groups_of
from tundish.report.page.glyphs import DRAWN
from tundish.report.page.line import Line
from tundish.report.page.site_plan import plan
from tundish.report.tell.phrases import as_sentence
from tundish.text.escape import escape, escape_aligned

_CELLS = 201
"""Parts of a bar: fine enough for a screen, one of them being the mark of the limit."""

_PLAN = 76


def escaped(text: str) -> str:
    """Return text as HTML shows it, on one line, quotes escaped too.

    Args:
        text: Any text, such as the title of a job.

    Example:
        >>> escaped('<b title="x">')
        '&lt;b title=&quot;x&quot;&gt;'
    """
    return html.escape(escape(text), quote=True)


def section_rows(section: Section, level: int) -> Iterator[str]:
    """Give a section with its name.

    Args:
        section: The section.
        level: Level of its heading, from 1.
    """
    yield "<section>"
    if section.name:
        name = escaped(as_sentence(section.name))
        yield f'<h{level} class="section">{name}</h{level}>'
    for sort, blocks in groupby(section.blocks, _sort):
        yield from _run(sort, list(blocks), level + 1)
    yield "</section>"


def _sort(block: Block) -> str:
    """Return which list a block is an item of, or what else it is."""
    if block.head is None:
        return "entries"
    if block.head.role == "finding" and not block.body:
        return "standing"
    return block.head.role


def _run(sort: str, blocks: list[Block], level: int) -> Iterator[str]:
    """Give blocks of one sort that follow each other."""
    if sort in ("item", "standing"):
        yield '<ul class="standing">' if sort == "standing" else "<ul>"
        for block in blocks:
            assert block.head is not None
            yield f"<li{_tone(block.head)}>{_finding_row(block.head)}"
            yield from _body(block.body)
            yield "</li>"
        yield "</ul>"
        return
    for block in blocks:
        yield from _block(block, level)


def _block(block: Block, level: int) -> Iterator[str]:
    head = block.head
    if head is None:
        yield from _body(block.body)
    elif head.role == "plan":
        yield from _plan(head)
    elif head.role in ("finding", "question"):
        yield f"<article{_tone(head)}>"
        yield f'<h{level} class="found">{_finding_row(head)}</h{level}>'
        yield from _body(block.body)
        yield "</article>"
    else:
        yield f"<p>{escaped(head.text)}</p>"
        yield from _body(block.body)


def _tone(line: Line) -> str:
    return f' class="{line.severity}"' if line.severity else ""


def _finding_row(line: Line) -> str:
    """Return the text of a line, the severity of a finding before it."""
    if line.role != "finding":
        return escaped(line.text)
    word = line.severity.upper() if line.severity else "none"
    gauge = f'<span aria-hidden="true">{DRAWN.gauge(line.severity)}</span>'
    return f'<span class="severity">{gauge} {word}</span> {escaped(line.text)}'


def _body(body: Iterable[Line]) -> Iterator[str]:
    """Give entries as a list of terms, broken where something else stands between them."""
    for is_list, groups in groupby(groups_of(body), _is_entry):
        if is_list:
            yield "<dl>"
            yield from (_entry(group) for group in groups)
            yield "</dl>"
        else:
            for group in groups:
                yield from _other(group.lines[0])


def _is_entry(group: Group) -> bool:
    return group.lines[0].role in ("entry", "source", "recalled", "code", "finding")


def _entry(group: Group) -> str:
    texts = "".join(f"<dd{_entry_class(line)}>{_entry_text(line)}</dd>" for line in group.lines)
    return f'<div class="entry"><dt>{escaped(group.label)}</dt>{texts}</div>'


def _entry_class(line: Line) -> str:
    return ' class="recalled"' if line.role == "recalled" else _tone(line)


def _entry_text(line: Line) -> str:
    if line.role == "code":
        return f"<pre>{_unbroken(line.text)}</pre>"
    return _finding_row(line)


def _other(line: Line) -> Iterator[str]:
    if line.role == "bar":
        yield from _bar(line)
    elif line.role == "verbatim":
        yield f"<pre>{_unbroken(line.text)}</pre>"
    else:
        yield f"<p>{escaped(line.text)}</p>"


def _unbroken(text: str) -> str:
    """Return text whose line breaks are kept."""
    return "\n".join(html.escape(escape_aligned(row)) for row in text.splitlines())


def _bar(line: Line) -> Iterator[str]:
    """Give value, bar and limit in a row; nothing where no bar can be drawn."""
    assert line.margin is not None
    drawn = bar(line.margin, _CELLS)
    if drawn is None:
        return
    value, limit = escaped(line.margin.value), escaped(line.margin.limit)
    yield f'<div class="margin"><b>{value}</b> {_drawn(drawn)}'
    yield f"<span>limit {limit}, {drawn.words}</span></div>"


def _drawn(drawn: Bar) -> str:
    """Return a bar as a picture, which the words beside it say to those who do not see it."""
    filled, limit = drawn.filled, drawn.limit_at
    return (
        f'<svg viewBox="0 0 {_CELLS + 3} 12" preserveAspectRatio="none" aria-hidden="true">'
        f'<rect class="blank" y="2" width="{filled + drawn.empty}" height="8"/>'
        f'<rect class="filled" y="2" width="{filled}" height="8"/>'
        f'<rect class="limit" x="{limit}" width="3" height="12"/></svg>'
    )


def _plan(line: Line) -> Iterator[str]:
    assert line.siting is not None
    rows = (html.escape(escape_aligned(row)) for row in plan(line.siting, _PLAN, DRAWN))
    yield f'<pre role="img" aria-label="Plan of the place">{chr(10).join(rows)}</pre>'
