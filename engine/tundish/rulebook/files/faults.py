"""Faults of packs, and the names whose declarations were refused.

A fault is told once. What uses a refused name is not told as well: it is right as soon as the
declaration is.
"""

from __future__ import annotations

from typing import Literal

from tundish.text.problem import Problems

Sort = Literal["source", "fact", "quantity", "table", "rule"]
"""What is declared under a name that others use."""

_IN_EXPRESSIONS: tuple[Sort, ...] = ("fact", "quantity", "table")


class Faults(Problems):
    """Problems of packs as they are found, and the names that were refused.

    Attributes:
        refused_names: Names of refused facts, quantities and tables, which expressions may use.
    """

    def __init__(self) -> None:
        super().__init__()
        self.refused_names: set[str] = set()
        self._names: set[tuple[Sort, str]] = set()

    def refuse(self, sort: Sort, name: str) -> None:
        """Note that a declaration is wrong, which a problem tells."""
        self._names.add((sort, name))
        if sort in _IN_EXPRESSIONS:
            self.refused_names.add(name)

    def has_refused(self, sort: Sort, name: str) -> bool:
        """Say whether the declaration of a name was refused, which a problem tells already."""
        return (sort, name) in self._names
