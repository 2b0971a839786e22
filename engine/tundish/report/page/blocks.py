"""Blocks: lines put together by what belongs to what, for pages that have headings and lists."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import field

from tundish.groundwork.dataclass import dataclass
from tundish.report.page.line import Line

_OPENING = ("finding", "question", "item")
_ALONE = ("words", "plan")
_LABELLED = ("entry", "source", "recalled", "code", "finding")


@dataclass(slots=True)
class Block:
    """A line and what belongs to it.

    Attributes:
        head: What the block is about; None where entries stand by themselves.
        body: What is said of it.
    """

    head: Line | None
    body: list[Line] = field(default_factory=list)


@dataclass(slots=True)
class Section:
    """A section of a page with a name of its own, or "" for what stands before the first."""

    name: str
    blocks: list[Block] = field(default_factory=list)


@dataclass(slots=True)
class Chapter:
    """All that is said of one thing, such as one job.

    Attributes:
        heading: What it is about, or "".
        under: What else belongs to the heading.
        sections: Its sections, in order.
    """

    heading: str = ""
    under: str = ""
    sections: list[Section] = field(default_factory=list)


@dataclass(slots=True)
class Group:
    """Lines that share one label, or "" where they have none."""

    label: str
    lines: list[Line]


def chapters_of(lines: Iterable[Line]) -> list[Chapter]:
    """Put lines together.

    Args:
        lines: What is to be said.

    Returns:
        A chapter for each heading, and one before the first heading if something is said there.
    """
    gathering = _Gathering()
    for line in lines:
        gathering.take(line)
    return gathering.chapters


def groups_of(body: Iterable[Line]) -> Iterator[Group]:
    """Put the lines of a block together by their labels; what has no label joins those before.

    Args:
        body: The lines.

    Yields:
        Groups in the order of the lines; a line that can have no label is a group of its own.
    """
    group: Group | None = None
    for line in body:
        if line.role not in _LABELLED:
            if group:
                yield group
            group = None
            yield Group("", [line])
        elif group and (not line.label or _continues(line, group)):
            group.lines.append(line)
        else:
            if group:
                yield group
            group = Group(line.label, [line])
    if group:
        yield group


def _continues(line: Line, group: Group) -> bool:
    """Say whether a finding is one of a list under the label; an entry begins a list anew."""
    return line.role == "finding" and line.label == group.label


class _Gathering:
    """Takes lines one by one and knows what the next one belongs to."""

    def __init__(self) -> None:
        self.chapters: list[Chapter] = []
        self._open: Block | None = None

    def take(self, line: Line) -> None:
        if line.role == "gap":
            self._open = None
        elif line.role == "heading":
            self._open = None
            self.chapters.append(Chapter(line.text))
        elif line.role == "under":
            self._chapter().under = line.text
        elif line.role == "section":
            self._open = None
            self._chapter().sections.append(Section(line.text))
        else:
            self._statement(line)

    def _statement(self, line: Line) -> None:
        if line.role in _ALONE:
            self._begin(line)
            self._open = None
        elif line.role in _OPENING and not line.label:
            self._begin(line)
        elif self._open is None:
            self._begin(None).body.append(line)
        else:
            self._open.body.append(line)

    def _begin(self, head: Line | None) -> Block:
        block = Block(head)
        sections = self._chapter().sections
        if not sections:
            sections.append(Section(""))
        sections[-1].blocks.append(block)
        self._open = block
        return block

    def _chapter(self) -> Chapter:
        if not self.chapters:
            self.chapters.append(Chapter())
        return self.chapters[-1]
