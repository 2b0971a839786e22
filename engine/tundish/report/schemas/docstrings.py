"""Docstrings read as data: what a class is, and what each of its attributes means."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterable

_ATTRIBUTE = re.compile(r"(\w+)(?: \([^)]*\))?: (.*)")
_SECTION = re.compile(r"(Args|Attributes|Example|Raises|Returns|Yields):")


def about(documented: object) -> str:
    """Return what a class or function is, without its sections, on one line.

    Args:
        documented: What has a docstring.

    Example:
        >>> class Pipe:
        ...     '''A pipe.
        ...
        ...     Attributes:
        ...         length: How long it is.
        ...     '''
        >>> about(Pipe), attributes(Pipe)
        ('A pipe.', {'length': 'How long it is.'})
    """
    rows: list[str] = []
    for row in _rows(documented):
        if _SECTION.fullmatch(row):
            break
        rows.append(row)
    return " ".join(" ".join(rows).split())


def attributes(documented: object) -> dict[str, str]:
    """Return what each attribute of a class means, by name.

    Args:
        documented: A class; it and its bases list attributes in a section `Attributes` or `Args`.
    """
    classes = reversed(documented.__mro__) if isinstance(documented, type) else ()
    return {name: meaning for owner in classes for name, meaning in _own_attributes(owner)}


def _own_attributes(documented: type) -> Iterable[tuple[str, str]]:
    meanings: dict[str, str] = {}
    inside, name = False, ""
    for row in _rows(documented):
        if _SECTION.fullmatch(row):
            inside, name = row in ("Attributes:", "Args:"), ""
            continue
        begins = _ATTRIBUTE.fullmatch(row.strip()) if row.startswith("    ") else None
        if not inside:
            continue
        if begins and not row.startswith("     "):
            name = begins[1]
            meanings[name] = begins[2]
        elif name and row.strip():
            meanings[name] = f"{meanings[name]} {row.strip()}"
    return meanings.items()


def _rows(documented: object) -> list[str]:
    return inspect.cleandoc(getattr(documented, "__doc__", None) or "").splitlines()
