"""Code that compares known values, quantities within the tolerance, without a call."""

from __future__ import annotations

import math
import sys
from functools import lru_cache

from tundish.language.codegen.condition_kind import is_of_numbers
from tundish.language.operations.operators import RELATIONS
from tundish.language.operations.values import TOLERANCE, nearly_equal
from tundish.language.tree import tree as t


def comparison_test(node: t.Comparison, left: str, right: str) -> tuple[str, bool]:
    """Return the text of a test, and whether the comparison is that it fails.

    Args:
        node: A comparison.
        left: The name of its left side, which is known, or a constant.
        right: The same of its right side.
    """
    relation = RELATIONS[node.sign]
    if relation.code:
        return relation.code.format(left, right), False
    plain = relation.negates or node.sign
    if not is_of_numbers(node):
        test = f"{left} {plain} {right}"
    elif isinstance(node.right, t.Constant):
        test = _against_constant(plain, left, node.right)
    elif isinstance(node.left, t.Constant):
        test = _against_constant(RELATIONS[plain].mirrored, right, node.left)
    elif plain == "<=":
        test = _up_to(left, right)
    elif plain == ">=":
        test = _up_to(right, left)
    else:
        test = f"{left} == {right} or ({_up_to(left, right)}) and ({_up_to(right, left)})"
    return test, bool(relation.negates)


def _up_to(lower: str, upper: str) -> str:
    # The difference is above zero once the plain comparison has failed, and of the two sizes that
    # it is held against, the greater is that of the first or the negative of the second.
    off = f"{lower} - {upper}"
    return f"{lower} <= {upper} or {off} <= 1e-9 * {lower} or {off} <= -1e-9 * {upper}"


def _against_constant(sign: str, value: str, constant: t.Constant) -> str:
    """Return a test against what is written out, which the tolerance is added to beforehand."""
    limit = constant.value
    assert isinstance(limit, float)
    least, greatest = farthest_equal(limit, -math.inf), farthest_equal(limit, math.inf)
    match sign:
        case "<=":
            return f"{value} <= ({greatest!r})"
        case ">=":
            return f"{value} >= ({least!r})"
        case _:
            return f"{value} == ({limit!r}) or ({least!r}) <= {value} <= ({greatest!r})"


@lru_cache(maxsize=4096)  # more than all limits of the built-in rules
def farthest_equal(limit: float, towards: float) -> float:
    """Return the last quantity on the way from a limit that is as good as equal to it.

    From a limit on, each float is farther from it by more than the tolerance grows, so that all
    before that one are as good as equal, and none behind it.

    Args:
        limit: The limit, finite.
        towards: Where the way goes, infinity or its negative.

    Example:
        >>> farthest_equal(2.0, towards=math.inf)
        2.0000000019999997
    """
    beside = limit + math.copysign(TOLERANCE, towards) * abs(limit)
    farthest = min(max(beside, -sys.float_info.max), sys.float_info.max)
    while not nearly_equal(farthest, limit):
        farthest = math.nextafter(farthest, limit)
    while math.isfinite(further := math.nextafter(farthest, towards)) and nearly_equal(
        further, limit
    ):
        farthest = further
    return farthest
