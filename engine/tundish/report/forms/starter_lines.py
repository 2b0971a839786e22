"""Lines of starters: what is to be read begins with "## ", TOML to be taken up with "# "."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from tundish.groundwork.dataclass import dataclass
from tundish.job.hints import words_in_a_row
from tundish.job.model.paths import outer_paths
from tundish.job.model.schema import Entry, Fact, Items, Record
from tundish.job.schema import job_schema

WIDTH = 100
"""How wide a line of a starter gets [characters]."""


@dataclass(frozen=True, slots=True)
class StarterLine:
    """A line of TOML in a starter.

    Attributes:
        toml: The line, with its mark.
        remark: What is said behind it, or above it where it is too long.
        notes: What else is said above it.
        group: What is said of the group around it, before anything else.
    """

    toml: str
    remark: str
    notes: tuple[str, ...] = ()
    group: str = ""


def prose(text: str) -> list[str]:
    """Return a text as comment lines that stay comments."""
    return [f"## {row}" for row in textwrap.wrap(text, WIDTH - 3, break_on_hyphens=False)]


def taken_up(text: str) -> str:
    r"""Return a starter with the mark taken off every line of TOML in it.

    Example:
        >>> taken_up("## It is heavy.\n# mass = 124\n")
        '## It is heavy.\nmass = 124\n'
    """
    return "".join(row.removeprefix("# ") for row in text.splitlines(keepends=True))


def choices(entry: Entry) -> str:
    """Say which words may be written, if there are only some."""
    match entry:
        case Fact(kind="texts", choices=[_, *_]):
            return f"any of {', '.join(entry.choices)}"
        case Fact(choices=[*most, last]) if most:
            if any("," in word for word in entry.choices):
                return f"{words_in_a_row(most)}; or {last}"
            return f"{', '.join(most)} or {last}"
        case Items(item=item):
            words = {name: choices(inner) for name, inner in item.fields.items()}
            return "; ".join(f"{name}: {listed}" for name, listed in words.items() if listed)
        case _:
            return ""


def absent_group(path: str, outer: str, shown: set[str]) -> Record | None:
    """Return the group around a fact that may be written "none", when it is met for the first time.

    Args:
        path: The path of the fact, without positions.
        outer: The list or table whose facts are asked for; groups around it are not returned.
        shown: Groups that have been met; the one that is returned is added.
    """
    for group in outer_paths(path)[1:]:
        entry = job_schema().find(group)
        if isinstance(entry, Record) and entry.can_be_absent:
            inside = group.startswith(outer) and len(group) > len(outer)
            if not inside or group in shown:
                return None
            shown.add(group)
            return entry
    return None


def laid_out(lines: Sequence[StarterLine], aligned: bool = True) -> Iterator[str]:
    """Give the rows of some lines, each with its remark behind it, or above where it is too long.

    Args:
        lines: The lines.
        aligned: Whether remarks stand one beneath the other where they fit.
    """
    column = _column(lines) if aligned else 0
    for line in lines:
        remark = f"  # {line.remark}"
        fits = len(line.toml) + len(remark) <= WIDTH
        for text in (line.group, "" if fits else line.remark, *line.notes):
            yield from prose(text)
        if not fits:
            yield line.toml
        elif _lines_up(line, column):
            yield line.toml.ljust(column) + remark
        else:
            yield line.toml + remark


def _column(lines: Sequence[StarterLine]) -> int:
    """Return the column in which most remarks can stand one beneath the other."""
    columns = sorted({len(line.toml) for line in lines}, reverse=True)
    return max(columns, key=lambda column: sum(_lines_up(line, column) for line in lines))


def _lines_up(line: StarterLine, column: int) -> bool:
    return len(line.toml) <= column and column + len(f"  # {line.remark}") <= WIDTH
