"""Sources: on whose authority a rule stands, and where in it."""

from __future__ import annotations

from typing import Literal

from tundish.groundwork.dataclass import dataclass

Basis = Literal[
    "standard", "regulation", "guidance", "handbook", "product data", "common practice", "physics"
]
"""What sort of authority a source has; common practice names no source at all."""


@dataclass(frozen=True, slots=True)
class Source:
    """An entry of the bibliography.

    Attributes:
        name: The name that rules cite.
        title: What it is called, with its number where it has one.
        basis: What sort of authority it has.
        edition: The edition that was meant, where there are several.
    """

    name: str
    title: str
    basis: Basis
    edition: str = ""

    def __str__(self) -> str:
        """Return the title with its edition."""
        return f"{self.title} ({self.edition})" if self.edition else self.title


@dataclass(frozen=True, slots=True)
class Citation:
    """A place in a source.

    Attributes:
        source: The source.
        at: Where in it: a clause, a table, a heading; empty where the whole is meant.
        recall: Whether the value or clause was written from memory and is still to be read.
        note: What a reader should know of this source here, such as a disagreement.
    """

    source: Source
    at: str = ""
    recall: bool = False
    note: str = ""

    def __str__(self) -> str:
        """Return the citation as reports print it."""
        text = f"{self.source}, {self.at}" if self.at else str(self.source)
        if self.recall:
            text += " [from memory]"
        return f"{text}; {self.note}" if self.note else text
