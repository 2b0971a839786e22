"""Coverage: which parts of a condition, and which sides of its limits, the cases of a rule show.

A part is shown to matter if a case comes out otherwise while it alone is held true, or held false
(each condition shown to affect the outcome by itself, as MC/DC asks), and shown when unknown if a
case comes out otherwise while the unknown is taken for true or for false.
"""

from __future__ import annotations

from collections.abc import Iterator

from tundish.groundwork.dataclass import dataclass
from tundish.language.budget.budget import TooManySteps
from tundish.language.evaluate.compiled import compile_function
from tundish.language.evaluate.step import Step
from tundish.language.operations.operators import RELATIONS
from tundish.language.operations.values import nearly_equal
from tundish.language.tree import tree as t
from tundish.language.tree.kind import TRUTH
from tundish.rulebook.model.rule import Rule
from tundish.rulebook.prove.case_run import CaseRun, case_runs
from tundish.rulebook.prove.mutants import put_at, truths_in
from tundish.rulebook.prove.run_mutants import CompiledMutant, outcome
from tundish.rulebook.rulebook import Rulebook


@dataclass(frozen=True, slots=True)
class Coverage:
    """What the cases of one rule show of one limit, or of its conditions as a whole.

    Attributes:
        rule: Its name.
        limit: The comparison, or "" for the conditions as a whole.
        unseen: Where no case stands: "exactly at it", "inside it", "beyond it".
        parts: How many parts its conditions have; 0 for a limit.
        parts_seen: How many are shown to matter when true or false.
        parts_unknown: How many are shown to matter when not known.
    """

    rule: str
    limit: str = ""
    unseen: tuple[str, ...] = ()
    parts: int = 0
    parts_seen: int = 0
    parts_unknown: int = 0


def coverage(rule: Rule, rulebook: Rulebook) -> Iterator[Coverage]:
    """Say what the cases of a rule show.

    Args:
        rule: The rule.
        rulebook: The rulebook.
    """
    runs = [run for case in rule.cases for run in case_runs(case.given, rule, case.item, rulebook)]
    yield _parts(rule, runs)
    yield from _limits(rule, runs)


def _parts(rule: Rule, runs: list[CaseRun]) -> Coverage:
    before = [outcome(rule, None, run) for run in runs]
    parts = shown = unknown = 0

    def differs(key: str, root: t.Node) -> bool:
        mutant = CompiledMutant(key, "", root, compile_function(root, rule.variables))
        after = (outcome(rule, mutant, run) for run in runs)
        return any(new != old for new, old in zip(after, before, strict=True))

    for key, (root, _) in rule.expressions.items():
        for path, node in truths_in(root):
            parts += 1
            constants = [
                t.Constant(TRUTH, node.start, node.end, value, str(value))
                for value in (True, False)
            ]
            known = t.Known(TRUTH, node.start, node.end, node)
            choices = [
                t.Choice(TRUTH, node.start, node.end, known, node, constant)
                for constant in constants
            ]
            shown += all(differs(key, put_at(root, path, constant)) for constant in constants)
            unknown += any(differs(key, put_at(root, path, choice)) for choice in choices)
    return Coverage(rule.name, parts=parts, parts_seen=shown, parts_unknown=unknown)


def _limits(rule: Rule, runs: list[CaseRun]) -> Iterator[Coverage]:
    """Say on which side of each limit of `requires` the cases stand."""
    stands: dict[tuple[int, int], set[str]] = {}
    for run in runs:
        if run.value(rule.applies_where) is True:
            for step in _compared(rule, run):
                stands.setdefault((step.node.start, step.node.end), set()).update(_where(step))
    for (start, end), positions in stands.items():
        unseen = tuple(
            word for word in ("at it", "inside it", "beyond it") if word not in positions
        )
        limit = " ".join(rule.written["requires"][start:end].split())
        yield Coverage(rule.name, limit, unseen)


def _compared(rule: Rule, run: CaseRun) -> list[Step]:
    """Return the comparisons with a limit that decide a rule."""
    try:
        root = run.rulebook.explainer(run.facts).explain(rule.requires, run.bindings)
    except TooManySteps:
        return []
    return [step for step in root.walk() if step.needed and _is_limit(step, rule)]


def _is_limit(step: Step, rule: Rule) -> bool:
    node = step.node
    if not isinstance(node, t.Comparison) or step.value is None:
        return False
    if not RELATIONS[node.sign].direction:
        return False
    # Steps inside a quantity are no part of the rule's own text.
    return any(node is own for own, _ in t.walk(rule.requires, {}))


def _where(step: Step) -> tuple[str, ...]:
    """Say where a case stands; exactly at a limit is also on the side that the limit counts to."""
    left, right = (part.value for part in step.parts)
    assert isinstance(left, float)
    assert isinstance(right, float)
    side = "inside it" if step.value is True else "beyond it"
    return ("at it", side) if nearly_equal(left, right) else (side,)
