"""Expansion of the fluid from 10 degC, against IAPWS, CoolProp and a printed table."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97

from published.calculated import calculated

FILLED = 10  # [degC]
MEGAPASCAL = 0.25  # absolute, as the figures below were worked out; it hardly matters

# [degC]: [%] by the ratio of densities of IAPWS-IF97; table D.1 of EN 12828, from memory
OF_WATER = {
    30: (0.407, 0.66),
    40: (0.754, 0.93),
    50: (1.180, 1.29),
    60: (1.678, 1.71),
    70: (2.242, 2.22),
    80: (2.871, 2.81),
    90: (3.562, 3.47),
    100: (4.314, 4.21),
}

# [degC]: [%] of solutions with 30 % glycol by mass, by the ratio of CoolProp's densities
OF_GLYCOL = {
    "ethylene glycol": {35: 1.018, 45: 1.526, 55: 2.090, 65: 2.710, 70: 3.040, 80: 3.740},
    "propylene glycol": {35: 1.162, 45: 1.734, 55: 2.356, 65: 3.024, 70: 3.373, 80: 4.095},
}
SOLUTIONS = {"ethylene glycol": "MEG", "propylene glycol": "MPG"}


def expansion(temperature: float, fluid: str = "water", fraction: float = 30) -> float:
    """Return what the rulebook makes of it [%]."""
    given: dict[str, object] = {
        "water.fluid": fluid,
        "water.highest_temperature": f"{temperature} degC",
    }
    if fluid != "water":
        given["water.frost.glycol"] = {"fraction": f"{fraction} %", "by": "mass"}
    value = calculated("fluid_expansion", given)
    assert isinstance(value, float)
    return 100 * value


@pytest.mark.parametrize("temperature", OF_WATER)
def test_water_expands_as_iapws_says(temperature: int) -> None:
    assert expansion(temperature) == pytest.approx(OF_WATER[temperature][0], abs=0.004)


@pytest.mark.parametrize("temperature", [12.5, 37.5, 45, 55, 58, 65, 72.5])
def test_between_rows_water_expands_as_iapws_says(temperature: float) -> None:
    cold, hot = (
        IAPWS97(P=MEGAPASCAL, T=t + 273.15).rho for t in (float(FILLED), float(temperature))
    )
    assert expansion(temperature) == pytest.approx(100 * (cold / hot - 1), abs=0.01)


@pytest.mark.parametrize("temperature", [60, 70, 80, 90, 100])
def test_the_printed_table_agrees_where_it_counts_from_the_hot_side(temperature: int) -> None:
    of_hot = 100 * expansion(temperature) / (100 + expansion(temperature))
    assert OF_WATER[temperature][1] == pytest.approx(of_hot, abs=0.1)


@pytest.mark.parametrize("temperature", [30, 40, 50])
def test_the_printed_table_adds_a_little_below_60_degrees(temperature: int) -> None:
    assert 0.05 < OF_WATER[temperature][1] - expansion(temperature) < 0.3


@pytest.mark.parametrize(
    ("fluid", "temperature"), [(fluid, hot) for fluid in OF_GLYCOL for hot in OF_GLYCOL[fluid]]
)
def test_glycol_expands_as_coolprop_says(fluid: str, temperature: int) -> None:
    assert expansion(temperature, fluid) == pytest.approx(OF_GLYCOL[fluid][temperature], rel=0.01)


@pytest.mark.parametrize("fluid", SOLUTIONS)
@pytest.mark.parametrize("fraction", [12.5, 20, 33, 47.5])
@pytest.mark.parametrize("temperature", [42, 55, 63])
def test_between_rows_glycol_expands_as_coolprop_says(
    fluid: str, fraction: float, temperature: float
) -> None:
    solution = f"INCOMP::{SOLUTIONS[fluid]}[{fraction / 100}]"
    cold, hot = (PropsSI("D", "T", t + 273.15, "P", 2e5, solution) for t in (FILLED, temperature))
    whole = 100 * (cold / hot - 1)
    # Each density is read within 0.02 %, so the small difference of the two within 0.03 points.
    assert expansion(temperature, fluid, fraction) == pytest.approx(whole, abs=0.03)


def test_glycol_at_30_percent_needs_two_thirds_more_room_than_water() -> None:
    assert expansion(55, "propylene glycol") / expansion(55) == pytest.approx(1.66, abs=0.01)


@pytest.mark.parametrize("temperature", [-1, 101])
def test_nothing_is_read_beyond_liquid_water(temperature: int) -> None:
    given = {"water.fluid": "water", "water.highest_temperature": f"{temperature} degC"}
    assert calculated("fluid_expansion", given) is None
