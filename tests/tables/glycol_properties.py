"""Computes rules/tables/glycol-properties.toml anew from CoolProp's incompressible solutions.

Run it after a change of range or spacing: ``python tests/tables/glycol_properties.py``.
tests/published/test_glycol_properties.py holds the file to what this computes.
"""

from __future__ import annotations

from math import ceil
from pathlib import Path

from CoolProp.CoolProp import PropsSI

TABLE = Path(__file__).parents[2] / "rules" / "tables" / "glycol-properties.toml"

PRESSURE = 2e5
"""Absolute pressure [Pa], 1 bar on the gauge."""

SOLUTIONS = {"propylene glycol": "MPG", "ethylene glycol": "MEG"}
"""The fluids of a job, with the name each solution has in CoolProp."""

FRACTIONS = range(0, 56, 5)
TEMPERATURES = (-20, -17.5, -15, -12.5, -10, -7.5, -5, -2.5, *range(0, 81, 5))
"""Rows [mass %] and [degC], closer together where the mixture is cold and thick; so close that
linear reading stays within 0.1 % for density and specific heat and 2 % for viscosity. The first
row of each share is its freezing point, so that nothing is read of ice."""

HEAD = """\
# Computed by tests/tables/glycol_properties.py; change that, not this. No row lies below freezing.
title    = "Density, specific heat and viscosity of glycol in water, at 2 bar, without inhibitor"
cite     = [{ source = "coolprop", at = "incompressible solutions MEG and MPG" }]
reviewed = 2026-11-25

keys = [
  { name = "fluid" },
  { name = "mass fraction", unit = "%", read = "linear" },
  { name = "temperature", unit = "degC", read = "linear" },
]

gives = [
  { name = "density", unit = "kg/m3" },
  { name = "specific heat", unit = "kJ/(kg.K)" },
  { name = "viscosity", unit = "mPa.s" },
]

rows = [
"""


def freezing_point(fluid: str, fraction: float) -> float:
    """Return where the rows of a share begin.

    Args:
        fluid: Name of the glycol, as a job has it.
        fraction: Glycol by mass [%].

    Returns:
        Freezing point [degC], rounded to the warmer side; of plain water 0.
    """
    solution = f"INCOMP::{SOLUTIONS[fluid]}[{fraction / 100}]"
    # The freezing point hangs on neither temperature nor pressure; CoolProp asks for both.
    point = float(PropsSI("T_FREEZE", "T", 300, "P", PRESSURE, solution)) - 273.15
    return ceil(point * 100) / 100 if fraction else 0.0


def temperatures(fluid: str, fraction: float) -> list[float]:
    """Return the rows of a share.

    Args:
        fluid: Name of the glycol, as a job has it.
        fraction: Glycol by mass [%].

    Returns:
        Temperatures [degC] from the freezing point, or -20 if that is lower, to 80.
    """
    coldest = max(freezing_point(fluid, fraction), TEMPERATURES[0])
    return [coldest, *(step for step in TEMPERATURES if step > coldest)]


def properties(fluid: str, fraction: float, temperature: float) -> tuple[float, float, float]:
    """Return what CoolProp gives for a solution.

    Args:
        fluid: Name of the glycol, as a job has it.
        fraction: Glycol by mass [%].
        temperature: Temperature [degC].

    Returns:
        Density [kg/m3], specific heat at constant pressure [kJ/(kg.K)] and dynamic
        viscosity [mPa.s].
    """
    solution = f"INCOMP::{SOLUTIONS[fluid]}[{fraction / 100}]"
    # The fitted curve freezes plain water 0.0003 K above 0 degC, and refuses what is colder.
    kelvin = temperature + 273.15 if fraction or temperature else 273.1503
    at = ("T", kelvin, "P", PRESSURE, solution)
    return PropsSI("D", *at), PropsSI("C", *at) / 1000, PropsSI("V", *at) * 1000


def table_text() -> str:
    """Return the whole table file."""
    rows = []
    for fluid in SOLUTIONS:
        for fraction in FRACTIONS:
            for temperature in temperatures(fluid, fraction):
                density, specific_heat, viscosity = properties(fluid, fraction, temperature)
                keys = f'"{fluid}", {fraction:2d}, {temperature:6.2f}'
                rows.append(f"  [{keys}, {density:7.2f}, {specific_heat:.4f}, {viscosity:7.4f}],\n")
    return HEAD + "".join(rows) + "]\n"


if __name__ == "__main__":
    TABLE.write_text(table_text(), encoding="utf-8")
