"""The table of glycol solutions against CoolProp between its rows."""

from __future__ import annotations

import pytest

from published.calculated import calculated
from tables import glycol_properties
from tundish import Rulebook

BETWEEN_ROWS = [
    (fluid, fraction, temperature)
    for fluid in glycol_properties.SOLUTIONS
    for fraction in (1, 5, 7.5, 12.5, 17, 28, 33, 42.5, 50, 53)
    for temperature in (-18.7, -8.75, -3.75, -1, 0, 2.5, 7, 12.5, 27, 35, 42.5, 50, 57.5, 77.5, 80)
]


def read(column: str, fluid: str, fraction: float, temperature: float) -> object:
    table = Rulebook.built_in().scope.tables["glycol-properties"]
    return table.read(column, [fluid, fraction / 100, temperature + 273.15]).value


@pytest.mark.parametrize(("fluid", "fraction", "temperature"), BETWEEN_ROWS)
def test_reading_between_rows_stays_with_the_library(
    fluid: str, fraction: float, temperature: float
) -> None:
    weaker = fraction // 5 * 5  # the row below: nothing is read colder than its freezing point
    if temperature < glycol_properties.freezing_point(fluid, weaker):
        assert read("density", fluid, fraction, temperature) is None
        return
    at = (fluid, fraction, temperature)
    density, specific_heat, viscosity = glycol_properties.properties(*at)
    assert read("density", *at) == pytest.approx(density, rel=1e-3)
    assert read("specific heat", *at) == pytest.approx(specific_heat * 1000, rel=1e-3)
    assert read("viscosity", *at) == pytest.approx(viscosity / 1000, rel=2e-2)


@pytest.mark.parametrize(
    ("fluid", "fraction", "temperature"),
    [
        ("propylene glycol", 30, -12.8),  # ice from -12.79 degC
        ("ethylene glycol", 10, -3.4),
        ("ethylene glycol", 50, -20.1),
        ("propylene glycol", 55.1, 20),
        ("propylene glycol", 30, 80.1),
    ],
)
def test_nothing_is_read_of_ice_or_beyond_the_rows(
    fluid: str, fraction: float, temperature: float
) -> None:
    assert read("viscosity", fluid, fraction, temperature) is None


@pytest.mark.parametrize(
    ("fluid", "temperature", "density", "specific_heat", "viscosity"),
    [
        # CoolProp's figures, worked out apart from this project's scripts.
        ("ethylene glycol", 5, 1043.5, 3673, 3.559),
        ("ethylene glycol", 45, 1026.2, 3789, 1.153),
        ("propylene glycol", 20, 1023.8, 3857, 2.965),
        ("propylene glycol", 55, 1004.4, 3950, 1.101),
    ],
)
def test_thirty_percent_by_mass_has_the_known_properties(
    fluid: str, temperature: float, density: float, specific_heat: float, viscosity: float
) -> None:
    at = (fluid, 30, temperature)
    assert read("density", *at) == pytest.approx(density, abs=0.06)
    assert read("specific heat", *at) == pytest.approx(specific_heat, abs=0.6)
    assert read("viscosity", *at) == pytest.approx(viscosity / 1000, abs=6e-7)


def test_the_file_is_what_the_script_writes() -> None:
    assert glycol_properties.TABLE.read_text(encoding="utf-8") == glycol_properties.table_text()


@pytest.mark.parametrize(
    ("fluid", "by_volume", "by_mass"),
    [
        ("ethylene glycol", 20, 21.80),
        ("ethylene glycol", 30, 32.33),
        ("ethylene glycol", 50, 52.72),
        ("propylene glycol", 20, 20.60),
        ("propylene glycol", 30, 30.79),
        ("propylene glycol", 50, 50.93),
    ],
)
def test_a_share_by_volume_becomes_one_by_mass(
    fluid: str, by_volume: float, by_mass: float
) -> None:
    glycol = {"fraction": f"{by_volume} %", "by": "volume"}
    given = {"water.fluid": fluid, "water.frost.glycol": glycol}
    assert calculated("glycol_share_by_mass", given) == pytest.approx(by_mass / 100, abs=5e-5)
