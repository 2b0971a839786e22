"""Accounts: what explaining may take, and what was worked out once for several that ask."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.language.budget.cost import TooManySteps
from tundish.text.bounds import MOST_KEPT_STEPS

Key = tuple[str, str, str]
_Kept = TypeVar("_Kept")


@dataclass(frozen=True, slots=True)
class _Entry(Generic[_Kept]):
    """What was worked out once: its own cost, and what else it asked for."""

    result: _Kept
    cost: int
    needs: tuple[Key, ...]


class Account(Generic[_Kept]):
    """Steps left to one that asks, and results kept for the next.

    Each who asks pays for all that the answer rests on, once, whether it was worked out before or
    not. So it makes no difference to anyone what was asked earlier.

    Args:
        allowance: Steps that each who asks may take.
    """

    def __init__(self, allowance: int) -> None:
        self._allowance = allowance
        self._left = allowance
        self._held = 0
        self._entries: dict[Key, _Entry[_Kept]] = {}
        self._paid: set[Key] = set()
        self._needs: dict[Key, None] = {}
        self._inner = 0

    def begin(self) -> None:
        """Give the next one its full allowance; let go of what is kept where that is much."""
        self._left = self._allowance
        self._paid, self._needs, self._inner = set(), {}, 0
        if self._held > MOST_KEPT_STEPS:
            self._entries.clear()
            self._held = 0

    def spend(self, steps: int) -> None:
        """Take steps off what is left.

        Raises:
            TooManySteps: If there are not enough.
        """
        self._left -= steps
        if self._left < 0:
            raise TooManySteps

    def once(self, key: Key, work: Callable[[], _Kept]) -> _Kept:
        """Return what is kept under a key, or work it out.

        Args:
            key: Names it.
            work: Works it out.

        Raises:
            TooManySteps: If it takes more steps than are left.
        """
        self._needs[key] = None
        entry = self._entries.get(key)
        before = self._left
        if entry is None:
            entry = self._worked_out(key, work)
        else:
            self._pay(key)
        self._inner += before - self._left
        return entry.result

    def _worked_out(self, key: Key, work: Callable[[], _Kept]) -> _Entry[_Kept]:
        outer = self._needs, self._inner
        self._needs, self._inner = {}, 0
        before = self._left
        result = work()
        cost = before - self._left - self._inner
        entry = _Entry(result, cost, tuple(self._needs))
        self._needs, self._inner = outer
        self._entries[key] = entry
        self._paid.add(key)
        self._held += cost
        return entry

    def _pay(self, key: Key) -> None:
        """Pay for what is kept, and for all it rests on that has not been paid for yet."""
        ahead = [key]
        while ahead:
            one = ahead.pop()
            if one not in self._paid:
                self._paid.add(one)
                entry = self._entries[one]
                self.spend(entry.cost)
                ahead.extend(entry.needs)
