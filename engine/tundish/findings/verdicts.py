"""Verdicts alone: every rule asked of some facts, without the words of a finding."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from tundish.job.facts import Facts
from tundish.language.evaluate.session import Session
from tundish.rulebook.evaluate.judge import Judgement, Verdict
from tundish.rulebook.rulebook import Rulebook

if TYPE_CHECKING:
    from tundish.rulebook.evaluate.completions import Completions

_MANY = 250
"""As many undecided rows are asked quicker all at once than each by itself."""

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


def early_verdicts(facts: Facts, rulebook: Rulebook) -> Verdicts:
    """Return the verdicts as findings have them, also those that are certain before all is known.

    It takes longer than `verdicts_of`, so that trials do without.

    Args:
        facts: The facts of a job.
        rulebook: The rules.
    """
    judgements = rulebook.evaluator.judgements(facts)
    completions = completions_of(judgements, facts, rulebook)
    judgements = completions.judged(judgements) if completions else judgements
    return {(judgement.rule, judgement.item): judgement.verdict for judgement in judgements}


def completions_of(
    judgements: Iterable[Judgement], facts: Facts, rulebook: Rulebook
) -> Completions | None:
    """Return the completions of a job, if something is undecided in it.

    Args:
        judgements: The judgements of all rules.
        facts: The facts of the job.
        rulebook: The rules.
    """
    undecided = sum(judgement.verdict is Verdict.UNDECIDED for judgement in judgements)
    if not undecided:
        return None
    # Loaded here, as a whole job leaves nothing undecided.
    from tundish.rulebook.evaluate.completions import Completions

    evaluator = rulebook.evaluator if undecided >= _MANY else None
    return Completions(facts, rulebook, evaluator)


def breached_in(verdicts: Verdicts) -> frozenset[tuple[str, str]]:
    """Return what is breached."""
    return frozenset(key for key, verdict in verdicts.items() if verdict is Verdict.BREACHED)
