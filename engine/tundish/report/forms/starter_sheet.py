"""A first unit sheet: its facts as commented lines, in the order in which makers publish them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tundish.job.hints import example
from tundish.job.model.paths import outer_paths
from tundish.job.model.schema import Entry, Fact, Items
from tundish.job.parts.common import Entries, Feet
from tundish.job.parts.unit_parts import UnitPart
from tundish.job.schema import job_schema
from tundish.report.forms.starter_lines import (
    StarterLine,
    absent_group,
    choices,
    laid_out,
    prose,
)
from tundish.rulebook.forms.unit_sheet import SheetRow, SheetSection, sheet_sections

_HEAD = (
    "The data sheet of one outdoor unit, one file a model; jobs name it as their unit_sheet.",
    "Take the mark '# ' off a line and put in what the data sheet or the manual states. What is "
    'left out is not known yet; [], false or "none" say that something is known to be absent. '
    "Lines with two marks are for reading.",
)


def starter_sheet(asked: Iterable[str] | None = None, schema_line: str = "") -> str:
    """Write a first unit sheet.

    Args:
        asked: Paths of the facts to ask for, or of groups of them; of a list, or a fact in it,
            an item is asked for whole. Every fact of a unit if left out.
        schema_line: What the file begins with, such as where an editor finds its schema.

    Returns:
        TOML text that says nothing yet: every fact is a comment still. A line of TOML begins with
        "# ", one for reading with "## "; with the first of these marks taken off all lines it is
        a sheet that can be read.

    Raises:
        Refused: If the order of the facts cannot be read.
    """
    paths = None if asked is None else tuple(asked)
    rows = [schema_line] if schema_line else []
    rows += [row for text in _HEAD for row in prose(text)]
    rows += ["", "[unit]"]
    shown = set[str]()
    for section in sheet_sections():
        lines = list(_lines(section, paths, shown))
        if lines:
            rows += ["", *prose(f"--- {section.heading}"), *laid_out(lines)]
    return "\n".join(rows) + "\n"


def _lines(
    section: SheetSection, asked: tuple[str, ...] | None, shown: set[str]
) -> Iterator[StarterLine]:
    """Give the lines of a section; what has been shown is noted, so that it is shown once."""
    for row in section.rows:
        for path in row.facts:
            entry = _written(path)
            if entry.path in shown or not _is_asked(entry, asked):
                continue
            shown.add(entry.path)
            rows = [other for other in section.rows if _is_in(entry, other)]
            yield StarterLine(
                f"# {entry.path.removeprefix('unit.')} = {example(entry)}",
                _remark(entry, rows),
                tuple(other.note for other in rows if other.note),
                _absence(entry, shown),
            )


def _absence(entry: Entry, shown: set[str]) -> str:
    """Say, once, how to write that there is no such group as the fact stands in."""
    group = absent_group(entry.path, "unit", shown)
    key = group.path.removeprefix("unit.") if group else ""
    return f'If there is none, write {key} = "none" in place of all its lines.' if key else ""


def _written(path: str) -> Entry:
    """Return what is written for a fact: a list is written whole."""
    for whole in (*outer_paths(path), path):
        entry = job_schema().find(whole)
        if isinstance(entry, Fact | Items):
            return entry
    raise AssertionError(path)  # the order of the facts was read against the schema


def _is_asked(entry: Entry, asked: tuple[str, ...] | None) -> bool:
    if asked is None:
        return True
    inner = f"{entry.path}." if isinstance(entry, Items) else "\0"
    return any(
        entry.path == path or entry.path.startswith(f"{path}.") or path.startswith(inner)
        for path in asked
    )


def _is_in(entry: Entry, row: SheetRow) -> bool:
    return any(path == entry.path or path.startswith(f"{entry.path}.") for path in row.facts)


_FROM_THE_MANUAL = frozenset((UnitPart.found_in, Feet.found_in, Entries.found_in))
"""What the head of a sheet says once for all."""


def _remark(entry: Entry, rows: list[SheetRow]) -> str:
    named = [f"{row.row}, {row.symbol}" if row.symbol else row.row for row in rows if row.row]
    how = "" if entry.how in _FROM_THE_MANUAL else f" {entry.how}"
    words = choices(entry)
    return ("; ".join(named) or f"{entry.question}{how}") + (f" ({words})" if words else "")
