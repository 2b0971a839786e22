"""The table of glycol solutions against CoolProp between its rows."""

from __future__ import annotations

import pytest

from published.calculated import calculated
from tables import glycol_properties
from tundish import Rulebook

BETWEEN_ROWS = [
    (fluid, fraction, temperature)
    for fluid in glycol_properties.SOLUTIONS
    for fraction in (10, 12.5, 17, 28, 33, 42.5, 50)
    for temperature in (0, 3, 10, 27, 35, 50, 70, 80)
]


@pytest.mark.parametrize(("fluid", "fraction", "temperature"), BETWEEN_ROWS)
def test_reading_between_rows_stays_with_the_library(
    fluid: str, fraction: float, temperature: float
) -> None:
    table = Rulebook.built_in().plain_tables["glycol-properties"]
    keys = [fluid, fraction / 100, temperature + 273.15]
    density, specific_heat = glycol_properties.properties(fluid, fraction, temperature)
    assert table.read("density", keys).value == pytest.approx(density, rel=6e-4)
    assert table.read("specific heat", keys).value == pytest.approx(specific_heat * 1000, rel=6e-4)


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
