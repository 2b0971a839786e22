"""Why a case comes out otherwise than it says: what is not known, and the numbers."""

from __future__ import annotations

from collections.abc import Collection
from typing import Protocol

from tundish.language.evaluate.session import JobFacts
from tundish.language.evaluate.step import Step


class Wording(Protocol):
    """Puts steps into words, as findings do."""

    def statement(self, step: Step, facts: JobFacts) -> str:
        """Say why a condition holds or fails, with its numbers put in."""

    def numbers(self, step: Step, facts: JobFacts) -> str:
        """Return a formula with its numbers put in."""


class WithoutNumbers:
    """Leaves the numbers out."""

    def statement(self, step: Step, facts: JobFacts) -> str:
        """Say nothing."""
        return ""

    def numbers(self, step: Step, facts: JobFacts) -> str:
        """Say nothing."""
        return ""


def other_outcome(outcome: str, stated: str) -> str:
    """Say that a case comes out otherwise than it states; nothing where it comes out so.

    Example:
        >>> other_outcome("undecided", "met")
        'It comes out undecided, not met.'
    """
    if outcome == stated:
        return ""
    if "not " in outcome + stated:
        return f"It comes out '{outcome}', where the case says '{stated}'."
    return f"It comes out {outcome}, not {stated}."


def what_is_open(needs: Collection[str], obstacles: Collection[str]) -> str:
    """Say what is not known, and what stands in the way.

    Args:
        needs: Paths of the facts that would decide it.
        obstacles: What stands in the way besides, such as a group that is said to be absent.

    Example:
        >>> what_is_open(["a", "b"], ["there is no water.bypass"])
        'a and b are not known; there is no water.bypass'
    """
    names = sorted(needs)
    parts = sorted(obstacles)
    if names:
        listed = " and ".join(part for part in (", ".join(names[:-1]), names[-1]) if part)
        parts.insert(0, f"{listed} {'is' if len(names) == 1 else 'are'} not known")
    return "; ".join(parts)


def misnamed(needs: frozenset[str], expected: frozenset[str], obstacles: Collection[str]) -> str:
    """Say that other facts are unknown than a case states, or nothing where it states them."""
    if needs == expected:
        return ""
    named, stated = (", ".join(sorted(names)) or "nothing" for names in (needs, expected))
    why = what_is_open((), obstacles)
    return f"It names as unknown {named}, not {stated}{f': {why}' if why else ''}."
