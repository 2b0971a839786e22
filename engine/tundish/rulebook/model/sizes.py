"""Practical sizes: what things are bought, set or built in, so that a remedy can be done."""

from __future__ import annotations

import math

from tundish.groundwork.dataclass import dataclass
from tundish.rulebook.model.source import Citation


@dataclass(frozen=True, slots=True)
class Sizes:
    """The values that some facts can practically have.

    Attributes:
        name: What they are called.
        values: The values there are, as written and in SI units, ascending; empty where a step
            is given.
        step: The step in which any value can be had [SI units], or None.
        citations: On whose authority.
    """

    name: str
    values: tuple[tuple[str, float], ...]
    step: float | None
    citations: tuple[Citation, ...]

    def rounded(self, value: float, up: bool) -> float | None:
        """Return the practical value at or beyond one, in the direction of the change."""
        if self.step is not None:
            return _whole(value / self.step, up) * self.step
        beyond = [si for _, si in self.values if (si >= value if up else si <= value)]
        return (min(beyond) if up else max(beyond)) if beyond else None


def _whole(number: float, up: bool) -> float:
    """Round to a whole number, away from where the change comes from."""
    nearest = round(number)
    if math.isclose(number, nearest, rel_tol=1e-9):
        return nearest
    return math.ceil(number) if up else math.floor(number)
