"""Merging the facts of two files: a filled-in sheet into its job, a job into its base.

Tables are merged key by key. An item of a sheet's list is merged with the job's item of the same
name, or of the same position where it has no name, so that a reading can be given for one circuit
out of many. An empty text is a line of the sheet that nobody filled in.

A job may add to the lists of its base: an item of a new name comes behind the others. Where any
item has no name, the job's list replaces that of the base.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from typing import Any, TypeGuard

from tundish.groundwork.dataclass import dataclass
from tundish.text.bounds import MOST_PROBLEMS
from tundish.text.nearest import did_you_mean
from tundish.text.place import Path
from tundish.text.quoted import quoted

_MOST_NAMES = 200

Positions = dict[Path, dict[int, int]]
"""By the path of a list in the job: where in the sheet's list each of its items stands."""


@dataclass(slots=True)
class Merged:
    """The facts of a job and a sheet, or of a base and the job that is based on it.

    Attributes:
        data: The facts of both.
        adding: Whether items may be added to lists.
        positions: Where in the sheet the items of the job's lists stand.
        wrong: The places in the sheet that fit nowhere in the job, each with a sentence.
    """

    data: dict[str, Any]
    adding: bool
    positions: Positions = field(default_factory=dict)
    wrong: list[tuple[Path, str]] = field(default_factory=list)


def without_blanks(data: Any) -> Any:
    """Return the facts of a sheet without the lines that nobody filled in."""
    if isinstance(data, dict):
        filled = {key: without_blanks(value) for key, value in data.items()}
        return {key: value for key, value in filled.items() if not _is_blank(value, data[key])}
    return [without_blanks(item) for item in data] if isinstance(data, list) else data


def _is_blank(filled: Any, written: Any) -> bool:
    """Say whether nobody filled in any of what was written; `[]` says that there are none."""
    if isinstance(filled, list):
        return bool(written) and all(item == {} for item in filled)
    return filled in ("", {})


def merge_facts(job: dict[str, Any], sheet: dict[str, Any], *, adding: bool = False) -> Merged:
    """Merge the facts of a sheet into those of a job.

    Args:
        job: The facts of the job, or of the base of a job.
        sheet: The facts of the sheet, without blanks, or of the job that is based on the other.
        adding: Whether items may be added to lists, as a job does to its base.

    Returns:
        The facts of both; the sheet's where both state one.
    """
    merged = Merged({}, adding)
    merged.data = _tables(job, sheet, (), (), merged)
    return merged


def _tables(
    job: dict[str, Any], sheet: dict[str, Any], at: Path, in_sheet: Path, merged: Merged
) -> dict[str, Any]:
    table = dict(job)
    for key, value in sheet.items():
        under = job.get(key)
        job_path, sheet_path = (*at, key), (*in_sheet, key)
        if isinstance(value, dict) and isinstance(under, dict):
            table[key] = _tables(under, value, job_path, sheet_path, merged)
        elif _is_of_tables(value) and _is_of_tables(under) and _is_merged_by_item(value, merged):
            table[key] = _lists(under, value, job_path, sheet_path, merged)
        else:
            table[key] = value
    return table


def _lists(
    job: list[dict[str, Any]], sheet: list[dict[str, Any]], at: Path, in_sheet: Path, merged: Merged
) -> list[dict[str, Any]]:
    items = list(job)
    positions = merged.positions.setdefault(at, {})
    named = {_name(own): at for at, own in reversed(list(enumerate(job))) if _is_named(own)}
    for position, item in enumerate(sheet):
        in_job = _position_of(item, position, len(job), named)
        sheet_path = (*in_sheet, position)
        if in_job is not None:
            positions[in_job] = position
            items[in_job] = _tables(job[in_job], item, (*at, in_job), sheet_path, merged)
        elif merged.adding:
            positions[len(items)] = position
            items.append(item)
        elif len(merged.wrong) < MOST_PROBLEMS:
            merged.wrong.append((sheet_path, _no_such_item(item, position, job)))
    return items


def _position_of(
    item: dict[str, Any], position: int, length: int, named: dict[str, int]
) -> int | None:
    """Return the position of the job's item that one of the sheet is about."""
    if "name" not in item:
        return position if position < length else None
    return named.get(_name(item)) if _is_named(item) else None


def _is_merged_by_item(sheet: list[dict[str, Any]], merged: Merged) -> bool:
    """Say whether a list is merged item by item; else it takes the other's place."""
    return not merged.adding or all(_is_named(item) for item in sheet)


def _name(item: dict[str, Any]) -> str:
    return str(item["name"]).strip()  # as it is read


def _is_named(item: dict[str, Any]) -> bool:
    return isinstance(item.get("name"), str)


def _no_such_item(item: dict[str, Any], position: int, job: list[dict[str, Any]]) -> str:
    if "name" not in item:
        return f"The job has {len(job)} of these, and this is number {position + 1}."
    names = list(_names(job))
    # Looking through thousands of names, for each wrong one anew, would take minutes.
    hint = did_you_mean(str(item["name"]), names) if len(names) <= _MOST_NAMES else ""
    return f"The job has none of these named {quoted(item['name'])}.{hint}"


def _names(job: list[dict[str, Any]]) -> Iterator[str]:
    for item in job:
        if _is_named(item):
            yield _name(item)


def _is_of_tables(value: Any) -> TypeGuard[list[dict[str, Any]]]:
    return isinstance(value, list) and bool(value) and all(isinstance(item, dict) for item in value)
