"""What is wrong in packs, and which names cannot be used for it.

One thing that is wrong is told once: what cites a source that was refused is right as soon as the
source is.
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
        words: Names that were refused of what expressions name: facts, quantities and tables.
    """

    def __init__(self) -> None:
        super().__init__()
        self.words: set[str] = set()
        self._names: set[tuple[Sort, str]] = set()

    def refuse(self, sort: Sort, name: str) -> None:
        """Note that something is declared, yet wrongly, of which a problem tells."""
        self._names.add((sort, name))
        if sort in _IN_EXPRESSIONS:
            self.words.add(name)

    def has_refused(self, sort: Sort, name: str) -> bool:
        """Say whether something of a name is declared wrongly, so that it is told already."""
        return (sort, name) in self._names
