"""What a defrost takes, against the heats of ice and water of IAPWS, and against plain sums.

The handbook figures in the rulebook (latent heat 333.55 kJ/kg, ice 2.1, water 4.2 kJ/(kg.K)) are
from memory; the enthalpies here come from IAPWS R10-06 (ice Ih) and IAPWS-95 (water).
"""

from __future__ import annotations

import pytest
from iapws import IAPWS95
from iapws._iapws import _Ice

from published.calculated import calculated

MEGAPASCAL = 0.101325
CIRCUIT = {
    "unit.water.content": "5 L",
    "water.fluid": "water",
    "water.flow_temperature": "40 degC",
    "water.temperature_difference": "5 K",
    "water.run": [],
    "water.emitter": [],
}


def ice_enthalpy(temperature: float) -> float:
    """Return the enthalpy of ice [kJ/kg] at a temperature [degC]."""
    return float(_Ice(temperature + 273.15, MEGAPASCAL)["h"])


def water_enthalpy(temperature: float) -> float:
    """Return the enthalpy of water [kJ/kg] at a temperature [degC]."""
    return float(IAPWS95(T=temperature + 273.15, P=MEGAPASCAL).h)


def test_melting_ice_takes_the_handbook_heat() -> None:
    # 333.55 kJ/kg is part of the formula of `heat_of_frost`: 365.05 less 5 K x (2.1 + 4.2).
    heat = calculated("heat_of_frost", {})
    assert isinstance(heat, float)
    melting = heat / 1000 - 5 * (2.1 + 4.2)
    assert melting == pytest.approx(water_enthalpy(0.01) - ice_enthalpy(-0.01), rel=1e-3)


def test_frost_from_five_below_to_five_above_takes_365_kilojoule_a_kilogram() -> None:
    whole = water_enthalpy(5) - ice_enthalpy(-5)
    assert calculated("heat_of_frost", {}) == pytest.approx(whole * 1000, rel=1e-3)


@pytest.mark.parametrize(
    ("frost", "litres", "fall"),
    [(1, 50, 1.76), (2, 75, 2.34), (3, 50, 5.27), (4, 100, 3.52), (6, 200, 2.64)],
)
def test_water_falls_by_the_heat_of_the_frost(frost: int, litres: int, fall: float) -> None:
    # mass of frost x 365.05 kJ/kg / (volume x 4.154 kJ/(L.K) of water at 35 degC)
    defrost = {"frost_mass": f"{frost} kg", "method": "reversed cycle"}
    assert fallen(defrost, litres) == pytest.approx(fall, abs=0.006)


@pytest.mark.parametrize(
    ("litres", "fall"), [(40, 11.56), (60, 7.70), (80, 5.78), (120, 3.85), (160, 2.89)]
)
def test_water_falls_by_power_times_time(litres: int, fall: float) -> None:
    # 8 kW x 240 s = 1920 kJ
    defrost = {"power": "8 kW", "duration": "4 min"}
    assert fallen(defrost, litres) == pytest.approx(fall, abs=0.006)


def test_twice_the_water_falls_half_as_far() -> None:
    defrost = {"energy": "1000 kJ"}
    assert fallen(defrost, 60) == pytest.approx(2 * fallen(defrost, 120), rel=1e-9)


def test_glycol_falls_further_than_water() -> None:
    glycol = {
        "water.fluid": "propylene glycol",
        "water.frost.glycol": {"fraction": "30 %", "by": "mass"},
    }
    defrost = {"energy": "1000 kJ"}
    assert fallen(defrost, 60, glycol) > 1.03 * fallen(defrost, 60)


def fallen(defrost: dict[str, str], litres: int, other: dict[str, object] | None = None) -> float:
    """Return how far 35 degC water falls [K] in a defrost."""
    vessel = {"volume": f"{litres - 5} L", "connection": "in series, return"}
    given = {**CIRCUIT, "unit.defrost": defrost, "water.volume_vessel": vessel, **(other or {})}
    after = calculated("temperature_after_defrost", given)
    assert isinstance(after, float)
    return 35 + 273.15 - after
