"""Laying one tree of plain data over another, key by key."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def laid_over(upper: Mapping[str, Any], lower: Mapping[str, Any]) -> dict[str, Any]:
    """Return data with other data laid over it.

    Args:
        upper: What stands wherever both say something; lists are taken whole.
        lower: What it is laid over; it is not changed.

    Example:
        >>> laid_over({"a": {"b": 1}}, {"a": {"b": 2, "c": 3}})
        {'a': {'b': 1, 'c': 3}}
    """
    joined = dict(lower)
    for key, value in upper.items():
        under = joined.get(key)
        both = isinstance(value, Mapping) and isinstance(under, Mapping)
        joined[key] = laid_over(value, under) if both and under is not None else value
    return joined
