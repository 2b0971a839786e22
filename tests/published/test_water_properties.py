"""The table of water against IAPWS-95 between its rows, and against IAPWS-IF97 and CoolProp."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97

from tables import water_properties
from tundish import Rulebook

BETWEEN_ROWS = [temperature / 2 for temperature in range(1, 200, 3)]
PASCAL = 2e5


def read(column: str, temperature: float) -> float:
    table = Rulebook.built_in().scope.tables["water-properties"]
    value = table.read(column, [temperature + 273.15]).value
    assert isinstance(value, float)
    return value


def test_the_file_is_what_the_script_writes() -> None:
    assert water_properties.TABLE.read_text(encoding="utf-8") == water_properties.table_text()


@pytest.mark.parametrize("temperature", BETWEEN_ROWS)
def test_linear_reading_stays_with_the_formulation(temperature: float) -> None:
    density, specific_heat, viscosity = water_properties.properties(temperature)
    assert read("density", temperature) == pytest.approx(density, rel=2e-4)
    assert read("specific heat", temperature) == pytest.approx(specific_heat * 1000, rel=2e-4)
    assert read("viscosity", temperature) == pytest.approx(viscosity / 1000, rel=6e-3)


@pytest.mark.parametrize("temperature", BETWEEN_ROWS)
def test_linear_reading_agrees_with_an_independent_formulation(temperature: float) -> None:
    at = ("T", temperature + 273.15, "P", PASCAL, "Water")
    assert read("density", temperature) == pytest.approx(PropsSI("D", *at), rel=5e-4)
    assert read("specific heat", temperature) == pytest.approx(PropsSI("C", *at), rel=1e-3)
    assert read("viscosity", temperature) == pytest.approx(PropsSI("V", *at), rel=6e-3)


@pytest.mark.parametrize("temperature", BETWEEN_ROWS)
def test_linear_reading_agrees_with_the_industrial_formulation(temperature: float) -> None:
    water = IAPWS97(P=PASCAL / 1e6, T=temperature + 273.15)
    assert read("density", temperature) == pytest.approx(water.rho, rel=5e-4)
    assert read("specific heat", temperature) == pytest.approx(water.cp * 1000, rel=1e-3)
    assert read("viscosity", temperature) == pytest.approx(water.mu, rel=6e-3)


@pytest.mark.parametrize("pascal", [1.5e5, 4e5])
@pytest.mark.parametrize("temperature", [5, 35, 65])
def test_the_pressure_of_a_heating_circuit_hardly_matters(temperature: int, pascal: float) -> None:
    at = ("T", temperature + 273.15, "P", pascal, "Water")
    assert read("density", temperature) == pytest.approx(PropsSI("D", *at), rel=5e-4)


@pytest.mark.parametrize("temperature", [-0.1, 100.1])
def test_nothing_is_read_beyond_liquid_water(temperature: float) -> None:
    table = Rulebook.built_in().scope.tables["water-properties"]
    assert table.read("density", [temperature + 273.15]).value is None
