"""Computes rules/tables/water-properties.toml anew from IAPWS-95.

Run it after a change of range or spacing: ``python tests/tables/water_properties.py``.
tests/published/test_water_properties.py holds the file to what this computes.
"""

from __future__ import annotations

from pathlib import Path

from iapws import IAPWS95

TABLE = Path(__file__).parents[2] / "rules" / "tables" / "water-properties.toml"

PRESSURE = 0.2
"""Absolute pressure [MPa], 1 bar on the gauge; a heating circuit's own range changes little."""

TEMPERATURES = range(0, 101, 5)
"""Rows [degC]; at 5 K apart, linear reading stays within 0.02 % of the formulation, of viscosity
within 0.6 %."""

HEAD = """\
# Computed by tests/tables/water_properties.py; change that, not this.
title    = "Density, specific heat and viscosity of water at 2 bar absolute"
keys     = [{ name = "temperature", unit = "degC", read = "linear" }]
cite     = [{ source = "iapws-r6-95" }, { source = "iapws-r12-08" }]
reviewed = 2026-11-25

gives = [
  { name = "density", unit = "kg/m3" },
  { name = "specific heat", unit = "kJ/(kg.K)" },
  { name = "viscosity", unit = "mPa.s" },
]

rows = [
"""


def properties(temperature: float) -> tuple[float, float, float]:
    """Return what the formulations give for liquid water.

    Args:
        temperature: Temperature [degC], 0 to 100.

    Returns:
        Density [kg/m3], specific heat at constant pressure [kJ/(kg.K)] and dynamic
        viscosity [mPa.s].
    """
    water = IAPWS95(P=PRESSURE, T=temperature + 273.15)
    return water.rho, water.cp, water.mu * 1000


def table_text() -> str:
    """Return the whole table file."""
    rows = []
    for temperature in TEMPERATURES:
        density, specific_heat, viscosity = properties(temperature)
        rows.append(
            f"  [{temperature:3d}, {density:7.2f}, {specific_heat:.4f}, {viscosity:.4f}],\n"
        )
    return HEAD + "".join(rows) + "]\n"


if __name__ == "__main__":
    TABLE.write_text(table_text(), encoding="utf-8")
