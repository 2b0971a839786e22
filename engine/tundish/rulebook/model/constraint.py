"""Constraints, linked: what facts of one job can only be together."""

from __future__ import annotations

from typing import NamedTuple

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.operators import RELATIONS
from tundish.language.tree.tree import Comparison, Constant, Read
from tundish.rulebook.model.asked import Asked


class Bound(NamedTuple):
    """That a fact stands on one side of another, both of one job or of one item of a list.

    Attributes:
        sign: The comparison, read from the fact to the other: ``<=`` and so on.
        other: The path of the other fact, without positions.
        of: The path of the list to whose items the fact belongs; "" where it is the job's.
        other_of: The same of the other fact.
    """

    sign: str
    other: str
    of: str
    other_of: str


@dataclass(frozen=True, slots=True)
class Constraint(Asked):
    """A relation that physics or definition puts between facts of one job."""

    noun = "constraint"

    def bounds(self) -> dict[str, Bound]:
        """Return how it bounds each of two facts by the other, by path without positions.

        Nothing where it compares anything but two facts, or holds under a condition only.
        """
        root = self.requires
        assert isinstance(root, Comparison)
        sides = root.left, root.right
        if not isinstance(self.applies, Constant) or not all(
            isinstance(side, Read) for side in sides
        ):
            return {}
        left, right = ((self._of(side), self._path(side)) for side in sides)
        mirrored = RELATIONS[root.sign].mirrored
        return {
            left[1]: Bound(root.sign, right[1], left[0], right[0]),
            right[1]: Bound(mirrored, left[1], right[0], left[0]),
        }

    def _of(self, side: object) -> str:
        assert isinstance(side, Read)
        return "" if side.item is None else self.variables[side.item]

    def _path(self, side: object) -> str:
        assert isinstance(side, Read)
        of = self._of(side)
        return f"{of}.{side.path}" if of else side.path

    @property
    def _steps(self) -> tuple[str, ...]:
        return (self.name.partition("/")[2],)
