"""Computes rules/tables/glycol-properties.toml anew from CoolProp's incompressible solutions.

Run it after a change of range or spacing: ``python tests/tables/glycol_properties.py``.
tests/published/test_glycol_properties.py holds the file to what this computes.
"""

from __future__ import annotations

from pathlib import Path

from CoolProp.CoolProp import PropsSI

TABLE = Path(__file__).parents[2] / "rules" / "tables" / "glycol-properties.toml"

PRESSURE = 2e5
"""Absolute pressure [Pa], 1 bar on the gauge."""

SOLUTIONS = {"propylene glycol": "MPG", "ethylene glycol": "MEG"}
"""The fluids of a job, with the name each solution has in CoolProp."""

FRACTIONS = range(10, 51, 5)
TEMPERATURES = range(0, 81, 20)
"""Rows [mass %] and [degC]; so close that linear reading stays within 0.06 %."""

HEAD = """\
# Computed by tests/tables/glycol_properties.py; change that, not this.
title    = "Density and specific heat of glycol in water, without inhibitor, at 2 bar absolute"
gives    = [{ name = "density", unit = "kg/m3" }, { name = "specific heat", unit = "kJ/(kg.K)" }]
cite     = [{ source = "coolprop", at = "incompressible solutions MEG and MPG" }]
reviewed = 2026-11-25

keys = [
  { name = "fluid" },
  { name = "mass fraction", unit = "%", read = "linear" },
  { name = "temperature", unit = "degC", read = "linear" },
]

rows = [
"""


def properties(fluid: str, fraction: float, temperature: float) -> tuple[float, float]:
    """Return what CoolProp gives for a solution.

    Args:
        fluid: Name of the glycol, as a job has it.
        fraction: Glycol by mass [%].
        temperature: Temperature [degC].

    Returns:
        Density [kg/m3] and specific heat at constant pressure [kJ/(kg.K)].
    """
    solution = f"INCOMP::{SOLUTIONS[fluid]}[{fraction / 100}]"
    at = ("T", temperature + 273.15, "P", PRESSURE, solution)
    return PropsSI("D", *at), PropsSI("C", *at) / 1000


def table_text() -> str:
    """Return the whole table file."""
    rows = []
    for fluid in SOLUTIONS:
        for fraction in FRACTIONS:
            for temperature in TEMPERATURES:
                density, specific_heat = properties(fluid, fraction, temperature)
                cells = f'"{fluid}", {fraction}, {temperature:2d}, {density:7.2f}'
                rows.append(f"  [{cells}, {specific_heat:.4f}],\n")
    return HEAD + "".join(rows) + "]\n"


if __name__ == "__main__":
    TABLE.write_text(table_text(), encoding="utf-8")
