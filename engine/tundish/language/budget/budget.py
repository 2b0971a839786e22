"""A budget of steps: what a rule may spend on being evaluated or explained."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.text.bounds import MOST_CACHED_STEPS, MOST_STEPS

Key = tuple[str, str, str]
_Result = TypeVar("_Result")


class TooManySteps(Exception):  # noqa: N818 - it reads as the sentence it is
    """A rule took more steps than it may."""


class Budget:
    """The steps that each rule of an evaluation may spend.

    Attributes:
        limit: Steps that each may spend.
        left: Steps that the present one may still spend.
        spent: Steps that all have spent.
    """

    def __init__(self, limit: int = MOST_STEPS) -> None:
        self.limit = self.left = limit
        self.spent = 0

    def begin(self, items: int = 1) -> None:
        """Begin the next rule.

        Args:
            items: How many items it is asked of, which share what it may spend.
        """
        self.left = self.limit if items < 2 else self.limit // items

    def spend(self, steps: int) -> None:
        """Spend steps.

        Raises:
            TooManySteps: If there are not enough left.
        """
        self.left -= steps
        self.spent += steps
        if self.left < 0:
            raise TooManySteps

    def stop(self, spent: int) -> None:
        """Count the steps of a function that keeps count itself, and spent too many.

        Raises:
            TooManySteps: Always.
        """
        self.spent += spent
        raise TooManySteps


@dataclass(frozen=True, slots=True)
class _Entry(Generic[_Result]):
    """A cached result: its own cost, and the keys of the other results that it used."""

    result: _Result
    cost: int
    used: tuple[Key, ...]


class CachingBudget(Budget, Generic[_Result]):
    """A budget with a cache of results that several rules use.

    Each rule pays for every result that it uses, once, whether or not that was in the cache. So
    the cost of a rule does not depend on which rules came before it.
    """

    def __init__(self, limit: int) -> None:
        super().__init__(limit)
        self._cached_steps = 0
        self._entries: dict[Key, _Entry[_Result]] = {}
        self._paid: set[Key] = set()
        self._used: dict[Key, None] = {}
        self._cost_of_used = 0

    def begin(self, items: int = 1) -> None:
        """Begin the next rule; clear the cache where it holds much."""
        super().begin(items)
        self._paid, self._used, self._cost_of_used = set(), {}, 0
        if self._cached_steps > MOST_CACHED_STEPS:
            self._entries.clear()
            self._cached_steps = 0

    def cached(self, key: Key, compute: Callable[[], _Result]) -> _Result:
        """Return the result under a key, computing it if it is not cached.

        Raises:
            TooManySteps: If it costs more steps than are left.
        """
        self._used[key] = None
        entry = self._entries.get(key)
        before = self.left
        if entry is None:
            entry = self._computed(key, compute)
        else:
            self._pay(key)
        self._cost_of_used += before - self.left
        return entry.result

    def _computed(self, key: Key, compute: Callable[[], _Result]) -> _Entry[_Result]:
        outer = self._used, self._cost_of_used
        self._used, self._cost_of_used = {}, 0
        before = self.left
        result = compute()
        cost = before - self.left - self._cost_of_used
        entry = _Entry(result, cost, tuple(self._used))
        self._used, self._cost_of_used = outer
        self._entries[key] = entry
        self._paid.add(key)
        self._cached_steps += cost
        return entry

    def _pay(self, key: Key) -> None:
        """Pay for a cached result, and for all results it used that are not paid for yet."""
        unpaid = [key]
        while unpaid:
            key = unpaid.pop()
            if key not in self._paid:
                self._paid.add(key)
                self.spend(self._entries[key].cost)
                unpaid.extend(self._entries[key].used)
