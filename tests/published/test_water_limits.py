"""Limits of pH, oxygen and drinking water, against the figures of their sources.

VDI 2035: pH 8.2 to 10.0, to 9.0 with aluminium; oxygen 0.1 mg/L in water poor in salt (up to 100
uS/cm), 0.02 mg/L in water with salt (up to 1500 uS/cm); from memory. Directive (EU) 2020/2184:
chloride 250 mg/L, iron 0.2 mg/L; from memory. A neutral pH of pure water comes from iapws.
"""

from __future__ import annotations

import math

import iapws
import pytest
from iapws._iapws import _Kw

from published.calculated import calculated
from tundish.findings.finding import Verdict
from verdicts import verdict_of


@pytest.mark.parametrize(
    ("metals", "highest"), [(["steel", "copper"], 10.0), (["steel", "aluminium"], 9.0)]
)
def test_highest_ph_by_metals(metals: list[str], highest: float) -> None:
    assert calculated("highest_usual_ph", {"water.metals": metals}) == pytest.approx(highest)


def test_no_water_may_be_sour_and_untreated_water_must_be_alkaline() -> None:
    # pH is stated at 25 degC: neutral is half of the exponent of the ion product.
    neutral = _Kw(iapws.IAPWS97(T=298.15, P=0.101325).rho, 298.15) / 2
    assert neutral == pytest.approx(7.0, abs=0.01)
    untreated = calculated("lowest_usual_ph", {"water.treatment": []})
    inhibited = calculated("lowest_usual_ph", {"water.treatment": ["inhibitor"]})
    assert isinstance(untreated, float) and isinstance(inhibited, float)
    assert inhibited >= math.floor(neutral * 10) / 10 and untreated > neutral + 1


@pytest.mark.parametrize(
    ("conductivity", "milligrams"),
    [("10 uS/cm", 0.1), ("100 uS/cm", 0.1), ("100.1 uS/cm", 0.02), ("1500 uS/cm", 0.02)],
)
def test_oxygen_by_conductivity(conductivity: str, milligrams: float) -> None:
    found = calculated("highest_oxygen", {"readings.water.conductivity": conductivity})
    assert found == pytest.approx(milligrams / 1000)  # 1 mg/L = 0.001 kg/m3


def test_oxygen_in_saltier_water_is_not_answered() -> None:
    assert calculated("highest_oxygen", {"readings.water.conductivity": "1501 uS/cm"}) is None


@pytest.mark.parametrize(
    ("rule", "fact", "limit"),
    [
        ("water-quality/well-chloride", "chloride", 250.0),
        ("water-quality/well-iron", "iron", 0.2),
    ],
)
def test_water_from_a_well_is_held_to_the_limits_of_drinking_water(
    rule: str, fact: str, limit: float
) -> None:
    for share, verdict in ((1.0, Verdict.MET), (1.001, Verdict.BREACHED)):
        given = {
            "job.stage": "commissioning",
            "water.filling": {"source": "well", fact: f"{limit * share} mg/L"},
        }
        assert verdict_of(rule, given) is verdict
