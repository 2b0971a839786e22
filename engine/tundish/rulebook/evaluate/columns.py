"""Verdicts by columns: those of every rule on many jobs at once, which share all but some facts.

What no differing fact has a part in has one verdict for all jobs, and is judged once.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from functools import reduce
from typing import Any

import numpy as np

from tundish.job.facts import Facts
from tundish.language.evaluate.columns.column import (
    FALSE,
    TRUE,
    Array,
    Chunk,
    ColumnValue,
    Uniform,
    Varying,
    Vocabulary,
    as_varying,
    decoded,
)
from tundish.language.evaluate.columns.evaluate import DAY, Bound, ColumnEvaluator, Shared
from tundish.language.evaluate.columns.values import logic
from tundish.language.tree import tree as t
from tundish.language.tree.kind import TRUTH
from tundish.rulebook.evaluate.budget import most_steps
from tundish.rulebook.evaluate.completions import early_for_all
from tundish.rulebook.evaluate.judge import Verdict, judge
from tundish.rulebook.evaluate.rule_set import RuleSet
from tundish.rulebook.link.facts_read import facts_read
from tundish.rulebook.model.asked import Asked

MET, BREACHED, UNDECIDED, NOT_APPLICABLE = 1, 0, 2, 3
CODES: dict[Verdict, int] = {
    Verdict.BREACHED: BREACHED,
    Verdict.MET: MET,
    Verdict.UNDECIDED: UNDECIDED,
    Verdict.NOT_APPLICABLE: NOT_APPLICABLE,
}
"""Verdicts as numbers."""

_WORST_FIRST = (BREACHED, UNDECIDED, MET, NOT_APPLICABLE)
_RANK = np.argsort(np.array(_WORST_FIRST)).astype(np.uint8)
_CODE = np.array(_WORST_FIRST, np.uint8)

# What a rule comes to, by three times the truth of `applies` and the truth of `requires`.
_OUTCOMES = np.full(9, UNDECIDED, np.uint8)
_OUTCOMES[3 * FALSE : 3 * FALSE + 3] = NOT_APPLICABLE
_OUTCOMES[[3 * TRUE + FALSE, 3 * TRUE + TRUE]] = BREACHED, MET


class ColumnJudge:
    """Every rule of a rulebook, made ready for jobs that share all but some facts.

    It is not for sharing between threads.

    Args:
        rulebook: The rules.
        base: What the jobs share.
        varying: Paths of the facts that differ between them; groups of facts too.
        words: Where texts stand, if columns are shared with another judge.
        asked: What is judged: constraints, say; all rules, if left out.

    Attributes:
        words: Where the texts of columns stand.
        within_bounds: Whether no rule can run out of steps over the lists of these jobs; else
            the jobs must be judged one by one.
        settled: The verdict that all jobs share, by position of the rule in the rulebook.
        open: Positions of the other rules.
    """

    def __init__(
        self,
        rulebook: RuleSet,
        base: Facts,
        varying: Collection[str],
        words: Vocabulary | None = None,
        asked: Collection[Asked] | None = None,
    ) -> None:
        self.words = words or Vocabulary()
        self._rules = rules = rulebook.rules.values() if asked is None else asked
        budget = rulebook.budget
        steps = most_steps(rules, rulebook.quantities, base.values)
        self.within_bounds = steps <= budget.steps and not budget.barred(base.values)
        self.settled: dict[int, int] = {}
        self.open: list[int] = []
        self._working: list[Varying] = []
        self._base = base
        shared = Shared(
            base.values,
            frozenset(varying),
            rulebook.formulas,
            lambda day: rulebook.tables_for({} if day is None else {"job.date": day}),
            frozenset(rulebook.editions),
            self.words,
        )
        self._columnar = ColumnEvaluator(shared)
        self._rulebook = rulebook
        facts = rulebook.scope.facts
        self._kinds = {
            # What no rule can name, such as the group of a pack's own facts, is a group.
            path: facts[path].kind if path in facts else TRUTH
            for path in shared.varying
        }
        if not self.within_bounds:
            # So many items are not looked at again in every completion.
            self.open = list(range(len(rules)))
            return
        early = early_for_all(rulebook, base, varying) if asked is None else {}
        session = rulebook.session(base.values)
        # A rule that looks a table up reads the day without naming it, if the table has editions.
        by_day = bool(rulebook.editions) and DAY in shared.varying
        for at, rule in enumerate(rules):
            if not by_day and facts_read(rule, rulebook.quantities).isdisjoint(shared.varying):
                judged = (judgement.verdict for judgement in judge(rule, base, session))
                verdicts = early.get(rule.name) or judged
                self.settled[at] = worst(CODES[one] for one in verdicts)
                continue
            outcome = self._outcome(rule)
            if isinstance(outcome, Uniform):
                self.settled[at] = outcome.value
            else:
                self.open.append(at)
                self._working.append(outcome)

    def verdicts(self, rows: int, columns: Mapping[str, Array]) -> Array:
        """Judge some jobs.

        Args:
            rows: How many.
            columns: The facts that differ, by path.

        Returns:
            Verdicts as numbers: a row for each open rule, a column for each job. Of a rule that
            is asked of each item of a list it is the worst.
        """
        if not self.within_bounds:
            return self._one_by_one(rows, columns)
        chunk = Chunk(rows, columns)
        found = np.empty((len(self._working), rows), np.uint8)
        with np.errstate(all="ignore"):
            for at, working in enumerate(self._working):
                found[at] = working(chunk)
        return found

    def values_of(self, row: int, columns: Mapping[str, Array]) -> dict[str, Any]:
        """Return the facts of one job.

        Args:
            row: Its place in the columns.
            columns: The facts that differ, by path.
        """
        values: dict[str, Any] = dict(self._base.values)
        for path, kind in self._kinds.items():
            value = decoded(columns[path][row], kind, self.words)
            values.pop(path, None)
            if value is not None:
                values[path] = value
        return values

    def _one_by_one(self, rows: int, columns: Mapping[str, Array]) -> Array:
        found = np.empty((len(self.open), rows), np.uint8)
        for row in range(rows):
            values = self.values_of(row, columns)
            given = Facts(values, {}, self._base.names)
            session = self._rulebook.session(values)
            for at, rule in enumerate(self._rules):
                found[at, row] = worst(CODES[one.verdict] for one in judge(rule, given, session))
        return found

    def _outcome(self, rule: Asked) -> ColumnValue:
        """Return what a rule comes to, in verdicts as numbers."""
        if rule.each is None:
            return self._judged(rule, {})
        items = self._columnar.fact(rule.each.path)
        assert isinstance(items, Uniform)
        if not isinstance(items.value, list):
            return self._of_unknown_list(rule)
        return _worst_of(
            [
                self._judged(rule, {rule.each.variable: (item, rule.each.path)})
                for item in items.value
            ]
        )

    def _judged(self, rule: Asked, bound: Bound) -> ColumnValue:
        applies = self._columnar.part(rule.applies, bound)
        if isinstance(applies, Uniform) and applies.value is not True:
            return Uniform(UNDECIDED if applies.value is None else NOT_APPLICABLE)
        requires = self._columnar.part(rule.requires, bound)
        if isinstance(applies, Uniform) and isinstance(requires, Uniform):
            met = requires.value
            return Uniform(UNDECIDED if met is None else MET if met else BREACHED)
        return self._joined(applies, requires)

    def _joined(self, applies: ColumnValue, requires: ColumnValue) -> Varying:
        asked, met = (as_varying(part, TRUTH, self.words) for part in (applies, requires))

        def work(chunk: Chunk) -> Array:
            truths = asked(chunk)
            if not (truths == TRUE).any():
                return np.take(_OUTCOMES, 3 * truths)
            return np.take(_OUTCOMES, 3 * truths + met(chunk))

        return work

    def _of_unknown_list(self, rule: Asked) -> ColumnValue:
        """Judge a rule whose list is not known, or belongs to something that may be absent."""
        assert rule.each is not None
        variable = rule.each.variable
        whole = [part for part in t.conjuncts(rule.applies) if not t.mentions(part, variable)]
        asked = logic("and", [self._columnar.part(part) for part in whole])
        steps = rule.each.path.split(".")
        groups = [self._columnar.fact(".".join(steps[:length])) for length in range(1, len(steps))]
        parts = [asked, *groups]
        if any(part == Uniform(False) for part in parts):
            return Uniform(NOT_APPLICABLE)
        working = [
            as_varying(part, TRUTH, self.words) for part in parts if not isinstance(part, Uniform)
        ]
        if not working:
            return Uniform(UNDECIDED)

        def work(chunk: Chunk) -> Array:
            ruled_out = reduce(np.logical_or, [part(chunk) == FALSE for part in working])
            return np.where(ruled_out, np.uint8(NOT_APPLICABLE), np.uint8(UNDECIDED))

        return work


def worst(codes: Iterable[int]) -> int:
    """Return the worst of the verdicts on the items of a list; of none, that it does not apply."""
    return min(codes, key=_WORST_FIRST.index, default=NOT_APPLICABLE)


def _worst_of(outcomes: list[ColumnValue]) -> ColumnValue:
    constants = [outcome.value for outcome in outcomes if isinstance(outcome, Uniform)]
    working = [outcome for outcome in outcomes if not isinstance(outcome, Uniform)]
    shared = worst(constants)
    if not working or shared == BREACHED:
        return Uniform(shared)

    def work(chunk: Chunk) -> Array:
        ranks = np.full(chunk.rows, _RANK[shared])
        for part in working:
            ranks = np.minimum(ranks, _RANK[part(chunk)])
        return np.take(_CODE, ranks)

    return work
