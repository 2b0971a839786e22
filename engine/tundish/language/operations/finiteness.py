"""Finiteness: which operations may give what is no finite number, of values that are."""

from __future__ import annotations

from tundish.language.operations.operators import ARITHMETIC, operation_of
from tundish.language.tree import tree as t


def can_overflow(node: t.Node) -> bool:
    """Say whether what is written out of finite values may not be finite."""
    if isinstance(node, t.Negation):
        return can_overflow(node.operand)
    if not isinstance(node, t.Arithmetic | t.Call):
        return False
    operation, parts = operation_of(node), t.children(node)
    if not operation.is_inline(len(parts)):
        return False  # the caller checks the result of a call
    if isinstance(node, t.Arithmetic):
        return not _stays_finite(node)
    # An argument that is used more than once was looked at before.
    nested = [part for at, part in enumerate(parts) if operation.uses(at) == 1]
    return not operation.is_finite or any(map(can_overflow, nested))


def _stays_finite(node: t.Arithmetic) -> bool:
    """Say whether an operation gives a finite value for every finite one, as it changes little."""
    keeps_finite = ARITHMETIC[node.sign].keeps_finite
    for fixed, other in ((node.right, node.left), (node.left, node.right)):
        sizes = _sizes(fixed)
        if sizes and not can_overflow(other):
            return keeps_finite(sizes, fixed is node.right)
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
