"""What is said of a rule that is decided though not all is known, as nothing can change it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from tundish.findings.finding import Working
from tundish.findings.phrases import NOT_KNOWN, Wording
from tundish.language.evaluate.ranges.range import Interval, Range, hull
from tundish.language.evaluate.step import Step
from tundish.language.operations.operators import RELATIONS
from tundish.language.tree import tree as t
from tundish.rulebook.evaluate.completions import Completion
from tundish.rulebook.evaluate.judge import Judgement, Verdict, item_binding
from tundish.rulebook.model.rule import Rule


class EarlyWording:
    """Puts a verdict that all completions share into words.

    Args:
        rule: The rule.
        judgement: Its judgement.
        completions: The completions that were looked at.
        wording: Puts the values of the job into words.
    """

    def __init__(
        self,
        rule: Rule,
        judgement: Judgement,
        completions: Sequence[Completion],
        wording: Wording,
    ) -> None:
        self._rule, self._judgement, self._wording = rule, judgement, wording
        self._completions = [
            (evaluator, item_binding(rule, judgement, facts)) for facts, evaluator in completions
        ]

    def statement(self, whatever: Sequence[str]) -> str:
        """Say what came out, and by which figure it is certain.

        Args:
            whatever: What the facts are called that change nothing.
        """
        met = self._judgement.verdict is Verdict.MET
        deciding = (part for part in self._compared() if self._range(part) is met)
        figures = next(filter(None, (self._figures(part, met) for part in deciding)), "")
        figures = figures or ("this is met" if met else "this is not met")
        return f"Whatever is still to be known ({', '.join(whatever)}): {figures}."

    def workings(self, workings: Sequence[Working], steps: Sequence[Step]) -> tuple[Working, ...]:
        """Return workings with the bounds of the quantities that are not known exactly.

        Args:
            workings: The quantities of the finding.
            steps: The steps behind them.
        """
        bounds = {
            step.path: self._bounds(step)
            for root in steps
            for step in root.walk()
            if isinstance(step.node, t.Derived) and step.value is None and self._is_bound(step.node)
        }
        return tuple(
            replace(working, result=bounds[working.name])
            if working.result == NOT_KNOWN and bounds.get(working.name)
            else working
            for working in workings
        )

    def _is_bound(self, node: t.Derived) -> bool:
        """Say whether a quantity is one of the job or of the item that the rule is asked of."""
        return node.item is None or all(node.item in bound for _, bound in self._completions)

    def _bounds(self, step: Step) -> str:
        value = self._range(step.node)
        if not isinstance(value, Interval):
            return self._shown(step.node, value) if isinstance(value, float) else ""
        return self._ends(step.node, value)

    def _ends(self, node: t.Node, value: Interval) -> str:
        ends = [
            f"{words} {self._shown(node, end)}"
            for words, end in (("at least", value.low), ("at most", value.high))
            if not math.isinf(end)
        ]
        return " and ".join(ends)

    def _figures(self, part: t.Comparison, met: bool) -> str:
        """Say how far a compared figure goes, and what it is held against."""
        relation = RELATIONS[part.sign]
        left, right = self._range(part.left), self._range(part.right)
        if not relation.direction or not isinstance(left, float | Interval):
            return ""
        if not isinstance(right, float | Interval):
            return ""
        upwards = (relation.direction > 0) is met
        figure = self._named(part.left) + self._one_end(part.left, left, lower=upwards)
        limit = self._one_end(part.right, right, not upwards, beside=part.left)
        if isinstance(right, Interval):
            return f"{figure}; {self._named(part.right) or 'the limit is '}{limit}"
        label = f" ({part.right.label})" if isinstance(part.right, t.Read | t.Derived) else ""
        return f"{figure}; wanted is {relation.limit}{limit}{label}"

    def _one_end(
        self,
        node: t.Node,
        value: float | Interval,
        lower: bool,
        beside: t.Node | None = None,
    ) -> str:
        if isinstance(value, float):
            return self._shown(node, value, beside)
        end = value.low if lower else value.high
        return f"{'at least' if lower else 'at most'} {self._shown(node, end, beside)}"

    def _named(self, node: t.Node) -> str:
        return f"{node.label} is " if isinstance(node, t.Read | t.Derived) else ""

    def _shown(self, node: t.Node, value: float, beside: t.Node | None = None) -> str:
        return self._wording.shown_beside(node, value, beside or node)

    def _compared(self) -> Iterator[t.Comparison]:
        """Give the comparisons that a rule makes of figures of the job or of its item."""
        bound = {self._rule.each.variable: self._rule.each.path} if self._rule.each else {}
        for node, around in t.walk(self._rule.requires, bound):
            if isinstance(node, t.Comparison) and around.keys() == bound.keys():
                yield node

    def _range(self, node: t.Node) -> Range:
        """Return the range of a part over all completions; None where it may have no value."""
        return hull(evaluator.range_of(node, bound) for evaluator, bound in self._completions)
