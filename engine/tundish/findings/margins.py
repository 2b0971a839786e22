"""Margins: how far the value that a requirement looks at is from its limit."""

from __future__ import annotations

from collections.abc import Callable

from tundish.findings.finding import Margin
from tundish.findings.phrases import Wording, taken_branch
from tundish.groundwork.dataclass import dataclass
from tundish.language.evaluate.step import Step
from tundish.language.operations.operators import RELATIONS
from tundish.language.operations.values import nearly_equal
from tundish.language.tree import tree as t
from tundish.units.format import show, show_apart


@dataclass(frozen=True, slots=True)
class Distance:
    """A comparison and how far its left side is inside its limit, as a share of the limit."""

    step: Step
    amount: float
    share: float | None


def distance(step: Step) -> Distance | None:
    """Find the comparison that decides a requirement, and how far it is from its limit.

    Of conditions joined by `and` that is the tightest, of those joined by `or` the one nearest
    to being met.

    Returns:
        The distance, negative where the limit is passed; nothing where no limit decides.
    """
    node = step.node
    match node:
        case t.Comparison():
            return _of_comparison(step)
        case t.Logic():
            return _chosen(step.parts, min if node.word == "and" else max)
        case t.Loop(function="all" | "any"):
            rounds = tuple(part for part in step.parts if part.node is node.term)
            return _chosen(rounds, min if node.function == "all" else max)
        case t.Choice():
            branch = taken_branch(step)
            return None if branch is step.parts[0] else distance(branch)
        case _:
            return None


def margin(step: Step, wording: Wording) -> Margin | None:
    """Put the distance from the limit into words."""
    nearest = distance(step)
    if nearest is None:
        return None
    _, right = nearest.step.parts
    value, limit = compared(nearest.step, wording)
    amount = show(abs(nearest.amount), wording.unit(right), difference=True)
    return Margin(amount, nearest.share, value, limit)


def compared(step: Step, wording: Wording) -> tuple[str, str]:
    """Return both sides of a comparison as text, unequal where their values are."""
    left, right = step.parts
    value, limit = wording.shown(left), wording.shown(right)
    if value == limit and left.value != right.value:
        assert isinstance(left.value, float)
        assert isinstance(right.value, float)
        unit = wording.unit(right)
        value, limit = show_apart([(left.value, unit), (right.value, unit)])
    return value, limit


def _of_comparison(step: Step) -> Distance | None:
    assert isinstance(step.node, t.Comparison)
    direction = RELATIONS[step.node.sign].direction
    left, right = step.parts
    if not direction or not isinstance(left.value, float) or not isinstance(right.value, float):
        return None
    if left.node.kind.name == "date":
        return None
    # Values that count as equal stand exactly at the limit.
    equal = nearly_equal(left.value, right.value)
    amount = 0.0 if equal else direction * (left.value - right.value)
    scale = abs(right.value)
    share = None if right.node.kind.point or scale == 0 else amount / scale
    return Distance(step, amount, share)


def _chosen(
    parts: tuple[Step, ...], choose: Callable[[list[tuple[float, int]]], tuple[float, int]]
) -> Distance | None:
    """Take the least or greatest distance; a distance without a share counts by its sign."""
    distances = [gap for part in parts if part.needed and (gap := distance(part)) is not None]
    if not distances:
        return None
    ranked = [
        (gap.share if gap.share is not None else (1.0 if gap.amount >= 0 else -1.0), index)
        for index, gap in enumerate(distances)
    ]
    return distances[choose(ranked)[1]]
