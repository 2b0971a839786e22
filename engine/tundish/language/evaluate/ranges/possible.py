"""What facts may be that nobody has stated yet, so that every completion of a job is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from tundish.language.evaluate.ranges.range import Range
from tundish.language.tree.tree import Value


class Possible(Protocol):
    """What facts may be."""

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
