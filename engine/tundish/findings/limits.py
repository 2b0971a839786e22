"""Limits: what a fact that is not known yet will be held against once it is."""

from __future__ import annotations

from tundish.findings.phrases import Wording
from tundish.language.evaluate.step import Step
from tundish.language.operations.operators import RELATIONS, Relation
from tundish.language.tree import tree as t


def limits(step: Step, wording: Wording) -> dict[str, str]:
    """Return the limits of the unknown facts in a condition.

    Args:
        step: The condition, walked.
        wording: Words for values.

    Returns:
        By path of the fact: such as "at least 22 L/min". Facts that are compared with something
        unknown, or not compared at all, are left out.
    """
    texts_by_path: dict[str, list[str]] = {}
    visited: set[int] = set()
    ahead = [step]
    while ahead:
        inner = ahead.pop()
        if id(inner) in visited:
            continue
        visited.add(id(inner))
        ahead.extend(reversed(inner.parts))
        if isinstance(inner.node, t.Comparison) and inner.value is None and inner.needed:
            left, right = inner.parts
            relation = RELATIONS[inner.node.sign]
            _note(left, right, relation, wording, texts_by_path)
            _note(right, left, RELATIONS[relation.mirrored], wording, texts_by_path)
    return {path: " and ".join(dict.fromkeys(texts)) for path, texts in texts_by_path.items()}


def _note(
    fact: Step,
    limit: Step,
    relation: Relation,
    wording: Wording,
    texts_by_path: dict[str, list[str]],
) -> None:
    fact = _chosen(fact)
    asked = isinstance(fact.node, t.Read) and fact.value is None
    if asked and limit.value is not None and relation.limit is not None:
        texts_by_path.setdefault(fact.path, []).append(relation.limit + wording.shown(limit))


def _chosen(step: Step) -> Step:
    """Return the fact that a quantity only chooses among others, or the step itself."""
    chosen = step
    while chosen.value is None and isinstance(chosen.node, t.Derived | t.Choice):
        needed = [part for part in chosen.parts if part.needed]
        # Where it is not known which branch holds, none is chosen.
        if (isinstance(chosen.node, t.Choice) and chosen.parts[0].value is None) or not needed:
            return step
        chosen = needed[-1]
    return chosen
