"""TOML on one line: the facts of a case, as a rule file writes them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

_BARE = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-")


def inline(value: Any) -> str:
    """Return a value as TOML on one line.

    Args:
        value: Dictionaries, lists, texts, numbers, truths, dates.

    Example:
        >>> inline({"a": {"b": ["x", 1.5, True]}})
        '{ "a.b" = ["x", 1.5, true] }'
    """
    if isinstance(value, Mapping):
        pairs = ", ".join(f"{_key(key)} = {inline(one)}" for key, one in _flat(value))
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(inline(one) for one in value)}]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _text(value)
    return str(value)


def _flat(table: Mapping[str, Any], prefix: str = "") -> list[tuple[str, Any]]:
    """Return the facts of tables within tables under dotted keys."""
    found: list[tuple[str, Any]] = []
    for key, value in table.items():
        if isinstance(value, Mapping) and value:
            found += _flat(value, f"{prefix}{key}.")
        else:
            found.append((f"{prefix}{key}", value))
    return found


def _key(key: str) -> str:
    return key if key and set(key) <= _BARE else _text(key)


def _text(text: str) -> str:
    # JSON lets one control character stand as it is that TOML does not.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
