"""Residual current devices against printed limits.

Guides to BS 7671 print 1667 ohm for 30 mA and 500 ohm for 100 mA as the greatest resistance of the
earth electrode; 300 mA and 500 mA follow from the same 50 V. Leakage in service up to 30 % of the
rated residual current is from memory.
"""

from __future__ import annotations

import pytest

from tundish import Verdict
from verdicts import verdict_of

PRINTED = [(30, 1667), (100, 500), (300, 166.7), (500, 100)]  # [mA], [ohm]


def behind_an_electrode(ohm: float, milliampere: float) -> dict[str, object]:
    circuit = {"serves": ["outdoor unit"], "residual_current": {"sensitivity": f"{milliampere} mA"}}
    supply = {"earthing": "TT", "earth_electrode": f"{ohm} ohm", "circuit": [circuit]}
    return {"electricity": supply}


@pytest.mark.parametrize(("milliampere", "ohm"), PRINTED)
def test_greatest_electrode_resistance(milliampere: float, ohm: float) -> None:
    # Printed figures are rounded to the nearest; the limit itself is 50 V.
    rule = "residual-current/earth-electrode-good-enough"
    assert verdict_of(rule, behind_an_electrode(0.9995 * ohm, milliampere)) is Verdict.MET
    assert verdict_of(rule, behind_an_electrode(1.0005 * ohm, milliampere)) is Verdict.BREACHED


def test_what_a_device_allows_may_still_not_be_steady() -> None:
    electrode = behind_an_electrode(1000, 30)
    assert verdict_of("residual-current/earth-electrode-good-enough", electrode) is Verdict.MET
    assert verdict_of("residual-current/earth-electrode-steady", electrode) is Verdict.BREACHED


@pytest.mark.parametrize(("milliampere", "leak"), [(30, 9), (100, 30), (300, 90)])
def test_leakage_in_service(milliampere: float, leak: float) -> None:
    for factor, expected in [(1.0, Verdict.MET), (1.01, Verdict.BREACHED)]:
        facts = behind_an_electrode(100, milliampere)
        facts["unit.electricity.leakage_current"] = f"{factor * leak} mA"
        assert verdict_of("residual-current/standing-leakage", facts) is expected
