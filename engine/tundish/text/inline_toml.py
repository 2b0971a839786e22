"""Values written as TOML on one line."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

_BARE = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-")


def inline(value: Any, flat: bool = True) -> str:
    """Return a value as TOML on one line.

    Args:
        value: Dictionaries, lists, texts, numbers, truths, dates.
        flat: Whether tables inside a table are written as its dotted keys, not in braces.

    Example:
        >>> inline({"a": {"b": ["x", 1.5, True]}})
        '{ "a.b" = ["x", 1.5, true] }'
    """
    if isinstance(value, Mapping):
        items = _flat(value) if flat else value.items()
        pairs = ", ".join(f"{_key(key)} = {inline(inner, flat)}" for key, inner in items)
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(inline(inner, flat) for inner in value)}]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return toml_string(value)
    return str(value)


def toml_string(text: str) -> str:
    """Return a text as TOML writes it, in double quotes."""
    # JSON leaves one control character as it is that TOML does not allow.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _flat(table: Mapping[str, Any], prefix: str = "") -> list[tuple[str, Any]]:
    """Return the facts of tables within tables under dotted keys."""
    pairs: list[tuple[str, Any]] = []
    for key, value in table.items():
        if isinstance(value, Mapping) and value:
            pairs += _flat(value, f"{prefix}{key}.")
        else:
            pairs.append((f"{prefix}{key}", value))
    return pairs


def _key(key: str) -> str:
    return key if key and set(key) <= _BARE else toml_string(key)
