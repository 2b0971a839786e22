"""Forms: a blank sheet in TOML with one line for each thing to find out, to be filled in on site.

The filled sheet is merged over the job it names (`of_job`), so the checker reads both as one.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field, replace
from itertools import pairwise

from tundish.groundwork.dataclass import dataclass
from tundish.job.hints import hint, written_path
from tundish.job.model.paths import path_steps, without_positions
from tundish.job.model.schema import Entry
from tundish.job.schema import job_schema
from tundish.text.inline_toml import toml_string

_WIDTH = 98
_MOST_NAMED = 3


@dataclass(slots=True)
class FormLine:
    """One line of a form.

    Attributes:
        question: What to find out.
        how: How to find it out.
        answer: What is known of the answer: its kind, choices and example.
        limits: What the answer will be held against.
        decides: The requirements that wait for it.
    """

    question: str
    how: str
    answer: Entry | None = None
    limits: list[str] = field(default_factory=list)
    decides: list[str] = field(default_factory=list)


@dataclass(slots=True)
class _Table:
    """A table of the form: lines, tables and lists of tables in it."""

    lines: dict[str, FormLine] = field(default_factory=dict)
    tables: dict[str, _Table] = field(default_factory=dict)
    lists: dict[str, dict[int, _Table]] = field(default_factory=dict)


def form(
    head: Iterable[str],
    keys: Mapping[str, Mapping[str, str]],
    asked: Mapping[str, FormLine],
    names: Mapping[str, str],
    notes: Mapping[str, str] | None = None,
) -> str:
    """Write a form.

    Args:
        head: Lines of the comment it begins with.
        keys: What is written above the questions: by table ("" for the top) its keys and texts.
        asked: The questions, by path with list positions counted from 1.
        names: The `name` of each list item that has one, by the item's path.
        notes: What is said above a group or an item, by its path.

    Returns:
        TOML text in which every answer is still an empty text.
    """
    root = _Table()
    for path, question in _without_inner(asked).items():
        _put(root, path, question)
    rows = [row for line in head for row in (_comment(line) or ["#"])]
    rows += [f"{key} = {toml_string(text)}" for key, text in keys.get("", {}).items()]
    for table, texts in keys.items():
        if table:
            rows += ["", f"[{table}]"]
            rows += [f"{key} = {toml_string(text)}" for key, text in texts.items()]
            # What is asked of that table stands below its header too.
            asked_there = root.tables.pop(table, _Table())
            rows += _Rows(names, notes or {}, set(keys)).of(asked_there, table, table)
    rows += _Rows(names, notes or {}, set(keys)).of(root, "", "")
    return "\n".join(rows) + "\n"


def _without_inner(asked: Mapping[str, FormLine]) -> dict[str, FormLine]:
    """Leave out what belongs to a group or size that is asked for as a whole."""
    whole: dict[str, FormLine] = {}
    for path, question in asked.items():
        written = written_path(path)
        line = question if written == path else _as_written(written, question)
        other = whole.get(written)
        whole[written] = _joined_with(line, other) if other else line
    return {
        path: question
        for path, question in whole.items()
        if not any(path.startswith((f"{other}.", f"{other}[")) for other in whole)
    }


def _as_written(path: str, question: FormLine) -> FormLine:
    """Return the question for what a file has in place of a fact: for a pipe, not for its wall."""
    entry = job_schema().find(without_positions(path))
    assert entry is not None  # something is written there
    return replace(question, question=entry.question, how=entry.how, answer=entry)


def _joined_with(question: FormLine, other: FormLine) -> FormLine:
    limits, decides = other.limits + question.limits, other.decides + question.decides
    return replace(question, limits=limits, decides=decides)


def _put(root: _Table, path: str, question: FormLine) -> None:
    table = root
    steps = path_steps(path)
    for step, following in pairwise(steps):
        if isinstance(step, int):
            continue
        if isinstance(following, int):
            table = table.lists.setdefault(step, {}).setdefault(following, _Table())
        else:
            table = table.tables.setdefault(str(step), _Table())
    table.lines[str(steps[-1])] = question


@dataclass(frozen=True, slots=True)
class _Rows:
    """Writes tables of a form.

    Attributes:
        names: The `name` of each list item that has one, by the item's path.
        notes: What is said above a group or an item, by its path.
        begun: Headers that stand already.
    """

    names: Mapping[str, str]
    notes: Mapping[str, str]
    begun: set[str]

    def of(self, table: _Table, header: str, place: str) -> Iterator[str]:
        """Give the rows of what stands in a table; its header stands already."""
        for key, question in table.lines.items():
            yield from _question(key, question)
        for key, inner in table.tables.items():
            title, full_path = _joined(header, key), _joined(place, key)
            if title not in self.begun and (inner.lines or not (inner.tables or inner.lists)):
                yield from ("", *_comment(self.notes.get(full_path, "")), f"[{title}]")
            yield from self.of(inner, title, full_path)
        for key, items in table.lists.items():
            yield from self._items(items, _joined(header, key), _joined(place, key))

    def _items(self, items: dict[int, _Table], title: str, list_path: str) -> Iterator[str]:
        all_named = all(f"{list_path}[{at + 1}]" in self.names for at in items)
        for at in sorted(items) if all_named else range(max(items) + 1):
            item = f"{list_path}[{at + 1}]"
            yield from ("", *_comment(self.notes.get(item, "")), f"[[{title}]]")
            name = self.names.get(item)
            if name is not None:
                yield f"name = {toml_string(name)}"
            if at in items:
                yield from self.of(items[at], title, item)


def _question(key: str, asked: FormLine) -> Iterator[str]:
    yield ""
    yield from _comment(" ".join(part for part in (asked.question, asked.how) if part))
    for limit in dict.fromkeys(asked.limits):
        yield from _comment(f"Held against: {limit}.")
    yield from _comment(decides(asked.decides))
    yield f'{key} = ""  # {hint(asked.answer)}'


def decides(requirements: Iterable[str]) -> str:
    """Say what an answer decides, the first few by name; an empty text where it is nothing."""
    named = list(dict.fromkeys(requirements))
    more = len(named) - _MOST_NAMED
    shown = "; ".join(named[:_MOST_NAMED] if more > 1 else named)
    others = f"; and {more} more" if more > 1 else ""
    return f"Decides: {shown}{others}." if named else ""


def _comment(text: str) -> list[str]:
    one_row = " ".join(text.split())
    return [f"# {row}" for row in textwrap.wrap(one_row, _WIDTH - 2, break_on_hyphens=False)]


def _joined(outer: str, key: str) -> str:
    return f"{outer}.{key}" if outer else key
