"""Trials: rules asked again with some facts changed, within a budget."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.findings.verdicts import Verdicts, verdicts_of
from tundish.job.changes import Change, changed
from tundish.job.facts import Facts
from tundish.rulebook.evaluate.judge import Verdict, judge
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bounds import MOST_TRIED_STEPS

_OWN = 1_000
"""Steps that asking one rule is taken for, whatever is in it."""

_A_RULE = 20
"""Steps of each rule where all are asked."""


class Trials:
    """Changes tried on one job, on a budget that all trials share.

    What is tried comes in a fixed order, the worst breach first, so that where the budget ends
    is the same every time.

    Args:
        rulebook: The rules.
        budget: Steps that may be spent.
    """

    def __init__(self, rulebook: Rulebook, budget: int = MOST_TRIED_STEPS) -> None:
        self._rulebook = rulebook
        self.left = budget

    @property
    def are_over(self) -> bool:
        """Say whether nothing more may be tried."""
        return self.left <= 0

    def mends(self, rule: Rule, item: str, facts: Facts, change: Change) -> bool:
        """Say whether a rule is met, on one item or the whole job, with a change made.

        Nothing mends any more once the trials are over.
        """
        if self.are_over:
            return False
        tried = changed(facts, [change])
        if self._rulebook.contradictions.broken(tried.values):
            return False  # what cannot be mends nothing
        session = self._rulebook.session(tried.values)
        judgements = judge(rule, tried, session, only=item)
        first = next(
            (judgement.verdict for judgement in judgements if judgement.item == item), None
        )
        self.left -= _OWN + _size(facts) + session.budget.spent
        return first is Verdict.MET

    def verdicts(self, facts: Facts, changes: Iterable[Change]) -> Verdicts:
        """Return all verdicts with some changes made; this is done even when trials are over."""
        tried = changed(facts, changes)
        session = self._rulebook.session(tried.values)
        verdicts = verdicts_of(tried, self._rulebook, session)
        self.left -= _A_RULE * len(self._rulebook.rules) + 10 * len(verdicts)
        self.left -= _size(facts) + session.budget.spent
        return verdicts


def _size(facts: Facts) -> int:
    """Return what changing a copy of the facts takes."""
    return (len(facts.values) + len(facts.written)) // 2
