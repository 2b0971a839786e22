"""What one evaluation carries along: the job's facts, remembered quantities, steps left."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Protocol

from tundish.language.table import Cell, Table
from tundish.language.tree import Value
from tundish.reading.bounds import MOST_STEPS

Item = Mapping[str, object]
"""The facts of one item of a list, by path from the item."""

_NO_ITEM = id(None)

Function = Callable[..., object]
"""A compiled condition or formula: takes the facts, the session and, for some, an item."""


class Given(Protocol):
    """The facts of a job as an evaluation sees them.

    `values` maps dotted paths to SI floats, texts, truths, tuples of texts, or lists of items
    (each a mapping of its own); what is not known is not there. A group of facts stands under
    its own path as True, or as False where it is known to be absent.
    """

    @property
    def values(self) -> Mapping[str, object]:
        """Return the facts by path."""

    @property
    def written(self) -> Mapping[str, str]:
        """Return facts as they were written, by path with positions in lists from 1."""

    @property
    def names(self) -> Mapping[str, str]:
        """Return how a person calls each item of a list, by its path with its position."""


class TooManySteps(Exception):  # noqa: N818 - it reads as the sentence it is
    """A rule took more steps than it may."""


class Session:
    """The running state of evaluating one job: quantities are computed once and remembered."""

    def __init__(
        self,
        values: Item,
        quantities: Mapping[tuple[str, str], Function],
        tables: Mapping[str, Table],
    ) -> None:
        self.values = values
        self.steps_left = MOST_STEPS
        self._quantities = quantities
        self._tables = tables
        self._remembered: dict[tuple[str, str, int], object] = {}

    def begin_rule(self) -> None:
        """Give the next rule its full allowance of steps."""
        self.steps_left = MOST_STEPS

    def spend(self, steps: int) -> None:
        """Take loop rounds off the allowance.

        Raises:
            TooManySteps: If there are not enough left.
        """
        self.steps_left -= steps
        if self.steps_left < 0:
            raise TooManySteps

    def remember(self, name: str, value: object) -> None:
        """Remember a quantity of the whole job that was worked out elsewhere."""
        self._remembered["", name, _NO_ITEM] = value

    def derive(self, of: str, name: str, item: Item | None = None) -> object:
        """Return a quantity's value, of the whole job or of one item."""
        key = (of, name, id(item))
        if key not in self._remembered:
            function = self._quantities[of, name]
            arguments = (self.values, self) if item is None else (self.values, self, item)
            self._remembered[key] = function(*arguments)
        return self._remembered[key]

    def look_up(self, table: str, column: str, keys: tuple[Cell | None, ...]) -> Value | None:
        """Return what a table gives; unknown where a key is, or where it does not reach."""
        known = [key for key in keys if key is not None]
        if len(known) < len(keys):
            return None
        return self._tables[table].read(column, known).value
