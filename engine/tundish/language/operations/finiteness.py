"""Finiteness: which operations may give what is no finite number, of values that are."""

from __future__ import annotations

from tundish.language.tree import tree as t

_LOST_ON_THE_GREATEST = 2.0**960
"""What makes no difference to the greatest float there is, of which the last bit is 2**971."""


def can_overflow(node: t.Node) -> bool:
    """Say whether what is written out of finite values may not be finite."""
    if isinstance(node, t.Negation):
        return can_overflow(node.operand)
    if isinstance(node, t.Call) and node.function.name == "absolute":
        return can_overflow(node.arguments[0])
    return isinstance(node, t.Arithmetic) and not _stays_finite(node)


def _stays_finite(node: t.Arithmetic) -> bool:
    """Say whether an operation gives a finite value for every finite one, as it changes little."""
    for fixed, other in ((node.right, node.left), (node.left, node.right)):
        sizes = _sizes(fixed)
        if sizes and not can_overflow(other):
            if node.sign in ("+", "-"):
                return max(sizes) <= _LOST_ON_THE_GREATEST
            if node.sign == "*":
                return max(sizes) <= 1
            return fixed is node.right and min(sizes) >= 1
    return False


def _sizes(node: t.Node) -> list[float]:
    """Return the sizes that what is written out can have, or none where it is not written out."""
    match node:
        case t.Constant(value=float() as value):
            return [abs(value)]
        case t.Choice(then=t.Constant(), otherwise=t.Constant()):
            return [*_sizes(node.then), *_sizes(node.otherwise)]
        case _:
            return []
