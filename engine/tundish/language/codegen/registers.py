"""Slots: few names for many values, as Python reaches a function's first 256 names fastest."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from heapq import heappop, heappush

from tundish.groundwork.dataclass import dataclass

_TOKEN = re.compile(r"""'(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*"|\bv[0-9]+\b""")
"""A text or a name; texts are matched so that no name is seen in them. The emitter writes every
text as Python shows it, so that it ends where this says."""

_COPY = re.compile(r"( *)(v[0-9]+) = (v[0-9]+)")

_Span = tuple[int, int]


def in_few_slots(lines: Sequence[str]) -> list[str]:
    """Return statements with the names of values used again once nothing looks at them any more.

    Args:
        lines: What an emitter wrote: a statement a line, values in names of ``v`` and a number.
    """
    lines = _without_copies(lines)
    slots = _slots(_spans(lines))

    def renamed(token: re.Match[str]) -> str:
        return slots.get(token[0], token[0])

    return [_TOKEN.sub(renamed, line) for line in lines]


def _without_copies(lines: Sequence[str]) -> list[str]:
    """Return statements in which what is worked out only to be copied has its last name at once."""
    times = Counter(token for line in lines for token in _TOKEN.findall(line))
    kept: list[str] = []
    for line in lines:
        copy = _COPY.fullmatch(line)
        if copy and kept:
            indent, name, copied = copy.groups()
            start = f"{indent}{copied} = "
            if kept[-1].startswith(start) and times[copied] == 2:
                kept[-1] = f"{indent}{name} = {kept[-1].removeprefix(start)}"
                continue
        kept.append(line)
    return kept


def _spans(lines: Sequence[str]) -> dict[str, _Span]:
    """Return the first and last line that each name has to keep its value from and to."""
    spans: dict[str, _Span] = {}
    for at, line in enumerate(lines):
        for token in _TOKEN.findall(line):
            if token.startswith("v"):
                spans[token] = (spans.get(token, (at, at))[0], at)
    around = _loops_around(lines)
    return {
        name: (first, _kept_to(first, around[last], last)) for name, (first, last) in spans.items()
    }


@dataclass(slots=True)
class _Loop:
    """A loop: its first and last line, and the loop around it."""

    begin: int
    end: int
    around: _Loop | None


def _loops_around(lines: Sequence[str]) -> list[_Loop | None]:
    """Return for each line the innermost loop that it is of, head or body."""
    around: list[_Loop | None] = []
    inside: list[tuple[_Loop, int]] = []
    for at, line in enumerate(lines):
        bare = line.lstrip()
        indent = len(line) - len(bare)
        while inside and indent <= inside[-1][1]:
            inside.pop()[0].end = at - 1
        if bare.startswith("for "):
            inside.append((_Loop(at, at, inside[-1][0] if inside else None), indent))
        around.append(inside[-1][0] if inside else None)
    for loop, _ in inside:
        loop.end = len(lines) - 1
    return around


def _kept_to(first: int, loop: _Loop | None, last: int) -> int:
    """Return the last line of a name's span: what a loop looks at, its last round looks at."""
    while loop is not None and first < loop.begin:
        last, loop = loop.end, loop.around
    return last


def _slots(spans: dict[str, _Span]) -> dict[str, str]:
    slots: dict[str, str] = {}
    taken: list[tuple[int, int]] = []  # the last line it is taken to, and the number of a slot
    free: list[int] = []
    for name, (first, last) in sorted(spans.items(), key=lambda span: span[1]):
        while taken and taken[0][0] < first:
            heappush(free, heappop(taken)[1])
        number = heappop(free) if free else len(taken)
        heappush(taken, (last, number))
        slots[name] = f"v{number}"
    return slots
