"""Lines of starters: what is to be read begins with "## ", TOML to be taken up with "# "."""

from __future__ import annotations

import textwrap

from tundish.job.schema import Entry, Fact, Items, Record
from tundish.report.form import quoted

WIDTH = 100
"""How wide a line of a starter gets [characters]."""


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


def example(entry: Entry) -> str:
    """Return the example of a fact as TOML writes it.

    Args:
        entry: The fact; of a list an item is shown with all its facts, of a group all of them.

    Example:
        >>> from tundish.job.schema import job_schema
        >>> example(job_schema().find("unit.made"))
        '2026-11-02'
    """
    match entry:
        case Fact(kind="truth" | "number" | "date" | "texts"):
            return entry.example
        case Fact():
            return quoted(entry.example or "…")
        case Items(item=item):
            return f"[{example(item)}]"
        case Record(fields=fields):
            inner = ", ".join(f"{name} = {example(each)}" for name, each in fields.items())
            return f"{{ {inner} }}"
