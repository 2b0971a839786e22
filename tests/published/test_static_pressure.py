"""The weight of the water above an expansion vessel, against pint's column of water."""

from __future__ import annotations

import pint
import pytest
from CoolProp.CoolProp import PropsSI

from published.calculated import calculated
from tundish.units.quantity import parse_quantity

UNITS = pint.get_application_registry()


@pytest.mark.parametrize("metres", [1, 5, 10, 22])
def test_water_weighs_what_its_column_does(metres: int) -> None:
    given = {"water.fluid": "water", "water.static_height": f"{metres} m"}
    column = (100 * metres * UNITS.cmH2O).to("Pa").magnitude
    # pint's water is that of 4 degC, 1000 kg/m3; at 10 degC it is 0.03 % lighter.
    assert calculated("static_pressure", given) == pytest.approx(column, rel=4e-4)


@pytest.mark.parametrize("metres", [1, 3.5, 10])
def test_a_metre_of_water_is_pints(metres: float) -> None:
    column = (100 * metres * UNITS.cmH2O).to("Pa").magnitude
    assert parse_quantity(f"{metres} mH2O").si == pytest.approx(column, rel=1e-4)


@pytest.mark.parametrize(
    ("fluid", "solution"), [("propylene glycol", "MPG"), ("ethylene glycol", "MEG")]
)
def test_glycol_weighs_more_by_its_density(fluid: str, solution: str) -> None:
    given = {
        "water.fluid": fluid,
        "water.frost.glycol": {"fraction": "35 %", "by": "mass"},
        "water.static_height": "8 m",
    }
    density = PropsSI("D", "T", 283.15, "P", 2e5, f"INCOMP::{solution}[0.35]")
    weight = (density * UNITS("kg/m^3") * UNITS.g_0 * 8 * UNITS.m).to("Pa").magnitude
    assert calculated("static_pressure", given) == pytest.approx(weight, rel=5e-4)


def test_a_vessel_at_the_highest_point_carries_nothing() -> None:
    given = {"water.fluid": "water", "water.static_height": "0 m"}
    assert calculated("static_pressure", given) == 0
