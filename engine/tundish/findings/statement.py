"""The one sentence of a finding: what was found, with the numbers put in."""

from __future__ import annotations

from tundish.findings.margins import compared, distance
from tundish.findings.phrases import Wording, taken_branch
from tundish.language.evaluate.step import Step
from tundish.language.operations.operators import RELATIONS, Relation
from tundish.language.tree import tree as t
from tundish.units.format import show

_SCALE = {
    "less": "lower",
    "more": "higher",
    "at least": "no lower than",
    "at most": "no higher than",
}
"""How the same is said of a temperature, which is high or low and not much or little."""


def breach_sentence(step: Step, wording: Wording) -> str:
    """Say why a condition is not met."""
    return _said(step, wording, met=False)


def met_sentence(step: Step, wording: Wording) -> str:
    """Say why a condition is met."""
    return _said(step, wording, met=True)


def _said(step: Step, wording: Wording, met: bool) -> str:
    """Say why a condition holds (`met`) or fails; its value is as `met` says."""
    node, parts = step.node, step.parts
    match node:
        case t.Comparison():
            return _comparison(step, wording, met)
        case t.Membership():
            return _membership(step, wording, met)
        case t.Not():
            return _opposite(parts[0], wording, met)
        case t.Logic():
            return _logic(step, wording, met)
        case t.Choice():
            return _said(taken_branch(step), wording, met)
        case t.Loop(function="all" | "any"):
            return _loop(step, wording, met)
        case t.Present():
            label = getattr(node.operand, "label", "")
            return f"{label}: there is one" if met else f"{label}: there is none"
        case t.Known():
            label = getattr(node.operand, "label", "")
            return f"{label} is known" if met else f"{label} is not known"
        case t.Assumed():
            return _said(parts[0] if parts[0].needed else parts[1], wording, met)
        case t.Read() | t.Derived():
            return f"{node.label}: {'yes' if met else 'no'}"
        case _:
            return "this holds" if met else "this does not hold"


def _comparison(step: Step, wording: Wording, met: bool) -> str:
    node = step.node
    assert isinstance(node, t.Comparison)
    left, right = step.parts
    relation = RELATIONS[node.sign]
    if left.node.kind.name != "quantity" and relation.takes_any:
        return _equality(step, wording)
    words = _of_kind(relation.met if met else relation.breached, left)
    value, limit = compared(step, wording)
    first = wording.phrase(left).removesuffix(wording.shown(left)) + value
    second = wording.phrase(right).removesuffix(wording.shown(right)) + limit
    text = f"{first} {words} {second}"
    gap = distance(step)
    if gap is None or not relation.direction:
        return text
    if gap.amount == 0:
        return f"{text}: exactly at the limit"
    amount = show(abs(gap.amount), wording.unit(right), difference=True)
    return f"{text}: {_distance_words(relation, amount, met)}"


def _equality(step: Step, wording: Wording) -> str:
    """Say what a text, truth or date is, and what it was to be, or not to be."""
    left, right = step.parts
    value, other = wording.shown(left), wording.shown(right)
    name = wording.phrase(left).removesuffix(value)
    if value == other:
        return f"{name}is {value}"
    named = wording.phrase(right)
    return f"{name}is {value}, not {other if isinstance(right.node, t.Constant) else named}"


def _of_kind(words: str, left: Step) -> str:
    """Return the words of a comparison as they fit what is compared."""
    if not left.node.kind.point:
        return words
    for plain, scaled in _SCALE.items():
        words = words.replace(plain, scaled)
    return words


def _distance_words(relation: Relation, amount: str, met: bool) -> str:
    if met:
        return f"{amount} to spare"
    return f"short by {amount}" if relation.direction > 0 else f"over by {amount}"


def _membership(step: Step, wording: Wording, met: bool) -> str:
    node = step.node
    assert isinstance(node, t.Membership)
    if node.texts is not None:
        label = getattr(node.texts, "label", "the list")
        holds = "is among" if met else "is not among"
        choices = wording.shown(step.parts[1])
        return f"{wording.phrase(step.parts[0])} {holds} {label} ({choices})"
    options = ", ".join(str(option) for option in node.options or ())
    words = "is one of" if met else "is none of"
    return f"{wording.phrase(step.parts[0])} {words}: {options}"


def _opposite(inner: Step, wording: Wording, met: bool) -> str:
    # That "not X" fails means X holds, and the other way round.
    return _said(inner, wording, not met)


def _logic(step: Step, wording: Wording, met: bool) -> str:
    node = step.node
    assert isinstance(node, t.Logic)
    telling = [part for part in step.parts if part.needed and part.value is met]
    joint = "; and " if (node.word == "and") == met else "; "
    return joint.join(_said(part, wording, met) for part in telling)


def _loop(step: Step, wording: Wording, met: bool) -> str:
    node = step.node
    assert isinstance(node, t.Loop)
    rounds = [part for part in step.parts[1:] if part.needed and part.node is node.term]
    telling = [part for part in rounds if part.value is met]
    if not telling:
        quantifier = "none is looked at" if not rounds else "none of them does"
        return f"{node.items.label}: {quantifier}"
    return "; ".join(f"{part.item}: {_said(part, wording, met)}" for part in telling)
