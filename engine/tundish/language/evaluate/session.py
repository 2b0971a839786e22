"""The state of one evaluation: the job's facts, quantities that are computed, its budget."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from functools import cached_property
from typing import Protocol

from tundish.language.budget.budget import Budget, TooManySteps
from tundish.language.operations.table import RowsOfTables

Item = Mapping[str, object]
"""The facts of one item of a list, by path from the item."""

_NO_ITEM = id(None)

_TOO_MANY_STEPS = object()
"""Stands for the value of a quantity that takes more steps than it may."""

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
    """The running state of evaluating one job: each quantity is computed once.

    Args:
        values: The job's facts by path.
        quantities: The compiled formulas, by path of the list they belong to (or "") and name.
        rows: The rows of all tables.
        budget: The steps that one rule, and one quantity of the whole job, may spend in loops.
        barred: Gives what is barred for a job: quantities and rules of items, by the path of their
            list, or "", and name.

    Attributes:
        rows: The rows of all tables.
        budget: What is left of the budget.
    """

    def __init__(
        self,
        values: Item,
        quantities: Mapping[tuple[str, str], Function],
        rows: RowsOfTables,
        budget: Budget | None = None,
        barred: Callable[[Item], Collection[tuple[str, str]]] = lambda _: (),
    ) -> None:
        self.values = values
        self._barred = barred
        self.budget = budget or Budget()
        self._quantities = quantities
        self.rows = rows
        self._cached: dict[tuple[str, str, int], tuple[object, int]] = {}

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
        if steps > self.budget.limit or self.barred:
            raise TooManySteps

    def derive_within(self, limit: int, spent: int, of: str, name: str, item: Item) -> object:
        """Return an item's quantity to a function that keeps count of its steps itself.

        What it costs is spent already, and taken off what is left.

        Args:
            limit: How many steps the function may have spent.
            spent: How many it has spent.
            of: Path of the list.
            name: Name of the quantity.
            item: The item.

        Raises:
            TooManySteps: If there are not enough steps left.
        """
        self.budget.left = limit - spent
        try:
            return self.derive(of, name, item)
        except TooManySteps:
            self.budget.spent += spent
            raise

    def remember(self, name: str, value: object) -> None:
        """Remember a quantity of the whole job that was computed elsewhere."""
        self._cached["", name, _NO_ITEM] = (value, 0)

    def derive(self, of: str, name: str, item: Item | None = None) -> object:
        """Return a quantity's value, of the whole job or of one item.

        It is computed once. A quantity of the whole job has a budget of its own; one of an item is
        paid for by each rule that uses it. So it makes no difference to a rule which others were
        asked before it.

        Raises:
            TooManySteps: If the quantity, or the rule that uses it, has not enough steps left.
        """
        key = (of, name, id(item))
        cached = self._cached.get(key)
        if cached is None:
            cached = self._of_job(name) if item is None else self._of_item(of, name, item)
            self._cached[key] = cached
        elif cached[1]:
            self.budget.spend(cached[1])
        if cached[0] is _TOO_MANY_STEPS:
            raise TooManySteps
        return cached[0]

    def _of_job(self, name: str) -> tuple[object, int]:
        budget = self.budget
        left, budget.left = budget.left, budget.limit
        try:
            return self._quantities["", name](self.values, self), 0
        except TooManySteps:
            return _TOO_MANY_STEPS, 0
        finally:
            budget.left = left

    def _of_item(self, of: str, name: str, item: Item) -> tuple[object, int]:
        if (of, name) in self.barred:
            raise TooManySteps
        left = self.budget.left
        value = self._quantities[of, name](self.values, self, item)
        return value, left - self.budget.left
