"""What the rules by hand share: the verdicts, and comparisons with what may not be known."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

Job = dict[str, Any]
Verdict = str | list[str]
Truth = bool | None

MET, BREACHED, UNDECIDED, NOT_APPLICABLE = "met", "breached", "undecided", "not applicable"


def of(holds: Truth) -> str:
    """Return the verdict of a requirement that holds, fails or is not known."""
    return UNDECIDED if holds is None else MET if holds else BREACHED


def reaches(value: float | None, limit: float | None) -> Truth:
    """Say whether a value is as much as a limit."""
    if value is None or limit is None:
        return None
    # As close as nine digits is as much: what the rulebook counts as equal.
    return value >= limit or abs(value - limit) <= 1e-9 * abs(limit)


def at_least(value: float | None, limit: float | None) -> str:
    """Return the verdict of a value that has to reach a limit."""
    if value is None or limit is None:
        return UNDECIDED
    return MET if value >= limit or abs(value - limit) <= 1e-9 * abs(limit) else BREACHED


def at_most(value: float | None, limit: float | None) -> str:
    """Return the verdict of a value that has to stay within a limit."""
    return at_least(limit, value)


def either(first: Truth, second: Truth) -> str:
    """Return the verdict of two conditions of which one has to hold."""
    if first or second:
        return MET
    return UNDECIDED if first is None or second is None else BREACHED


def some(truths: Iterable[Truth]) -> Truth:
    """Say whether any holds, as far as is known."""
    seen: Truth = False
    for truth in truths:
        if truth:
            return True
        if truth is None:
            seen = None
    return seen


def each(items: list[Job] | None, judge: Callable[[Job], str]) -> Verdict:
    """Return a verdict for each item of a list."""
    if items is None:
        return UNDECIDED
    return [judge(item) for item in items] or NOT_APPLICABLE
