"""Starters: a first job file and unit sheet, with a commented line for each thing to find out."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping

from tundish.job.hints import hint, path_in_file
from tundish.job.schema import Entry, Fact, Items, Record, job_schema
from tundish.report.form import quoted

_WIDTH = 98


def starter_job(heading: Mapping[str, str], unit_sheet: str, asked: Iterable[str]) -> str:
    """Write a first job file.

    Args:
        heading: What is known already: title, region, stage.
        unit_sheet: Path of the unit sheet from the folder of the job.
        asked: Paths of the facts that rules would ask for.

    Returns:
        TOML text; every fact but the heading is a comment still.
    """
    rows = [
        *_comment(
            "A job. Take the mark '#' off a line and put in what is known; what is left out is not "
            'known yet. [], false or "none" say that something is known to be absent.'
        ),
        "# Then run: tundish check on this file; tundish survey ranks what is still open.",
        f"unit_sheet = {quoted(unit_sheet)}",
        "",
        "[job]",
        *(f"{key} = {quoted(text)}" for key, text in heading.items()),
    ]
    wanted = [
        path_in_file(path)
        for path in asked
        if path.split(".")[0] not in ("unit", "job", "readings")
    ]
    for name, entry in job_schema().fields.items():
        paths = {path for path in wanted if path.split(".")[0] == name}
        if paths and isinstance(entry, Record):
            rows += ["", f"[{name}]", *_rows(entry, paths)]
    return "\n".join(rows) + "\n"


def starter_sheet(asked: Iterable[str]) -> str:
    """Write a first unit sheet.

    Args:
        asked: Paths of the facts that rules would ask for.
    """
    rows = _comment(
        "The data sheet of one outdoor unit, one file a model; jobs name it as their unit_sheet. "
        "Take the mark '#' off a line and put in what the data sheet or the manual states."
    )
    paths = {path for path in asked if path.startswith("unit.")}
    unit = job_schema().fields["unit"]
    assert isinstance(unit, Record)
    return "\n".join([*rows, "", "[unit]", *_rows(unit, paths)]) + "\n"


def _rows(record: Record, paths: set[str], maybe: bool = False) -> Iterator[str]:
    """Give a commented line for each fact in a table, then the tables in it.

    Args:
        record: What the table holds.
        paths: The facts that are asked for.
        maybe: Whether the table itself may be absent, so that its header is a comment.
    """
    inner: list[Entry] = []
    for entry in record.fields.values():
        own = {path for path in paths if path == entry.path or path.startswith(f"{entry.path}.")}
        if not own:
            continue
        if isinstance(entry, Fact) or own == {entry.path}:
            yield from _line(entry)
        else:
            inner.append(entry)
    for entry in inner:
        below = entry.item if isinstance(entry, Items) else entry
        assert isinstance(below, Record)
        brackets = ("[[", "]]") if isinstance(entry, Items) else ("[", "]")
        optional = maybe or isinstance(entry, Items) or below.can_be_absent
        yield ""
        yield from _comment(entry.question)
        yield f"{'# ' if optional else ''}{brackets[0]}{entry.path}{brackets[1]}"
        yield from _rows(below, paths, optional)


def _line(entry: Entry) -> Iterator[str]:
    yield ""
    how = f" {entry.how}" if entry.how else ""
    yield from _comment(f"{entry.question}{how}")
    key = entry.path.rpartition(".")[2]
    told = hint(entry.path)
    # The example itself shows how a quantity or a text is written.
    yield f"# {key} = {_example(entry)}" + ("" if told.startswith("such as") else f"  # {told}")


def _example(entry: Entry) -> str:
    match entry:
        case Fact(kind="truth" | "number" | "date" | "texts"):
            return entry.example
        case Fact():
            return quoted(entry.example or "…")
        case Items():
            return "[]"
        case Record(can_be_absent=True):
            return '"none"'
        case _:
            return '"copper 28 x 0.9"'


def _comment(text: str) -> list[str]:
    return [f"# {row}" for row in textwrap.wrap(text, _WIDTH - 2, break_on_hyphens=False)]
