"""The kinds that arithmetic gives: dimensions multiply, points have differences but no sums."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tundish.language.tree.kind import Kind, capital, missing_unit, quantity_kind
from tundish.language.tree.tree import Arithmetic, Constant, Negation, Node
from tundish.units.dimension import LEVEL


def arithmetic_kind(sign: str, left: Kind, right: Kind) -> Kind:
    """Return the kind of ``left sign right``.

    Args:
        sign: One of ``+ - * /``.
        left: The kind of the left part.
        right: The kind of the right part.

    Raises:
        ValueError: With a sentence, where the two do not go together.
    """
    if sign in "*/":
        if left.point or right.point:
            point = left if left.point else right
            raise ValueError(f"{capital(point)} cannot be multiplied or divided.")
        product = left.dimension * right.dimension
        return quantity_kind(product if sign == "*" else left.dimension / right.dimension)
    if left.dimension != right.dimension:
        verb = "added to" if sign == "+" else "taken from"
        first, second = (left, right) if sign == "+" else (right, left)
        hint = missing_unit(left, right)
        raise ValueError(f"{capital(first)} cannot be {verb} {second}.{hint}")
    if not left.point and not right.point:
        return left
    if left.point and right.point:
        return _two_points(sign, left)
    if right.point and sign == "-":
        raise ValueError(f"{capital(right)} cannot be taken from {left}.")
    return left if left.point else right


def _two_points(sign: str, kind: Kind) -> Kind:
    if sign == "-":
        return kind.difference
    if kind.dimension == LEVEL:
        raise ValueError("Sound levels do not add as numbers: 60 dB and 60 dB make 63 dB.")
    raise ValueError("Two temperatures cannot be added; a difference is written in K.")


def power_kind(radix: Node, exponent: Node) -> Kind:
    """Return the kind of a power.

    Raises:
        ValueError: With a sentence, where the exponent or what is raised does not fit.
    """
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


def fit_level(literal: Node, beside: Node) -> Node:
    """Read a literal in dB beside a difference of levels as a difference too.

    A literal cannot say which it is, as K and degC do for temperatures; what stands beside it
    decides.
    """
    kind = literal.kind
    if isinstance(literal, Constant) and kind.dimension == LEVEL == beside.kind.dimension:
        return literal if beside.kind.point else replace(literal, kind=kind.difference)
    return literal


def fit_levels(sign: str, left: Node, right: Node) -> tuple[Node, Node]:
    """Read a literal in dB that is added to or taken from a level as a difference.

    So ``sound_power - 5 dB`` is a level again.
    """
    literal = isinstance(right, Constant) and right.kind.point and right.kind.dimension == LEVEL
    if sign in "+-" and literal and left.kind.dimension == LEVEL:
        right = replace(right, kind=right.kind.difference)
    return left, right
