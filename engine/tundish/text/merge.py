"""Merging trees of plain data, key by key."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def merge(upper: Mapping[str, Any], lower: Mapping[str, Any]) -> dict[str, Any]:
    """Return two trees merged, key by key.

    Args:
        upper: The data that count wherever both state something; lists are taken whole.
        lower: The data that count elsewhere; they are not changed.

    Example:
        >>> merge({"a": {"b": 1}}, {"a": {"b": 2, "c": 3}})
        {'a': {'b': 1, 'c': 3}}
    """
    joined = dict(lower)
    for key, value in upper.items():
        under = joined.get(key)
        both = isinstance(value, Mapping) and isinstance(under, Mapping)
        joined[key] = merge(value, under) if both and under is not None else value
    return joined


def put_at(data: Any, path: tuple[str | int, ...], value: Any) -> Any:
    """Return data with one value put in or put otherwise; the data itself stays as it is.

    Args:
        data: Tables and lists.
        path: The way to the value; the position behind the last of a list adds an item to it.
        value: What stands there from now on.

    Example:
        >>> put_at({"site": {"altitude": "40 m"}}, ("water", "run", 0), {"name": "flow"})
        {'site': {'altitude': '40 m'}, 'water': {'run': [{'name': 'flow'}]}}
    """
    if not path:
        return value
    step, further = path[0], path[1:]
    if isinstance(step, int):
        items = list(data or [])
        if step == len(items):
            items.append({})
        items[step] = put_at(items[step], further, value)
        return items
    table = dict(data) if isinstance(data, dict) else {}
    table[step] = put_at(table.get(step), further, value)
    return table
