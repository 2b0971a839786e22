"""Computes rules/tables/glycol-freezing.toml anew from CoolProp's incompressible solutions.

Run it after a change of range or spacing: ``python tests/tables/glycol_freezing.py``.
tests/published/test_glycol_freezing.py holds the file to what this computes.
"""

from __future__ import annotations

from math import ceil
from pathlib import Path

from CoolProp.CoolProp import PropsSI

TABLE = Path(__file__).parents[2] / "rules" / "tables" / "glycol-freezing.toml"

SOLUTIONS = {"propylene glycol": "MPG", "ethylene glycol": "MEG"}
"""The fluids of a job, with the name each solution has in CoolProp."""

FRACTIONS = range(0, 53, 2)
"""Rows [mass %]; at 2 % apart, linear reading stays within 0.03 K. Printed tables end at 51 %."""

HEAD = """\
# Computed by tests/tables/glycol_freezing.py; change that, not this. Rounded to the warmer side.
title    = "Freezing point of glycol in water, without inhibitor"
keys     = [{ name = "fluid" }, { name = "mass fraction", unit = "%", read = "linear" }]
gives    = [{ name = "freezing point", unit = "degC" }]
cite     = [{ source = "coolprop", at = "incompressible solutions MEG and MPG" }]
reviewed = 2026-11-25

rows = [
"""


def freezing_point(fluid: str, fraction: float) -> float:
    """Return at what temperature a solution begins to freeze.

    Args:
        fluid: Name of the glycol, as a job has it.
        fraction: Glycol by mass [%], 0 to 60.

    Returns:
        Freezing point [degC].
    """
    solution = f"INCOMP::{SOLUTIONS[fluid]}[{fraction / 100}]"
    # The freezing point hangs on neither temperature nor pressure; CoolProp asks for both.
    return float(PropsSI("T_FREEZE", "T", 300, "P", 2e5, solution)) - 273.15


def table_text() -> str:
    """Return the whole table file."""
    rows = []
    for fluid in SOLUTIONS:
        for fraction in FRACTIONS:
            # The fitted curve misses the freezing point of water itself by a few hundredths.
            point = ceil(freezing_point(fluid, fraction) * 100) / 100 if fraction else 0.0
            rows.append(f'  ["{fluid}", {fraction:2d}, {point:6.2f}],\n')
    return HEAD + "".join(rows) + "]\n"


if __name__ == "__main__":
    TABLE.write_text(table_text(), encoding="utf-8")
