"""Limits and claims of the rules on controls and second heat sources, against climates and cycles.

The hours of the average climate of EN 14825 and its rating of the load are from memory.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97

from verdicts import verdict_of

HOURS = dict(
    zip(
        range(-10, 16),
        (
            *(1, 25, 23, 24, 27, 68, 91, 89, 165, 173, 240, 280, 320),
            *(357, 356, 303, 330, 326, 348, 335, 315, 215, 169, 151, 105, 74),
        ),
        strict=True,
    )
)
"""Hours of a heating season by outdoor air [degC], average climate."""

NO_HEATING = 16
DESIGN = -10


def warmest(rule: str, fact: str, given: Mapping[str, object]) -> int:
    """Return the warmest whole degree that a rule lets pass."""
    passed = [t for t in range(-15, 16) if verdict_of(rule, {**given, fact: f"{t} degC"}) == "met"]
    return max(passed)


def share_at_most(limit: float) -> float:
    """Return the share of the season's heat that is needed at a temperature and below."""
    heat = {air: hours * (NO_HEATING - air) for air, hours in HOURS.items()}
    return sum(part for air, part in heat.items() if air <= limit) / sum(heat.values())


def load_share(air: float) -> float:
    """Return the load at an outdoor temperature as a share of that at the design temperature."""
    return (air - NO_HEATING) / (DESIGN - NO_HEATING)


def test_hours_of_the_climate_add_up_as_the_standard_says() -> None:
    assert sum(HOURS.values()) == 4910


def test_a_boiler_that_takes_over_at_the_limit_does_two_thirds_of_the_work() -> None:
    limit = warmest(
        "second-heat-source/unit-does-most-of-the-work",
        "controls.second_heat_source.changes_over_at",
        {
            "controls.second_heat_source.kind": "gas boiler",
            "controls.second_heat_source.connection": "in series",
            "controls.second_heat_source.running": "one at a time",
        },
    )
    assert share_at_most(limit) == pytest.approx(2 / 3, abs=0.05)
    # In the usual range of changeover, -5 to 0 degC, it does less than a third.
    assert share_at_most(-5) < 0.1
    assert share_at_most(0) < 1 / 3


def test_a_heater_locked_at_the_limit_leaves_less_than_half_of_the_load_to_the_unit() -> None:
    limit = warmest(
        "controls/heater-locked-in-mild-weather",
        "controls.heater_locked_above",
        {"unit.electricity.backup_heater.fitted": True},
    )
    # EN 14825: load by (outdoor air - 16) / (design - 16); 2 degC 53.8 %, 7 degC 34.6 %.
    assert pytest.approx(0.538, abs=5e-4) == (2 - NO_HEATING) / (DESIGN - NO_HEATING)
    assert (limit - NO_HEATING) / (DESIGN - NO_HEATING) < 0.5


def performance(refrigerant: str, air: float, flow: float) -> float:
    """Return the coefficient of performance of a plain cycle.

    Evaporation 8 K below the air, 5 K of superheat, condensation 2 K above the flow, 3 K of
    subcooling, compression with an efficiency of 0.7.
    """
    cold, hot = air - 8 + 273.15, flow + 2 + 273.15
    low, high = (PropsSI("P", "T", t, "Q", 1, refrigerant) for t in (cold, hot))
    drawn = PropsSI("H", "T", cold + 5, "P", low, refrigerant)
    entropy = PropsSI("S", "T", cold + 5, "P", low, refrigerant)
    ideal = PropsSI("H", "P", high, "S", entropy, refrigerant)
    discharged = drawn + (ideal - drawn) / 0.7
    liquid = PropsSI("H", "T", hot - 3, "P", high, refrigerant)
    return float((discharged - liquid) / (discharged - drawn))


@pytest.mark.parametrize("refrigerant", ["R290", "R32"])
@pytest.mark.parametrize("air", [-7, 2, 7])
@pytest.mark.parametrize("flow", [35, 45, 55])
def test_a_kelvin_of_flow_temperature_costs_about_two_percent(
    refrigerant: str, air: float, flow: float
) -> None:
    cost = performance(refrigerant, air, flow) / performance(refrigerant, air, flow + 1) - 1
    assert 0.014 < cost < 0.027


@pytest.mark.parametrize("refrigerant", ["R290", "R32"])
def test_excess_that_the_curve_may_have_costs_a_tenth_at_most(refrigerant: str) -> None:
    def ends_at(degrees: float) -> str:
        given = {
            "water.flow_temperature": "45 degC",
            "controls.weather_compensation.highest_flow": f"{degrees} degC",
        }
        return verdict_of("controls/curve-not-needlessly-hot", given)

    excess = max(k for k in range(16) if ends_at(45 + k) == "met")
    cost = performance(refrigerant, 2, 45) / performance(refrigerant, 2, 45 + excess) - 1
    assert 0.08 < cost < 0.115


@pytest.mark.parametrize("refrigerant", ["R290", "R32"])
def test_an_electric_heater_in_mild_weather_takes_three_to_five_times_as_much(
    refrigerant: str,
) -> None:
    for flow in (35, 45, 55):
        assert 3 < performance(refrigerant, 5, flow) < 5


def test_a_stove_without_circulation_boils_within_a_quarter_of_an_hour() -> None:
    # 30 L in a stove that gives the water 10 kW, from 70 degC to boiling at 1.5 bar gauge.
    cold = IAPWS97(P=0.25, T=70 + 273.15)
    boiling = IAPWS97(P=0.25, x=0)
    minutes = 0.030 * cold.rho * (boiling.h - cold.h) / 10 / 60
    assert pytest.approx(127.4, abs=0.1) == boiling.T - 273.15
    assert 5 < minutes < 15
