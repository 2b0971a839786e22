"""Changing facts: a copy of a job's facts with some of them changed, as a trial."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.open_list import like
from tundish.job.facts import Facts, Value
from tundish.job.model.paths import outer_paths, path_steps
from tundish.text.merge import put_at


@dataclass(frozen=True, slots=True)
class Change:
    """One changed fact.

    Attributes:
        path: Its path, positions in lists counted from 1.
        value: The new value as rules meet it: SI units for a quantity.
        written: The new value as it would be written in a job.
    """

    path: str
    value: Value
    written: str


def changed(facts: Facts, changes: Iterable[Change]) -> Facts:
    """Return facts with some changed; the groups around them count as present.

    Args:
        facts: The facts; nothing in them is changed.
        changes: The changes.

    Raises:
        KeyError: If a list has no such item.
    """
    values, written = dict(facts.values), dict(facts.written)
    for change in changes:
        _put(values, change.path, change.value)
        written[change.path] = change.written
    return Facts(values, written, facts.names)


def without(facts: Facts, paths: Iterable[str]) -> Facts:
    """Return facts of which some are not known.

    Args:
        facts: The facts; nothing in them is changed.
        paths: Paths of those to leave out, positions in lists counted from 1.
    """
    values, written = dict(facts.values), dict(facts.written)
    for path in paths:
        _put(values, path, None)
        written.pop(path, None)
    return Facts(values, written, facts.names)


def _put(values: dict[str, Value], path: str, value: Value | None) -> None:
    """Put a fact into a copy of facts, or take it out where there is no value."""
    before, bracket, behind = path.partition("[")
    if not bracket and value is None:
        values.pop(path, None)
        return
    if not bracket:
        assert value is not None
        values.update(dict.fromkeys(outer_paths(path), True))
        values[path] = value
        return
    number, _, inner = behind.partition("].")
    items = values.get(before)
    at = int(number) - 1
    if not isinstance(items, list) or at >= len(items):
        raise KeyError(path)
    copies = like(list(items), items)
    copies[at] = dict(items[at])
    _put(copies[at], inner, value)
    values[before] = copies


def places_of(facts: Facts, path: str) -> list[str]:
    """Return the full paths a fact has in a job: one for each item of the lists around it.

    Args:
        facts: The job's facts.
        path: The path of the fact in the schema, without positions.
    """
    paths = [""]
    for step in path.split("."):
        paths = [
            place
            for before in paths
            for place in _items_of(facts, f"{before}.{step}" if before else step)
        ]
    return paths


def _items_of(facts: Facts, path: str) -> list[str]:
    count = 0
    while f"{path}[{count + 1}]" in facts.names:
        count += 1
    return [f"{path}[{at}]" for at in range(1, count + 1)] if count else [path]


def value_at(facts: Facts, path: str) -> Value | None:
    """Return a fact by its full path, or None while it is not known."""
    values: dict[str, Value] = facts.values
    if path.endswith("]"):
        return None  # an item of a list, which has facts but no value
    while "[" in path:
        before, _, behind = path.partition("[")
        number, _, path = behind.partition("].")
        items = values.get(before)
        if not isinstance(items, list) or int(number) > len(items):
            return None
        values = items[int(number) - 1]
    return values.get(path)


def put_into_data(data: dict[str, Any], change: Change, value: Any) -> dict[str, Any]:
    """Return a job's data, as TOML holds it, with one fact changed.

    Args:
        data: The data; nothing in it is changed.
        change: The fact; the position behind the last of a list adds an item to it.
        value: What stands there from now on.
    """
    changed_data: dict[str, Any] = put_at(data, path_steps(change.path), value)
    return changed_data
