"""What every part of a checked expression has."""

from __future__ import annotations

from tundish.groundwork.dataclass import dataclass
from tundish.language.tree.kind import Kind


@dataclass(frozen=True, slots=True)
class Node:
    """A part of a checked expression.

    Attributes:
        kind: What sort of value it has.
        start: Index of its first character in the expression, from 0.
        end: Index after its last character.
    """

    kind: Kind
    start: int
    end: int
