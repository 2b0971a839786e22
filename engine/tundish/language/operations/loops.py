"""What a loop makes of its rounds: pairs of (does the item count, the value of its term)."""

from __future__ import annotations

import operator
from collections.abc import Callable

from tundish.language.operations.values import apply
from tundish.language.tree.tree import Value

Rounds = list[tuple[Value | None, Value | None]]


def _all(rounds: Rounds) -> bool | None:
    if any(test is True and term is False for test, term in rounds):
        return False
    counted = [term for test, term in rounds if test is not False]
    return True if all(term is True for term in counted) else None


def _any(rounds: Rounds) -> bool | None:
    if any(test is True and term is True for test, term in rounds):
        return True
    counted = [term for test, term in rounds if test is not False]
    return False if all(term is False for term in counted) else None


def _sum(rounds: Rounds) -> float | None:
    result: float | None = 0.0
    for test, term in rounds:
        if test is not False:
            result = apply(operator.add, result, _number(term) if test is True else None)
    return result


def _count(rounds: Rounds) -> float | None:
    relevant = [(test, term) for test, term in rounds if test is not False and term is not False]
    if any(test is None or term is None for test, term in relevant):
        return None
    return float(len(relevant))


def _least(rounds: Rounds) -> float | None:
    numbers = _numbers(rounds)
    return min(numbers) if numbers else None


def _greatest(rounds: Rounds) -> float | None:
    numbers = _numbers(rounds)
    return max(numbers) if numbers else None


def _numbers(rounds: Rounds) -> list[float] | None:
    """Return the terms of the items that count, or nothing where one of them is unknown."""
    counted = [(test, _number(term)) for test, term in rounds if test is not False]
    known = [term for test, term in counted if test is True and term is not None]
    return known if len(known) == len(counted) else None


def _number(value: Value | None) -> float | None:
    return value if isinstance(value, float) else None


LOOP_VALUE: dict[str, Callable[[Rounds], Value | None]] = {
    "all": _all,
    "any": _any,
    "sum": _sum,
    "count": _count,
    "least": _least,
    "greatest": _greatest,
}

NEUTRAL: dict[str, bool] = {"all": True, "any": False, "count": False}
"""The term that leaves a loop's result as it is, whether or not its item counts."""
