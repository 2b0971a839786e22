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
    judgements = rulebook.evaluator.judgements(facts, session)
    return {(judgement.rule, judgement.item): judgement.verdict for judgement in judgements}


def breached_in(verdicts: Verdicts) -> frozenset[tuple[str, str]]:
    """Return what is breached."""
    return frozenset(key for key, verdict in verdicts.items() if verdict is Verdict.BREACHED)
