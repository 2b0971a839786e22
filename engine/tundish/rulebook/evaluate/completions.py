"""Completions: what a job comes to whatever the facts are that nobody has stated yet.

Kleene's logic takes every unknown by itself, so it leaves undecided what is the same in all
completions: `a or not a`, or two known loads that are already too much for a fuse, whatever the
third takes. Here an undecided rule is looked at again: unknown figures lie within the bounds of
their kinds; facts that can be one of a few are tried, together, for a bounded number of
completions. What comes out alike in all of them is decided. An impossible job is no completion.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

from tundish.groundwork.dataclass import dataclass
from tundish.job.changes import Change, changed
from tundish.job.facts import Facts
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.ranges.evaluate import RangeEvaluator
from tundish.language.tree.tree import Value
from tundish.rulebook.evaluate.budget import most_steps
from tundish.rulebook.evaluate.evaluator import Evaluator
from tundish.rulebook.evaluate.judge import Judgement, Verdict, item_binding, judge
from tundish.rulebook.evaluate.possible_facts import ChosenFacts
from tundish.rulebook.evaluate.probes import MOST_CHOICES, Probes
from tundish.rulebook.evaluate.rule_set import RuleSet
from tundish.rulebook.model.rule import Rule
from tundish.text.bounds import MOST_COMPLETION_STEPS, MOST_COMPLETIONS

_STEPS_OF_PROBING = 100
"""Steps that asking one rule in the probes is taken for, whatever is in it."""

Settled = tuple[tuple[str, Value], ...]
"""Facts that a completion states, by path with positions."""


Completion = tuple[Facts, RangeEvaluator]
"""Some facts of a completion, and what evaluates all that the others can be."""


@dataclass(frozen=True, slots=True)
class _Outcome:
    verdict: Verdict | None
    unsettled: Mapping[str, Sequence[Value]]


class Completions:
    """The completions of one job, by which its undecided rules are looked at again.

    Args:
        facts: What is stated.
        rulebook: The rules.
        evaluator: Asks all rules at once; each by itself where it is left out.
    """

    def __init__(self, facts: Facts, rulebook: RuleSet, evaluator: Evaluator | None = None) -> None:
        self._facts = facts
        self._rulebook = rulebook
        self._probes = Probes(facts, rulebook, evaluator)
        self._chosen: list[RangeEvaluator] = []
        self._completed: dict[Settled, Completion] = {}
        self._of: dict[tuple[str, int | None], list[Completion]] = {}
        self._left = MOST_COMPLETION_STEPS

    def judged(self, judgements: Iterable[Judgement]) -> list[Judgement]:
        """Return judgements with those decided that come out alike in every completion.

        Args:
            judgements: The judgements of all rules.
        """
        return [
            self._decided(judgement) if judgement.verdict is Verdict.UNDECIDED else judgement
            for judgement in judgements
        ]

    def of(self, judgement: Judgement) -> Sequence[Completion]:
        """Return the completions that were looked at for a judgement which they decided."""
        return self._of[judgement.rule, judgement.position]

    def _decided(self, judgement: Judgement) -> Judgement:
        verdict = self.verdict(judgement)
        return judgement if verdict is None else judgement._replace(verdict=verdict, early=True)

    def verdict(self, judgement: Judgement) -> Verdict | None:
        """Return the verdict that a rule has in every completion; None where they differ.

        Args:
            judgement: Its judgement, which is undecided.
        """
        rule = self._rulebook.rules[judgement.rule]
        is_of_no_item = rule.each is not None and not judgement.position
        if judgement.open_list or judgement.obstacle or is_of_no_item or self._left <= 0:
            return None
        self._left -= _STEPS_OF_PROBING
        if not self._probes.may_be_certain(rule, judgement):
            return None
        if not self._is_alike(rule, judgement):
            return None
        search = _Search(MOST_COMPLETIONS)
        verdict = self._common(rule, judgement, (), search)
        if verdict is not None:
            self._of[judgement.rule, judgement.position] = search.completions
        return verdict

    def _is_alike(self, rule: Rule, judgement: Judgement) -> bool:
        """Say whether a rule is decided alike in some choices, whatever all figures are."""
        first: Verdict | None = None
        for number in range(MOST_CHOICES):
            if number == len(self._chosen):
                possible = ChosenFacts(self._rulebook.possible, number)
                self._chosen.append(self._rulebook.completing(self._facts, possible))
            verdict = self._outcome(rule, judgement, self._facts, self._chosen[number]).verdict
            if verdict is None or verdict is not (first or verdict):
                return False
            first = verdict
        return True

    def _common(
        self, rule: Rule, judgement: Judgement, settled: Settled, search: _Search
    ) -> Verdict | None:
        """Return the verdict in all completions that state some facts in one way."""
        completion = self._completion(settled)
        outcome = self._outcome(rule, judgement, *completion)
        if outcome.verdict is not None or not outcome.unsettled:
            search.completions.append(completion)
            return outcome.verdict
        path, options = next(iter(outcome.unsettled.items()))
        search.left -= len(options) - 1
        if search.left < 0:
            return None
        common: Verdict | None = None
        for option in options:
            verdict = self._common(rule, judgement, (*settled, (path, option)), search)
            if verdict is None or (common is not None and verdict is not common):
                return None
            common = verdict
        return common

    def _outcome(
        self, rule: Rule, judgement: Judgement, facts: Facts, evaluator: RangeEvaluator
    ) -> _Outcome:
        if self._left <= 0:
            return _Outcome(None, {})
        before = evaluator.budget.spent
        try:
            return self._ranged(rule, judgement, facts, evaluator)
        except TooManySteps:
            return _Outcome(None, {})
        finally:
            self._left -= evaluator.budget.spent - before

    @staticmethod
    def _ranged(
        rule: Rule, judgement: Judgement, facts: Facts, evaluator: RangeEvaluator
    ) -> _Outcome:
        bindings = item_binding(rule, judgement, facts)
        applies = evaluator.range_of(rule.applies, bindings)
        if applies is False:
            return _Outcome(Verdict.NOT_APPLICABLE, {})
        if applies is True:
            met = evaluator.range_of(rule.requires, bindings)
            if isinstance(met, bool):
                return _Outcome(Verdict.MET if met else Verdict.BREACHED, {})
        return _Outcome(None, evaluator.unsettled)

    def _completion(self, settled: Settled) -> Completion:
        completed = self._completed.get(settled)
        if completed is None:
            changes = [Change(path, value, "") for path, value in settled]
            facts = changed(self._facts, changes) if changes else self._facts
            completed = facts, self._rulebook.completing(facts)
            if len(self._completed) < MOST_COMPLETIONS:
                self._completed[settled] = completed
        return completed


def early_for_all(
    rulebook: RuleSet, base: Facts, varying: Collection[str]
) -> dict[str, tuple[Verdict, ...]]:
    """Return the verdicts of rules that are certain in all of many jobs, though not all is known.

    Args:
        rulebook: The rules.
        base: What the jobs share.
        varying: Paths of the facts that differ between them; rules that read one are left out.

    Returns:
        By the name of a rule, a verdict for each item that it is asked of, or the one of the job.
        Nothing where the lists have so many items that a rule might run out of steps.
    """
    if (
        most_steps(rulebook.rules.values(), rulebook.quantities, base.values)
        > rulebook.budget.steps
    ):
        return {}
    values = {path: value for path, value in base.values.items() if path not in varying}
    facts, session = Facts(values, base.written, base.names), rulebook.session(values)
    completions = Completions(facts, rulebook)
    reading = frozenset(name for path in varying for name in rulebook.rules_of_facts.get(path, ()))
    early: dict[str, tuple[Verdict, ...]] = {}
    for name, rule in rulebook.rules.items():
        if name not in reading:
            before = list(judge(rule, facts, session))
            after = completions.judged(before)
            if after != before:
                early[name] = tuple(judgement.verdict for judgement in after)
    return early


class _Search:
    """The completions that one rule looked at, and how many more it may."""

    def __init__(self, left: int) -> None:
        self.left = left
        self.completions: list[Completion] = []
