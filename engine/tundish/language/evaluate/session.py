"""What one evaluation carries along: the job's facts, remembered quantities, steps left."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from functools import cached_property
from typing import Protocol

from tundish.language.budget.cost import TooManySteps
from tundish.language.operations.table import RowsOfTables
from tundish.text.bounds import MOST_STEPS

Item = Mapping[str, object]
"""The facts of one item of a list, by path from the item."""

_NO_ITEM = id(None)

_TOO_MUCH = object()
"""Stands for a quantity that takes more steps than it may."""

Function = Callable[..., object]
"""A compiled condition or formula: takes the facts, the session and, for some, an item."""


class JobFacts(Protocol):
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


class Session:
    """The running state of evaluating one job: quantities are computed once and remembered.

    Args:
        values: The job's facts by path.
        quantities: The compiled formulas, by path of the list they belong to (or "") and name.
        rows: The rows of all tables.
        allowance: Steps that one rule, and one quantity of the whole job, may take in loops.
        barred: Gives what is barred for a job: quantities and rules of items, by the path of their
            list, or "", and name.

    Attributes:
        rows: The rows of all tables.
        steps_left: Steps that the rule being asked may still take.
        spent: Steps that all have taken.
    """

    spent = 0

    def __init__(
        self,
        values: Item,
        quantities: Mapping[tuple[str, str], Function],
        rows: RowsOfTables,
        allowance: int = MOST_STEPS,
        barred: Callable[[Item], Collection[tuple[str, str]]] = lambda _: (),
    ) -> None:
        self.values = values
        self._barred = barred
        self.steps_left = allowance
        self.budget = allowance
        self._quantities = quantities
        self.rows = rows
        self._remembered: dict[tuple[str, str, int], tuple[object, int]] = {}

    @cached_property
    def barred(self) -> Collection[tuple[str, str]]:
        """Return the quantities and rules of items that the job has too many items for."""
        return self._barred(self.values)

    def check_lists(self, steps: int) -> None:
        """Check that nothing is barred or costs too much, where a list has many items.

        Args:
            steps: What any rule or quantity costs at most.

        Raises:
            TooManySteps: If so.
        """
        if steps > self.budget or self.barred:
            raise TooManySteps

    def begin_rule(self, items: int = 1) -> None:
        """Give the next rule its full allowance of steps.

        Args:
            items: How many items it is asked of, which share the allowance.
        """
        self.steps_left = self.budget if items < 2 else self.budget // items

    def spend(self, steps: int) -> None:
        """Take steps off the allowance.

        Raises:
            TooManySteps: If there are not enough left.
        """
        self.steps_left -= steps
        self.spent += steps
        if self.steps_left < 0:
            raise TooManySteps

    def stop(self, spent: int) -> None:
        """Count steps of one with an account of their own who took too many.

        Raises:
            TooManySteps: Always.
        """
        self.spent += spent
        raise TooManySteps

    def derive_within(self, limit: int, spent: int, of: str, name: str, item: Item) -> object:
        """Return an item's quantity to somebody who keeps an account of their own.

        What it takes is counted already, and taken off `steps_left`.

        Args:
            limit: Up to how many steps that account goes.
            spent: How many were taken.
            of: Path of the list.
            name: Name of the quantity.
            item: The item.

        Raises:
            TooManySteps: If there are not enough steps left.
        """
        self.steps_left = limit - spent
        try:
            return self.derive(of, name, item)
        except TooManySteps:
            self.spent += spent
            raise

    def remember(self, name: str, value: object) -> None:
        """Remember a quantity of the whole job that was worked out elsewhere."""
        self._remembered["", name, _NO_ITEM] = (value, 0)

    def derive(self, of: str, name: str, item: Item | None = None) -> object:
        """Return a quantity's value, of the whole job or of one item.

        It is worked out once. A quantity of the whole job has an allowance of its own; what one of
        an item costs is taken off the allowance of each who asks for it. So it makes no
        difference to a rule which others were asked before it.

        Raises:
            TooManySteps: If the quantity, or whoever asks for it, has not enough steps left.
        """
        key = (of, name, id(item))
        found = self._remembered.get(key)
        if found is None:
            found = self._whole(name) if item is None else self._of_item(of, name, item)
            self._remembered[key] = found
        elif found[1]:
            self.spend(found[1])
        if found[0] is _TOO_MUCH:
            raise TooManySteps
        return found[0]

    def _whole(self, name: str) -> tuple[object, int]:
        left, self.steps_left = self.steps_left, self.budget
        try:
            return self._quantities["", name](self.values, self), 0
        except TooManySteps:
            return _TOO_MUCH, 0
        finally:
            self.steps_left = left

    def _of_item(self, of: str, name: str, item: Item) -> tuple[object, int]:
        if (of, name) in self.barred:
            raise TooManySteps
        left = self.steps_left
        value = self._quantities[of, name](self.values, self, item)
        return value, left - self.steps_left
