"""Openings of sieve cloth by number, against the series they follow and against the inch.

The openings are those of ASTM E11, from memory. Each is the one before times the fourth root of 2,
rounded (series R 40/3 of ISO 565): a slip of memory would stand out of the row.
"""

from __future__ import annotations

import math

import pint
import pytest

from published.calculated import calculated

UNITS = pint.get_application_registry()

NUMBERS = (10, 12, 14, 16, 18, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 100)


def opening(number: float) -> float:
    """Return the rulebook's opening [mm] of a cloth."""
    given = {"water.filter": {"kind": "mesh", "meshes_per_inch": number}}
    width = calculated("filter_opening", given)
    assert isinstance(width, float)
    return width * 1000


@pytest.mark.parametrize("number", NUMBERS)
def test_opening_is_a_step_of_the_fourth_root_of_two(number: int) -> None:
    nearest = 2 ** (round(4 * math.log2(opening(number))) / 4)
    assert opening(number) == pytest.approx(nearest, rel=0.02)


def test_each_number_is_one_step_finer_than_the_one_before() -> None:
    steps = [round(4 * math.log2(opening(number))) for number in NUMBERS]
    assert steps == [4 - place for place in range(len(NUMBERS))]


@pytest.mark.parametrize("number", NUMBERS)
def test_opening_and_wire_fit_into_their_share_of_an_inch(number: int) -> None:
    share = (1 * UNITS.inch).to("mm").magnitude / number
    assert 0.5 < opening(number) / share < 0.82


def test_thirty_meshes_to_the_inch_in_other_units() -> None:
    # handbooks print 0.0234 inch beside number 30
    assert (opening(30) * UNITS.mm).to("inch").magnitude == pytest.approx(0.0234, abs=3e-4)
    stated = calculated("filter_opening", {"water.filter": {"mesh": "600 um"}})
    assert stated == pytest.approx(opening(30) / 1000)


@pytest.mark.parametrize("number", [5, 33, 200])
def test_a_number_that_stands_in_no_row_is_not_answered(number: int) -> None:
    given = {"water.filter": {"kind": "mesh", "meshes_per_inch": number}}
    assert calculated("filter_opening", given) is None
