"""Forms: a blank sheet in TOML with one line for each thing to find out, to be filled in on site.

The filled sheet is laid over the job it names (`of_job`), so the checker reads both as one.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field
from itertools import pairwise

from tundish.groundwork.dataclass import dataclass
from tundish.job.hints import hint, path_in_file
from tundish.job.paths import path_steps

_WIDTH = 98


@dataclass(slots=True)
class Asked:
    """One line of a form.

    Attributes:
        question: What to find out.
        how: How to find it out.
        limits: What the answer will be held against.
        decides: The requirements that wait for it.
    """

    question: str
    how: str
    limits: list[str] = field(default_factory=list)
    decides: list[str] = field(default_factory=list)


@dataclass(slots=True)
class _Table:
    """A table of the form: lines, tables and lists of tables in it."""

    lines: dict[str, tuple[str, Asked]] = field(default_factory=dict)
    tables: dict[str, _Table] = field(default_factory=dict)
    lists: dict[str, dict[int, _Table]] = field(default_factory=dict)


def form(
    head: Iterable[str],
    keys: Mapping[str, Mapping[str, str]],
    asked: Mapping[str, Asked],
    names: Mapping[str, str],
) -> str:
    """Write a form.

    Args:
        head: Lines of the comment it begins with.
        keys: What is written above the questions: by table ("" for the top) its keys and texts.
        asked: The questions, by path with list positions counted from 1.
        names: The `name` of each list item that has one, by the item's path.

    Returns:
        TOML text in which every answer is still an empty text.
    """
    root = _Table()
    for path, question in _without_inner(asked).items():
        _put(root, path, question)
    rows = [row for line in head for row in (_comment(line) or ["#"])]
    rows += [f"{key} = {quoted(text)}" for key, text in keys.get("", {}).items()]
    for table, texts in keys.items():
        if table:
            rows += ["", f"[{table}]"]
            rows += [f"{key} = {quoted(text)}" for key, text in texts.items()]
    rows += _rows(root, "", "", names, set(keys))
    return "\n".join(rows) + "\n"


def _without_inner(asked: Mapping[str, Asked]) -> dict[str, Asked]:
    """Leave out what belongs to a group or size that is asked for as a whole."""
    whole = {path_in_file(path): question for path, question in asked.items()}
    return {
        path: question
        for path, question in whole.items()
        if not any(path.startswith((f"{other}.", f"{other}[")) for other in whole)
    }


def _put(root: _Table, path: str, question: Asked) -> None:
    table = root
    steps = path_steps(path)
    for step, following in pairwise(steps):
        if isinstance(step, int):
            continue
        if isinstance(following, int):
            table = table.lists.setdefault(step, {}).setdefault(following, _Table())
        else:
            table = table.tables.setdefault(str(step), _Table())
    table.lines[str(steps[-1])] = (path, question)


def _rows(
    table: _Table, header: str, place: str, names: Mapping[str, str], begun: set[str]
) -> Iterator[str]:
    """Give the rows of what stands in a table; its header stands already."""
    for key, (path, question) in table.lines.items():
        yield from _question(key, path, question)
    for key, inner in table.tables.items():
        title, there = _joined(header, key), _joined(place, key)
        if title not in begun and (inner.lines or not (inner.tables or inner.lists)):
            yield from ("", f"[{title}]")
        yield from _rows(inner, title, there, names, begun)
    for key, items in table.lists.items():
        title, there = _joined(header, key), _joined(place, key)
        all_named = all(f"{there}[{at + 1}]" in names for at in items)
        for at in sorted(items) if all_named else range(max(items) + 1):
            yield from ("", f"[[{title}]]")
            name = names.get(f"{there}[{at + 1}]")
            if name is not None:
                yield f"name = {quoted(name)}"
            if at in items:
                yield from _rows(items[at], title, f"{there}[{at + 1}]", names, begun)


def _question(key: str, path: str, asked: Asked) -> Iterator[str]:
    yield ""
    yield from _comment(" ".join(part for part in (asked.question, asked.how) if part))
    for limit in dict.fromkeys(asked.limits):
        yield from _comment(f"Held against: {limit}.")
    yield from _comment(f"Decides: {'; '.join(dict.fromkeys(asked.decides))}.")
    yield f'{key} = ""  # {hint(path)}'


def _comment(text: str) -> list[str]:
    one_row = " ".join(text.split())
    return [f"# {row}" for row in textwrap.wrap(one_row, _WIDTH - 2, break_on_hyphens=False)]


def _joined(outer: str, key: str) -> str:
    return f"{outer}.{key}" if outer else key


def quoted(text: str) -> str:
    """Return a text as TOML writes it."""
    import tomli_w

    return tomli_w.dumps({"x": text}).removeprefix("x = ").rstrip("\n")
