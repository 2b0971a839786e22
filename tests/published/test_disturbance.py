"""Voltage changes and short-circuit power, against the standards' figures and plain arithmetic.

IEC 61000-3-3 limits steady changes to 3.3 %. Its reference impedance (0.24 + j 0.15 ohm for a line,
0.16 + j 0.10 ohm for the neutral), the least short-circuit ratio 33 of IEC 61000-3-12 and the
definition of the ratio are from memory.
"""

from __future__ import annotations

import pytest

from published.calculated import calculated
from tundish.findings.finding import Verdict
from verdicts import verdict_of

LINE = complex(0.24, 0.15)  # [ohm]
NEUTRAL = complex(0.16, 0.10)  # [ohm]
REFERENCE = abs(LINE + NEUTRAL)  # [ohm]


def single_phase(amperes: float, ohms: float = REFERENCE) -> dict[str, object]:
    supply = {"phases": 1, "supply_impedance": f"{ohms:.12f} ohm"}
    return {"electricity": supply, "unit.electricity.highest_current": f"{amperes} A"}


def test_the_reference_impedance_has_the_modulus_that_the_trade_quotes() -> None:
    assert pytest.approx(0.4717, abs=0.00005) == REFERENCE


@pytest.mark.parametrize(("amperes", "percent"), [(10, 2.05), (16, 3.28), (20, 4.10)])
def test_steps_of_current_on_the_reference_impedance(amperes: float, percent: float) -> None:
    found = calculated("running_change", single_phase(amperes))
    assert found == pytest.approx(percent / 100, abs=0.00005)


def test_a_step_in_phase_is_never_smaller_than_the_true_one() -> None:
    for factor in (0.6, 0.8, 0.9, 1.0):
        current = 16 * complex(factor, -((1 - factor**2) ** 0.5))
        true_change = (230 - abs(230 - current * (LINE + NEUTRAL))) / 230
        found = calculated("running_change", single_phase(16))
        assert isinstance(found, float)
        assert found >= true_change


@pytest.mark.parametrize(("amperes", "verdict"), [(16.08, Verdict.MET), (16.10, Verdict.BREACHED)])
def test_a_compressor_of_fixed_speed_meets_the_limit_up_to_16_amperes(
    amperes: float, verdict: Verdict
) -> None:
    job = {**single_phase(amperes), "unit.compressor": "fixed speed"}
    assert verdict_of("network-operator/fixed-speed-voltage-change", job) is verdict


def test_a_single_phase_load_sees_the_neutral_and_a_three_phase_one_does_not() -> None:
    supply = {
        "phases": 3,
        "supply_impedance": f"{REFERENCE:.12f} ohm",
        "line_impedance": f"{abs(LINE):.12f} ohm",
    }
    for phases, ohms in ((1, REFERENCE), (3, abs(LINE))):
        unit = {"phases": phases, "highest_current": "16 A"}
        given = {"electricity": supply, "unit.electricity": unit}
        assert calculated("running_change", given) == pytest.approx(16 * ohms / 230)


@pytest.mark.parametrize(("phases", "power", "ohms"), [(1, 455.4, 0.351), (3, 457.3, 0.350)])
def test_20_amperes_count_on_a_short_circuit_ratio_of_33(
    phases: int, power: float, ohms: float
) -> None:
    unit = {"phases": phases, "highest_current": "20 A"}
    given = {"electricity.phases": phases, "unit.electricity": unit}
    needed = calculated("usual_short_circuit_power", given)
    assert isinstance(needed, float)
    assert needed == pytest.approx(power * 1e3, rel=0.0002)
    assert 400**2 / needed == pytest.approx(ohms, abs=0.0005)
    # The same impedance the other way round: a line of it gives just that power.
    line = {"electricity": {"phases": phases, "line_impedance": f"{400**2 / needed:.12f} ohm"}}
    assert calculated("stated_short_circuit_power", line) == pytest.approx(needed)


def test_line_and_neutral_together_never_overstate_the_short_circuit_power() -> None:
    sure = calculated("sure_short_circuit_power", single_phase(20))
    true_power = 400**2 / abs(LINE)
    assert isinstance(sure, float)
    assert sure < true_power
    assert calculated("stated_short_circuit_power", single_phase(20)) is None


def test_the_earth_loop_of_a_sheathed_service_is_not_taken_for_its_neutral() -> None:
    for earthing, found in (("TN-C-S", 0.35), ("TN-S", None), ("TT", None)):
        given = {"electricity": {"earthing": earthing, "external_loop_impedance": "0.35 ohm"}}
        assert calculated("neutral_impedance", given) == found
