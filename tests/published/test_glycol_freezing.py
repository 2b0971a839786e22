"""Freezing points of glycol in the rulebook, against CoolProp and against printed tables.

The printed figures of propylene glycol by volume were read in Lange's Handbook of Chemistry, table
5.13. Those of the ASHRAE Handbook, Fundamentals, by mass, are from memory. All are of the pure
chemical in water; a fluid that comes inhibited differs by 1 to 2 K.
"""

from __future__ import annotations

import pytest

from published.calculated import calculated
from tables.glycol_freezing import SOLUTIONS, TABLE, freezing_point, table_text
from tundish import Rulebook

ZERO = 273.15

# volume [%]: mass [%], Lange's printed point [degC]
LANGE = {
    20: (20.60, -6.7),
    25: (25.70, -8.9),
    30: (30.79, -12.8),
    35: (35.85, -16.1),
    40: (40.90, -20.6),
    50: (50.93, -33.3),
}

# mass [%]: ASHRAE's point of ethylene glycol [degC], from memory
ASHRAE = {20: -7.8, 30: -14.1, 40: -22.3, 50: -33.8}


def tabled(fluid: str, fraction: float) -> float:
    """Return what the computed table gives [degC] at a mass fraction [%]."""
    table = Rulebook.built_in().scope.tables["glycol-freezing"]
    value = table.read("freezing point", [fluid, fraction / 100]).value
    assert isinstance(value, float)
    return value - ZERO


def mixture(fluid: str, share: float, by: str) -> float:
    """Return the rulebook's freezing point [degC] of a mixture of some share [%]."""
    glycol = {"fraction": f"{share} %", "by": by}
    value = calculated(
        "glycol_freezing_point", {"water.fluid": fluid, "water.frost.glycol": glycol}
    )
    assert isinstance(value, float)
    return value - ZERO


def test_table_file_is_what_its_script_computes() -> None:
    assert TABLE.read_text(encoding="utf-8") == table_text()


@pytest.mark.parametrize("fluid", SOLUTIONS)
def test_linear_reading_stays_within_three_hundredths_of_a_kelvin(fluid: str) -> None:
    for tenths in range(5, 521, 5):
        fraction = tenths / 10
        # Near 0 % CoolProp's own curve misses the freezing point of water by 0.03 K.
        assert tabled(fluid, fraction) == pytest.approx(freezing_point(fluid, fraction), abs=0.03)


@pytest.mark.parametrize("fluid", SOLUTIONS)
def test_more_glycol_freezes_later(fluid: str) -> None:
    points = [mixture(fluid, share, "mass") for share in range(1, 51)]
    assert points == sorted(points, reverse=True)
    assert points[0] > -1 and points[-1] < -30


@pytest.mark.parametrize("volume", LANGE)
def test_share_by_volume_becomes_the_share_by_mass(volume: int) -> None:
    given = {
        "water.fluid": "propylene glycol",
        "water.frost.glycol": {"fraction": f"{volume} %", "by": "volume"},
    }
    mass = calculated("glycol_share_by_mass", given)
    assert mass == pytest.approx(LANGE[volume][0] / 100, abs=0.00006)


@pytest.mark.parametrize("volume", LANGE)
def test_printed_point_of_propylene_glycol_is_taken_as_the_warmer(volume: int) -> None:
    assert mixture("propylene glycol", volume, "volume") == pytest.approx(
        LANGE[volume][1], abs=0.005
    )


def test_printed_points_of_propylene_glycol_are_up_to_1_3_kelvin_warmer_than_computed() -> None:
    deviations = {
        volume: printed - freezing_point("propylene glycol", mass)
        for volume, (mass, printed) in LANGE.items()
    }
    assert min(deviations.values()) > 0.2
    assert max(deviations.values()) == pytest.approx(1.28, abs=0.02)
    assert max(deviations, key=deviations.__getitem__) == 25


def test_remembered_points_of_ethylene_glycol_are_up_to_2_2_kelvin_warmer_than_computed() -> None:
    for mass, printed in ASHRAE.items():
        deviation = printed - freezing_point("ethylene glycol", mass)
        assert 0.1 < deviation < 2.25
        assert mixture("ethylene glycol", mass, "mass") == pytest.approx(printed, abs=0.005)


@pytest.mark.parametrize("fluid", SOLUTIONS)
def test_mixture_is_never_reckoned_colder_than_computed(fluid: str) -> None:
    for share in range(1, 51):
        assert mixture(fluid, share, "mass") >= freezing_point(fluid, share) - 0.03


@pytest.mark.parametrize(
    ("fluid", "mass", "point"),
    [
        # Melinder's correlations as CoolProp has them; what keeps down to -5 and -10 degC
        ("ethylene glycol", 14.0, -5.0),
        ("ethylene glycol", 23.5, -10.0),
        ("propylene glycol", 15.3, -5.0),
        ("propylene glycol", 25.4, -10.0),
    ],
)
def test_share_needed_for_a_freezing_point(fluid: str, mass: float, point: float) -> None:
    assert tabled(fluid, mass) == pytest.approx(point, abs=0.04)


def test_stronger_than_any_printed_table_is_not_answered() -> None:
    given = {
        "water.fluid": "propylene glycol",
        "water.frost.glycol": {"fraction": "60 %", "by": "volume"},
    }
    assert calculated("glycol_freezing_point", given) is None
