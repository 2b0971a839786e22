"""The kinds that arithmetic gives: dimensions multiply, points have differences but no sums.

Each raises ValueError with a sentence where its operands do not go together.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tundish.language.tree.kind import Kind, capital, missing_unit, quantity_kind
from tundish.language.tree.node import Node
from tundish.language.tree.tree import Arithmetic, Constant, Negation
from tundish.units.dimension import LEVEL, Dimension


def product_kind(operands: Sequence[Node]) -> Kind:
    """Return the kind of a product."""
    left, right = _dimensions(operands)
    return quantity_kind(left * right)


def quotient_kind(operands: Sequence[Node]) -> Kind:
    """Return the kind of a quotient."""
    left, right = _dimensions(operands)
    return quantity_kind(left / right)


def _dimensions(operands: Sequence[Node]) -> list[Dimension]:
    for operand in operands:
        if operand.kind.point:
            raise ValueError(f"{capital(operand.kind)} cannot be multiplied or divided.")
    return [operand.kind.dimension for operand in operands]


def sum_kind(operands: Sequence[Node]) -> Kind:
    """Return the kind of a sum."""
    left, right = (operand.kind for operand in operands)
    if left.dimension != right.dimension:
        hint = missing_unit(left, right)
        raise ValueError(f"{capital(left)} cannot be added to {right}.{hint}")
    if not (left.point and right.point):
        return left if left.point else right
    if left.dimension == LEVEL:
        raise ValueError("Sound levels do not add as numbers: 60 dB and 60 dB make 63 dB.")
    raise ValueError("Two temperatures cannot be added; a difference is written in K.")


def difference_kind(operands: Sequence[Node]) -> Kind:
    """Return the kind of a difference."""
    left, right = (operand.kind for operand in operands)
    if left.dimension != right.dimension:
        hint = missing_unit(left, right)
        raise ValueError(f"{capital(right)} cannot be taken from {left}.{hint}")
    if right.point and not left.point:
        raise ValueError(f"{capital(right)} cannot be taken from {left}.")
    return left.difference if right.point else left


def power_kind(operands: Sequence[Node]) -> Kind:
    """Return the kind of a power."""
    radix, exponent = operands
    if not exponent.kind.dimension.is_number:
        raise ValueError(f"An exponent is a plain number, not {exponent.kind}.")
    if radix.kind.dimension.is_number:
        return radix.kind
    if radix.kind.point:
        raise ValueError(f"{capital(radix.kind)} cannot be raised to a power.")
    constant = _constant(exponent)
    if constant is None:
        raise ValueError("Only a plain number may have an exponent that is not written out.")
    return quantity_kind(radix.kind.dimension**constant)


def _constant(node: Node) -> Fraction | None:
    """Return an exponent that is written out, such as 2, -1 or (1 / 2)."""
    if isinstance(node, Constant) and isinstance(node.value, float):
        return Fraction(node.value).limit_denominator(1000)
    if isinstance(node, Negation):
        inner = _constant(node.operand)
        return None if inner is None else -inner
    if isinstance(node, Arithmetic) and node.sign == "/":
        above, below = _constant(node.left), _constant(node.right)
        return above / below if above is not None and below else None
    return None
