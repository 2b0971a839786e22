"""Verdicts alone: every rule asked of some facts, without the words of a finding."""

from __future__ import annotations

from tundish.job.facts import Facts
from tundish.language.evaluate.session import Session
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.rulebook import Rulebook

Verdicts = dict[tuple[str, str], Verdict]
"""By name of the rule and of the item it was asked of, or ""."""


def verdicts_of(facts: Facts, rulebook: Rulebook, session: Session | None = None) -> Verdicts:
    """Return the verdict of every rule on every item.

    Args:
        facts: The facts of a job.
        rulebook: The rules.
        session: The running evaluation of that job, where somebody looks at what it took.
    """
    return {
        (name, _item(name, position, facts, rulebook)): verdict
        for name, position, verdict, _ in rulebook.evaluator.by_item(facts, session)
    }


def _item(name: str, position: int | None, facts: Facts, rulebook: Rulebook) -> str:
    """Return what the item is called that a rule was asked of, or nothing."""
    each = None if position is None else rulebook.rules[name].each
    return "" if each is None else facts.names[f"{each.path}[{position}]"]


def breached_in(verdicts: Verdicts) -> frozenset[tuple[str, str]]:
    """Return what is breached."""
    return frozenset(key for key, verdict in verdicts.items() if verdict is Verdict.BREACHED)
