"""What is said to stay finite does, at the greatest float there is."""

from __future__ import annotations

import math
import operator
import sys

import pytest

from tundish.language.operations.finiteness import can_overflow
from tundish.language.tree import tree as t
from tundish.language.tree.kind import PLAIN_NUMBER, TRUTH

GREATEST = sys.float_info.max
SIGNS = {"+": operator.add, "-": operator.sub, "*": operator.mul, "/": operator.truediv}
FACT = t.Read(PLAIN_NUMBER, 0, 0, "a", "a")


def operation(sign: str, left: t.Node, right: t.Node) -> t.Arithmetic:
    return t.Arithmetic(PLAIN_NUMBER, 0, 0, sign, left, right)


def constant(value: float) -> t.Constant:
    return t.Constant(PLAIN_NUMBER, 0, 0, value, repr(value))


@pytest.mark.parametrize("sign", SIGNS)
@pytest.mark.parametrize(
    "size", [0.0, 1e-300, 0.5, 1.0, 1.0 + 1e-15, 2.0, 2.0**960, 2.0**971, 1e308]
)
@pytest.mark.parametrize("turned", [False, True])
def test_what_stays_finite_stays_so_at_the_greatest(sign: str, size: float, turned: bool) -> None:
    for value in (size, -size):
        sides = (constant(value), FACT) if turned else (FACT, constant(value))
        if can_overflow(operation(sign, *sides)):
            continue
        for fact in (GREATEST, -GREATEST, 5e-324):
            given = (value, fact) if turned else (fact, value)
            assert math.isfinite(SIGNS[sign](*given))


@pytest.mark.parametrize(
    ("sign", "size", "overflows"),
    [
        ("+", 273.15, False),
        ("+", 1e300, True),
        ("*", 0.9, False),
        ("*", 1.1, True),
        ("/", 2.0, False),
        ("/", 0.5, True),
        ("/", 0.0, True),
    ],
)
def test_small_changes_are_told_from_great_ones(sign: str, size: float, overflows: bool) -> None:
    assert can_overflow(operation(sign, FACT, constant(size))) is overflows
    # So are those of what may overflow itself.
    product = operation("*", FACT, FACT)
    assert can_overflow(operation(sign, product, constant(size)))
    assert can_overflow(t.Negation(PLAIN_NUMBER, 0, 0, product))
    assert can_overflow(operation("/", constant(1.0), FACT))


@pytest.mark.parametrize(
    ("sign", "sizes", "overflows"),
    [
        ("+", (1.0, 0.0), False),
        ("+", (1.0, 1e300), True),
        ("*", (0.5, 1.0), False),
        ("*", (0.5, 2.0), True),
        ("/", (1.0, 2.0), False),
        ("/", (1.0, 0.5), True),
    ],
)
def test_a_choice_is_as_great_as_the_worse_of_its_ways(
    sign: str, sizes: tuple[float, float], overflows: bool
) -> None:
    asked = t.Read(TRUTH, 0, 0, "f", "f")
    for first, second in (sizes, sizes[::-1]):
        chosen = t.Choice(PLAIN_NUMBER, 0, 0, asked, constant(first), constant(-second))
        assert can_overflow(operation(sign, FACT, chosen)) is overflows
    one_way = t.Choice(PLAIN_NUMBER, 0, 0, asked, constant(0.5), FACT)
    assert can_overflow(operation(sign, FACT, one_way))
