"""Facts: a job as a flat table in SI units, as rules read it."""

from __future__ import annotations

import datetime
from dataclasses import field
from typing import Any, TypeAlias

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.open_list import OpenList
from tundish.job.model.field_types import NONE, FactType, ItemsType, MoreType
from tundish.job.model.part import Part
from tundish.job.model.paths import outer_paths, without_positions
from tundish.job.model.pipe_size import PipeSize
from tundish.job.model.schema import words
from tundish.job.parts.heading import Heading
from tundish.units.quantity import Quantity

Value: TypeAlias = "float | str | bool | tuple[str, ...] | list[dict[str, Value]]"


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of a job; a key that is missing is not known.

    Args:
        values: By dotted path: quantities in SI units, counts and dates (as day numbers) as
            numbers, texts, truths, lists of texts as tuples, lists of records as lists of
            dictionaries with paths relative to the item. A record that is given is True, one
            known to be absent is False.
        written: The text of each fact as it was written, by full path with list positions counted
            from 1.
        names: The name of each list item to show, by its full path.
    """

    values: dict[str, Value] = field(default_factory=dict)
    written: dict[str, str] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)


def flatten(job: Part) -> Facts:
    """Return the facts of a job; `Job.facts` does so once.

    Args:
        job: The job.
    """
    facts = Facts()
    heading: Heading | None = getattr(job, "job", None)
    _add_part(job, "", "", facts.values, facts, heading or Heading())
    return facts


def _add_part(
    part: Part, relative: str, full: str, values: dict[str, Value], facts: Facts, heading: Heading
) -> None:
    """Add what a part holds; `relative` and `full` are its path with the dot behind."""
    members = type(part).members
    for name, value in part.given.items():
        held = members[name].held
        inner_path, shown_as = relative + name, full + name
        if isinstance(held, FactType):
            _fact(value, inner_path, shown_as, values, facts.written)
        elif isinstance(held, MoreType):
            continue  # what is under [more] means something to a rulebook alone
        elif isinstance(held, ItemsType):
            values[inner_path] = _items(value, shown_as, facts, heading)
        elif value == NONE:
            values[inner_path] = False
            facts.written[shown_as] = NONE
        else:
            values[inner_path] = True
            _add_part(value, f"{inner_path}.", f"{shown_as}.", values, facts, heading)


def _items(
    items: tuple[Part, ...], full: str, facts: Facts, heading: Heading
) -> list[dict[str, Value]]:
    records: list[dict[str, Value]] = []
    for position, item in enumerate(items, start=1):
        item_path = f"{full}[{position}]"
        facts.names[item_path] = item_name(item, position)
        values: dict[str, Value] = {}
        _add_part(item, "", f"{item_path}.", values, facts, heading)
        records.append(values)
    # An empty list says that there are none.
    is_open = bool(records) and heading.leaves_open(without_positions(full))
    return OpenList(records) if is_open else records


def is_stated(facts: Facts, path: str) -> bool:
    """Say whether nothing is left to ask of a fact.

    Args:
        facts: What is known.
        path: The path of the fact in the schema, without positions.

    Returns:
        True if it is known, if what it belongs to is known to be absent, or if it belongs to a list
        whose items are known.
    """
    around = (facts.values.get(outer) for outer in outer_paths(path))
    return path in facts.values or any(
        group is False or isinstance(group, list) for group in around
    )


def own_names(facts: Facts) -> dict[str, str]:
    """Return the `name` that each list item was given, by the item's full path."""
    names = {path: facts.written.get(f"{path}.name") for path in facts.names}
    return {path: name for path, name in names.items() if name is not None}


def item_name(item: Part, position: int) -> str:
    """Return the name to show for an item of a list.

    Args:
        item: The item.
        position: Its position in the list, counted from 1.

    Returns:
        Its name; else what it serves; else the word for one and its position, as in "circuit 2".
    """
    name = getattr(item, "name", None)
    if isinstance(name, str):
        return name
    serves: tuple[str, ...] | None = getattr(item, "serves", None)
    if serves:
        return " and ".join(serves)
    return f"{words(type(item).__name__)} {position}"


def add_fact(value: Any, path: str, facts: Facts) -> None:
    """Add a fact of a whole job.

    Args:
        value: The fact, as its kind reads it.
        path: Its path.
        facts: Gets the fact.
    """
    _fact(value, path, path, facts.values, facts.written)


def _fact(
    value: Any, path: str, full: str, values: dict[str, Value], written: dict[str, str]
) -> None:
    if isinstance(value, PipeSize):
        values[path] = True
        written[full] = value.name
        for name in ("name", "material", "size", "outside_diameter", "wall"):
            inner = getattr(value, name)
            if inner is not None:
                _fact(inner, f"{path}.{name}", f"{full}.{name}", values, written)
        return
    values[path], written[full] = value_and_text(value)


def value_and_text(value: Any) -> tuple[Value, str]:
    """Return a fact as a rule meets it, and as it was written."""
    if isinstance(value, Quantity):
        return value.si, str(value)
    if isinstance(value, bool):
        return value, "true" if value else "false"
    if isinstance(value, datetime.date):
        return float(value.toordinal()), value.isoformat()
    if isinstance(value, tuple):
        return value, ", ".join(value) if value else NONE
    if isinstance(value, int | float):
        return float(value), f"{value:.15g}" if isinstance(value, float) else str(value)
    return str(value), str(value)
