"""How far the tolerance reaches from a limit, against comparing with it."""

from __future__ import annotations

import math
import sys

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tundish.language.codegen.tolerance import farthest_equal
from tundish.language.operations.operators import RELATIONS
from tundish.language.operations.values import nearly_equal

at_least, at_most = RELATIONS[">="].truth, RELATIONS["<="].truth
FINITE = st.floats(allow_nan=False, allow_infinity=False)
NEAR = st.integers(-3, 3)
GREATEST = sys.float_info.max


def beside(value: float, steps: int) -> float:
    """Return the float that is some floats away, or the last there is."""
    for _ in range(abs(steps)):
        value = math.nextafter(value, math.copysign(math.inf, steps))
    return min(max(value, -GREATEST), GREATEST)


@given(FINITE, NEAR)
@example(0.0, 1)
@example(5e-324, 1)
@example(1e-310, 1)
@example(GREATEST, 0)
@example(GREATEST * (1 - 5e-10), 0)
@example(-GREATEST, 0)
def test_what_is_before_the_farthest_is_equal_and_what_is_behind_it_is_not(
    limit: float, steps: int
) -> None:
    above, below = farthest_equal(limit, math.inf), farthest_equal(limit, -math.inf)
    for value in (beside(above, steps), beside(below, steps)):
        assert (value <= above) == at_most(value, limit)
        assert (value >= below) == at_least(value, limit)
        assert (below <= value <= above) == nearly_equal(value, limit)


@given(FINITE, FINITE)
@example(2.0, 2.0 * (1 + 1e-9))
@example(-2.0, -2.0 * (1 - 1e-9))
def test_anywhere_else_it_tells_the_same(limit: float, value: float) -> None:
    assert (value <= farthest_equal(limit, math.inf)) == at_most(value, limit)
    assert (value >= farthest_equal(limit, -math.inf)) == at_least(value, limit)


@pytest.mark.parametrize("limit", [293.15, -3.5, 0.019])
def test_it_reaches_as_far_as_the_tolerance(limit: float) -> None:
    assert farthest_equal(limit, math.inf) - limit == pytest.approx(1e-9 * abs(limit), rel=1e-6)
