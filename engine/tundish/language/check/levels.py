"""Literals in dB, which are a level or a difference of levels, as what stands beside them says."""

from __future__ import annotations

from dataclasses import replace

from tundish.language.operations.operators import Operator
from tundish.language.tree.tree import Constant, Node
from tundish.units.dimension import LEVEL


def fit_level(literal: Node, beside: Node) -> Node:
    """Read a literal in dB beside a difference of levels as a difference too.

    A literal cannot say which it is, as K and degC do for temperatures; what stands beside it
    decides.
    """
    kind = literal.kind
    if isinstance(literal, Constant) and kind.dimension == LEVEL == beside.kind.dimension:
        return literal if beside.kind.point else replace(literal, kind=kind.difference)
    return literal


def fit_levels(operator: Operator, left: Node, right: Node) -> tuple[Node, Node]:
    """Read a literal in dB that is added to or taken from a level as a difference.

    So ``sound_power - 5 dB`` is a level again.
    """
    literal = isinstance(right, Constant) and right.kind.point and right.kind.dimension == LEVEL
    if operator.is_sum and literal and left.kind.dimension == LEVEL:
        right = replace(right, kind=right.kind.difference)
    return left, right
