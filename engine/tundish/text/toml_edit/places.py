"""Where a new table belongs in a TOML text, by the order of tables."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tundish.text.key_places import Path
from tundish.text.toml_edit.outline import Outline, Section

Rank = Callable[[tuple[str, ...]], Any]


def place_for(outline: Outline, path: Path, rank: Rank) -> int:
    """Return the row before which the header of a new table goes.

    It goes among the tables with the most names in common, before the first that ranks behind it,
    else behind them all; the next item of a list goes behind the last.

    Args:
        outline: The text.
        path: The way to the table; the last position is that of the next item of a list.
        rank: Gives the order of tables.
    """
    sections = outline.sections[1:]
    if path and isinstance(path[-1], int) and path[-1] > 0:
        before = (*path[:-1], path[-1] - 1)
        return _behind(
            outline, [section for section in sections if section.path[: len(before)] == before]
        )
    names = tuple(step for step in path if isinstance(step, str))
    near = _nearest(sections, names)
    behind = [section for section in near if rank(section.names) > rank(names)]
    if behind:
        return outline.lead(behind[0])
    return _behind(outline, near)


def first_header(outline: Outline) -> int:
    """Return the row where the first header begins, with the comment above it."""
    return _behind(outline, outline.sections[:1])


def _nearest(sections: list[Section], names: tuple[str, ...]) -> list[Section]:
    common = [_in_common(section.names, names) for section in sections]
    most = max(common, default=0)
    return [section for section, number in zip(sections, common, strict=True) if number == most]


def _in_common(path: tuple[str, ...], other: tuple[str, ...]) -> int:
    count = 0
    for mine, theirs in zip(path, other, strict=False):
        if mine != theirs:
            break
        count += 1
    return count


def _behind(outline: Outline, near: list[Section]) -> int:
    """Return the row behind the last of some sections, before the comment above the next."""
    last = max((outline.sections.index(section) for section in near), default=0)
    if last + 1 < len(outline.sections):
        return outline.lead(outline.sections[last + 1])
    # Splitting a text that ends with a line break gives one empty row too many.
    return len(outline.rows) - (not outline.rows[-1])
