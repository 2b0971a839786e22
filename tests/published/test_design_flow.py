"""Flow for a heat output against IAPWS-IF97, CoolProp and the units of pint."""

from __future__ import annotations

import pint
import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97

from published.calculated import calculated
from published.circuits import glycol

FLOWS = [
    # kW; L/min at 5 K round 42.5 degC, 7 K round 41.5, 8 K round 41, 10 K round 50: IAPWS-IF97
    (5, 14.49, 10.34, 9.05, 7.26),
    (6, 17.38, 12.41, 10.86, 8.72),
    (8, 23.18, 16.55, 14.48, 11.62),
    (10, 28.97, 20.69, 18.10, 14.53),
    (12, 34.77, 24.82, 21.72, 17.44),
    (16, 46.35, 33.10, 28.95, 23.25),
]
DIFFERENCES = ((5, 42.5), (7, 41.5), (8, 41.0), (10, 50.0))


def flow(kilowatts: float, kelvin: float, mean: float, fluid: dict[str, object]) -> float:
    value = calculated(
        "design_flow",
        {
            "building.design_heat_loss": f"{kilowatts} kW",
            "water.flow_temperature": f"{mean + kelvin / 2} degC",
            "water.temperature_difference": f"{kelvin} K",
            **fluid,
        },
    )
    assert isinstance(value, float)
    return value * 60000


@pytest.mark.parametrize("row", FLOWS)
def test_heat_asks_for_the_flow_of_the_steam_tables(row: tuple[float, ...]) -> None:
    for expected, (kelvin, mean) in zip(row[1:], DIFFERENCES, strict=True):
        found = flow(row[0], kelvin, mean, {"water.fluid": "water"})
        assert found == pytest.approx(expected, rel=1e-3)
        water = IAPWS97(P=0.2, T=mean + 273.15)
        assert found == pytest.approx(row[0] / (water.rho * water.cp * kelvin) * 60000, rel=1e-3)


def test_the_units_of_another_registry_agree() -> None:
    registry: pint.UnitRegistry = pint.UnitRegistry()
    volume = registry("8 kW") / (
        registry("991.29 kg/m^3") * registry("4.1795 kJ/(kg*K)") * registry.Quantity(5, "kelvin")
    )
    expected = volume.to("liter/minute").magnitude
    assert flow(8, 5, 42.5, {"water.fluid": "water"}) == pytest.approx(expected, rel=2e-4)
    assert expected == pytest.approx(23.18, rel=1e-3)


@pytest.mark.parametrize(
    ("fluid", "solution", "percent", "expected"),
    [
        ("ethylene glycol", "MEG", 25, 24.33),
        ("ethylene glycol", "MEG", 30, 24.70),
        ("propylene glycol", "MPG", 25, 23.95),
        ("propylene glycol", "MPG", 30, 24.22),
        ("propylene glycol", "MPG", 35, 24.55),
    ],
)
def test_glycol_asks_for_more_flow(
    fluid: str, solution: str, percent: float, expected: float
) -> None:
    found = flow(8, 5, 42.5, glycol(fluid, percent))
    assert found == pytest.approx(expected, rel=1e-3)
    at = ("T", 42.5 + 273.15, "P", 2e5, f"INCOMP::{solution}[{percent / 100}]")
    carried = PropsSI("D", *at) * PropsSI("C", *at)
    assert found == pytest.approx(8000 / (carried * 5) * 60000, rel=2e-3)
