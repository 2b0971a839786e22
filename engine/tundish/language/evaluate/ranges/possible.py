"""What facts may be that nobody has stated yet, so that every completion of a job is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from tundish.language.evaluate.ranges.range import Range
from tundish.language.tree.tree import Value


class Beside(Protocol):
    """That a fact stands on one side of another; paths without positions."""

    @property
    def sign(self) -> str:
        """Return the comparison, read from the fact to the other."""

    @property
    def other(self) -> str:
        """Return the path of the other."""

    @property
    def of(self) -> str:
        """Return the path of the list to whose items the fact belongs, or ""."""

    @property
    def other_of(self) -> str:
        """Return the same of the other."""


class Possible(Protocol):
    """What facts may be."""

    def bounds_on(self, path: str) -> Sequence[Beside]:
        """Return how a fact is bounded by other facts.

        Args:
            path: Its path, lists without positions.
        """

    def range_of(self, path: str) -> Range:
        """Return where a fact lies once it is stated; None where nothing bounds it.

        Args:
            path: Its path, lists without positions.
        """

    def options(self, path: str) -> Sequence[Value]:
        """Return all that a fact can be, where that is one of a few; or whether a group is there.

        Args:
            path: The path of the fact or group, lists without positions.
        """

    def presence(self, path: str) -> bool | None:
        """Return whether a group of facts that is not stated is there; None where it may be.

        Args:
            path: The path of the group, lists without positions.
        """
