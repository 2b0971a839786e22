"""Strict operations, which need the values of all their parts: the same in several evaluators."""

from __future__ import annotations

import operator

from tundish.language.operations import values as v
from tundish.language.operations.operators import RELATIONS, operation_of
from tundish.language.tree import tree as t
from tundish.units.format import show


def strict_value(node: t.Node, values: list[t.Value | None]) -> t.Value | None:
    """Return the value of a part from those of its own parts; None is unknown."""
    match node:
        case t.Comparison():
            return RELATIONS[node.sign].truth(*values)
        case t.Arithmetic() | t.Call():
            return v.apply(operation_of(node).calculate, *map(_number, values))
        case t.Membership():
            options = values[1] if node.texts is not None else node.options
            assert options is None or isinstance(options, tuple)
            return v.member(values[0], options)
        case t.Not():
            assert values[0] is None or isinstance(values[0], bool)
            return v.opposite(values[0])
        case t.Negation():
            return v.apply(operator.neg, _number(values[0]))
        case t.Present():
            return values[0]
        case _:
            raise TypeError(f"no value is known for {type(node).__name__}")


def why_beyond(node: t.Within, value: float) -> str:
    """Say that the value of a quantity is impossible, and which values are possible."""
    came = show(value, node.unit, difference=node.unit.point and not node.kind.point)
    return f"{node.label} comes to {came}, which cannot be: {possible(node, value)}"


def possible(node: t.Within, value: float) -> str:
    """Return the end of a range that a value lies beyond, and why it ends there."""
    least, _ = node.ends
    is_below = least is not None and value < least
    limit, word = (node.least, "at least") if is_below else (node.greatest, "at most")
    assert limit is not None
    end = show(limit, node.unit, difference=node.unit.point and not node.kind.point)
    return f"{word} {end}" + (f", as {node.because}" if node.because else "")


def _number(value: t.Value | None) -> float | None:
    return value if isinstance(value, float) else None


def why_lost(node: t.Node, values: list[t.Value | None]) -> str:
    """Say why a step whose parts are all known has no value."""
    operation = operation_of(node) if isinstance(node, t.Arithmetic | t.Call) else None
    if operation is not None and operation.is_division and values[-1] == 0:
        return "something is divided by zero"
    if isinstance(node, t.Call):
        return f"'{node.function.name}' does not hold for these values"
    return "the result is no finite number"
