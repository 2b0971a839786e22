"""Lines: what a report says, before it is known how wide the page is or whether it has colour.

Console and plain text are made from the same lines, so that neither can say less than the other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Literal

from tundish.findings.finding import Margin
from tundish.findings.siting import Siting
from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.model.choices import Severity

Role = Literal[
    "heading",  # what the page is about
    "under",  # what else belongs to the heading
    "section",  # the name of a part of the page
    "finding",  # a severity and what it is about
    "question",  # what somebody must find out
    "statement",  # what was found
    "bar",  # a value drawn against its limit
    "plan",  # a place drawn from above
    "entry",  # a text with a short label before it
    "source",  # an entry that names an authority
    "recalled",  # an entry that names an authority from memory
    "code",  # an expression, its line breaks kept
    "verbatim",  # a text to be copied, never broken
    "item",  # one of a list
    "words",  # running text
    "gap",  # an empty line
]


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that a report says.

    Attributes:
        role: What sort of thing it is.
        text: What is said.
        label: A word or two that stand before it.
        severity: How serious it is, where that is shown.
        margin: What a bar is drawn from.
        siting: What a plan is drawn from.
    """

    role: Role
    text: str = ""
    label: str = ""
    severity: Severity | None = None
    margin: Margin | None = None
    siting: Siting | None = None


GAP = Line("gap")


def entries(label: str, texts: list[str], role: Role = "entry") -> list[Line]:
    """Return lines of which only the first carries the label."""
    return [Line(role, text, label if at == 0 else "") for at, text in enumerate(texts)]


def items(texts: Iterable[str]) -> Iterator[Line]:
    """Give texts as the items of a list."""
    return (Line("item", text) for text in texts)


def apart(blocks: Iterable[Iterable[Line]]) -> Iterator[Line]:
    """Give blocks of lines, each with an empty line before it."""
    for block in blocks:
        yield GAP
        yield from block


def section(name: str, lines: Iterable[Line]) -> Iterator[Line]:
    """Give a named part of a page; nothing where there are no lines in it."""
    inside = list(lines)
    if inside:
        yield from (GAP, Line("section", name), *inside)
