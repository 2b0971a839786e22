"""Markdown: the same lines as headings and lists, for issue trackers, wikis and notes."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.report.formats.checked import Checked, chapters_of_checked, title_of
from tundish.report.formats.markdown_escape import as_code, in_markdown, longest_run
from tundish.report.page.bar import bar
from tundish.report.page.blocks import Block, Chapter, Group, Section, groups_of
from tundish.report.page.glyphs import DRAWN
from tundish.report.page.line import Line
from tundish.report.page.site_plan import plan
from tundish.report.tell.phrases import as_sentence
from tundish.text.escape import escape, escape_aligned

_BAR = 30
_PLAN = 72
_INDENT = "  "


def as_markdown(checked: Checked) -> str:
    """Return all that was checked as one Markdown document.

    Args:
        checked: What was checked.

    Returns:
        Text in CommonMark that ends with a line break.
    """
    rows: list[str] = []
    chapters = chapters_of_checked(checked)
    level = 1
    if checked.several or not checked.assessments:
        rows += [f"# {in_markdown(title_of(checked))}", ""]
        level = 2
    for chapter in chapters:
        rows += _chapter(chapter, level)
    return _joined(rows)


def _joined(rows: list[str]) -> str:
    """Return rows as text, with one empty row where several follow each other."""
    single_spaced = [row for at, row in enumerate(rows) if row or (at and rows[at - 1])]
    return "\n".join(single_spaced).rstrip("\n") + "\n"


def _chapter(chapter: Chapter, level: int) -> Iterator[str]:
    if chapter.heading:
        yield from (f"{'#' * level} {in_markdown(chapter.heading)}", "")
    if chapter.under:
        yield from (in_markdown(chapter.under), "")
    below = level + 1 if chapter.heading else 2
    for section in chapter.sections:
        yield from _section(section, below)


def _section(section: Section, level: int) -> Iterator[str]:
    if section.name:
        yield from ("", f"{'#' * level} {in_markdown(as_sentence(section.name))}", "")
    for block in section.blocks:
        yield from _block(block, level + 1)
    yield ""


def _block(block: Block, level: int) -> Iterator[str]:
    head = block.head
    if head is None:
        yield from _body(block.body, "")
        return
    match head.role:
        case "item":
            yield f"- {in_markdown(head.text)}"
            yield from _body(block.body, _INDENT)
            return
        case "plan":
            yield from _plan(head)
        case "finding" if not block.body:
            yield f"- {_finding_row(head)}"
            return
        case "finding":
            yield from ("", f"{'#' * level} {_finding_row(head)}", "")
        case "question":
            yield from ("", f"{'#' * level} {in_markdown(head.text)}", "")
        case _:
            yield from ("", in_markdown(head.text), "")
    yield from _body(block.body, "")
    if block.body:
        yield ""


def _finding_row(line: Line) -> str:
    word = line.severity.upper() if line.severity else "none"
    return f"{DRAWN.gauge(line.severity)} {word}: {in_markdown(line.text)}"


def _body(body: list[Line], indent: str) -> Iterator[str]:
    for group in groups_of(body):
        first = group.lines[0]
        if first.role == "bar":
            yield from _bar(first, indent)
        elif first.role in ("verbatim", "code") or any(line.role == "code" for line in group.lines):
            yield from _fenced(group, indent)
        elif first.role in ("statement", "words"):
            yield from ("", f"{indent}{in_markdown(first.text)}", "")
        else:
            yield from _entries(group, indent)


def _entries(group: Group, indent: str) -> Iterator[str]:
    """Give one text beside its label, several as a list below it."""
    label = f"**{in_markdown(group.label)}:**" if group.label else ""
    if label and len(group.lines) == 1:
        yield f"{indent}- {label} {in_markdown(group.lines[0].text)}"
        return
    if label:
        yield f"{indent}- {label}"
    inner = indent + _INDENT if label else indent
    for line in group.lines:
        text = _finding_row(line) if line.role == "finding" else in_markdown(line.text)
        yield f"{inner}- {text}"


def _bar(line: Line, indent: str) -> Iterator[str]:
    """Give value, bar and limit in a row; nothing where no bar can be drawn."""
    assert line.margin is not None
    drawn = bar(line.margin, _BAR)
    if drawn is None:
        return
    characters = as_code(drawn.drawn(DRAWN.full, DRAWN.blank, DRAWN.limit))
    value, limit = in_markdown(line.margin.value), in_markdown(line.margin.limit)
    yield from ("", f"{indent}{value} {characters} limit {limit}, {drawn.words}", "")


def _fenced(group: Group, indent: str) -> Iterator[str]:
    if group.label:
        yield from ("", f"{indent}**{in_markdown(group.label)}:**")
    rows = [escape_aligned(row) for line in group.lines for row in line.text.splitlines() or [""]]
    yield from _fence(rows, indent)


def _plan(line: Line) -> Iterator[str]:
    assert line.siting is not None
    yield from _fence([escape(row) for row in plan(line.siting, _PLAN, DRAWN)], "")


def _fence(rows: list[str], indent: str) -> Iterator[str]:
    """Give rows that are shown as they are, within a fence that none of them can end."""
    fence = "`" * max(3, 1 + max((longest_run(row) for row in rows), default=0))
    yield from ("", f"{indent}{fence}text")
    # Empty rows within a fence are kept; elsewhere several become one.
    yield from (f"{indent}{row}" if row else f"{indent} " for row in rows)
    yield from (f"{indent}{fence}", "")
