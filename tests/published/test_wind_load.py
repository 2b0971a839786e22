"""Wind on a free-standing unit, against older tables of gust pressure, CoolProp and strips.

Gust pressures of the German wind standard of 1986 (q = v2 / 1600) and the pressure coefficients of
EN 1991-1-4 for the walls of rectangular bodies are from memory.
"""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI

from published.calculated import calculated
from tundish import Verdict
from verdicts import verdict_of

UNIT = {
    "site.design_wind_speed": "40 m/s",
    "unit.mass": "124 kg",
    "unit.size": {"width": "1250 mm", "height": "870 mm", "depth": "430 mm"},
    "placement.feet": {"height": "150 mm"},
}

GUSTS = [
    # gust [m/s], pressure [kN/m2]: up to 8, 20, 100 m above the ground and beyond
    (28.3, 0.50),
    (35.8, 0.80),
    (42.0, 1.10),
    (45.6, 1.30),
]


@pytest.mark.parametrize(("gust", "pressure"), GUSTS)
def test_pressures_of_the_german_standard_of_1986(gust: float, pressure: float) -> None:
    given = {"site.design_wind_speed": f"{gust} m/s"}
    assert calculated("gust_pressure", given) == pytest.approx(1000 * pressure, rel=5e-3)


def test_air_at_ten_degrees_and_sea_level_is_as_dense_as_reckoned() -> None:
    density = PropsSI("D", "T", 283.15, "P", 101325, "Air")
    given = {"site.design_wind_speed": "1 m/s"}
    assert calculated("gust_pressure", given) == pytest.approx(density / 2, rel=5e-3)


@pytest.mark.parametrize("height", [0.6, 0.87, 1.4, 1.8])
def test_the_force_is_no_less_than_the_coefficients_of_walls_give(height: float) -> None:
    """Pressure 0.8 ahead; suction 0.5 at height 1 x depth, 0.7 at 5 x, linear between (memory)."""
    depth, width, pressure = 0.43, 1.25, 40**2 / 1600 * 1000
    slender = min(max(height / depth, 1), 5)
    suction = 0.5 + (slender - 1) / 4 * 0.2
    by_walls = (0.8 + suction) * pressure * width * height
    size = {"width": "1.25 m", "height": f"{height} m", "depth": "0.43 m"}
    force = calculated("wind_force", UNIT | {"unit.size": size})
    assert isinstance(force, float)
    assert by_walls <= force <= 1.16 * by_walls


def test_strips_of_the_casing_turn_it_as_much_as_one_force_at_half_its_height() -> None:
    strips, height, feet = 1000, 0.87, 0.15
    turning = sum(
        (feet + (strip + 0.5) * height / strips) * 1500 * 1.25 * height / strips
        for strip in range(strips)
    )
    assert calculated("overturning_by_wind", UNIT) == pytest.approx(1.5 * turning, rel=1e-6)


def test_its_weight_rests_half_on_either_row_of_feet_in_still_air() -> None:
    """What tips it must lift the row towards the wind: half the weight, over the whole depth."""
    on_a_row = 124 * 9.81 / 2
    assert calculated("righting_by_weight", UNIT) == pytest.approx(0.9 * on_a_row * 0.43, rel=1e-9)


def _stands_loose(gust: float) -> bool:
    given = UNIT | {
        "site.design_wind_speed": f"{gust!r} m/s",
        "placement.on": "ground",
        "placement.anchored": False,
    }
    return verdict_of("roofs-and-walls/wind-does-not-overturn", given) is Verdict.MET


def test_the_verdict_turns_at_the_gust_that_balances() -> None:
    """By hand: 0.9 x 1216.4 N x 0.215 m = 1.5 x 1.5 x v2/1.6 x 1.0875 m2 x 0.585 m."""
    balance = (0.9 * 1216.44 * 0.215 / (1.5 * 1.5 / 1.6 * 1.0875 * 0.585)) ** 0.5
    assert balance == pytest.approx(16.2, abs=0.05)
    assert _stands_loose(0.999 * balance)
    assert not _stands_loose(1.001 * balance)
