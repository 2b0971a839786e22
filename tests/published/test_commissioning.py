"""Readings of a commissioning, against IAPWS-IF97, CoolProp, psychrolib and instrument errors."""

from __future__ import annotations

from collections.abc import Mapping

import psychrolib
import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI
from iapws import IAPWS97

from published.calculated import calculated
from published.circuits import glycol
from verdicts import verdict_of

psychrolib.SetUnitSystem(psychrolib.SI)

HEATS = [
    # kW, L/min, K, mean temperature [degC]: first law with IAPWS-IF97, worked out apart
    (5, 14.49, 5, 42.5),
    (8, 23.18, 5, 42.5),
    (16, 46.35, 5, 42.5),
    (6, 12.41, 7, 41.5),
    (10, 18.10, 8, 41.0),
    (12, 17.44, 10, 50.0),
]


def number(quantity: str, given: Mapping[str, object]) -> float:
    value = calculated(quantity, given)
    assert isinstance(value, float)
    return value


def water(litres: float, kelvin: float, mean: float) -> dict[str, object]:
    """Return readings of a flow [L/min] that cools by a difference [K] round a mean [degC]."""
    return {
        "readings.water.flow.heating": f"{litres} L/min",
        "readings.water.flow_temperature": f"{mean + kelvin / 2} degC",
        "readings.water.return_temperature": f"{mean - kelvin / 2} degC",
    }


@pytest.mark.parametrize(("kilowatts", "litres", "kelvin", "mean"), HEATS)
def test_heat_given_is_that_of_the_steam_tables(
    kilowatts: float, litres: float, kelvin: float, mean: float
) -> None:
    given = {"water.fluid": "water", **water(litres, kelvin, mean)}
    found = number("measured_heat_output", given)
    assert found == pytest.approx(kilowatts * 1000, rel=1e-3)
    # Another route: the flow's mass at the mean temperature, times the fall of its enthalpy.
    hot, cold, middle = (
        IAPWS97(P=0.2, T=mean + 273.15 + away) for away in (kelvin / 2, -kelvin / 2, 0)
    )
    assert found == pytest.approx(litres / 60 * middle.rho * (hot.h - cold.h), rel=1e-3)


@pytest.mark.parametrize(
    ("fluid", "solution", "percent", "litres"),
    [
        # 8 kW at 5 K round 42.5 degC, worked out apart with CoolProp
        ("ethylene glycol", "MEG", 25, 24.33),
        ("ethylene glycol", "MEG", 30, 24.70),
        ("propylene glycol", "MPG", 30, 24.22),
        ("propylene glycol", "MPG", 35, 24.55),
    ],
)
def test_glycol_carries_less_heat(fluid: str, solution: str, percent: float, litres: float) -> None:
    found = number("measured_heat_output", {**glycol(fluid, percent), **water(litres, 5, 42.5)})
    assert found == pytest.approx(8000, rel=1e-3)
    mixture = f"INCOMP::{solution}[{percent / 100}]"
    hot, cold = (PropsSI("H", "T", t + 273.15, "P", 2e5, mixture) for t in (45, 40))
    density = PropsSI("D", "T", 42.5 + 273.15, "P", 2e5, mixture)
    assert found == pytest.approx(litres / 60000 * density * (hot - cold), rel=2e-3)


def test_glycol_read_as_water_claims_heat_that_is_not_there() -> None:
    # The ratio of flows for the same heat, 30 % of propylene glycol by mass: 1.045.
    readings = water(24.22, 5, 42.5)
    as_water = number("measured_heat_output", {"water.fluid": "water", **readings})
    as_mixture = number("measured_heat_output", {**glycol("propylene glycol", 30), **readings})
    assert as_water / as_mixture == pytest.approx(1.045, abs=1e-3)


def rated(*points: tuple[float, float, float]) -> list[dict[str, str]]:
    return [
        {"air": f"{air} degC", "flow": f"{flow} degC", "output": f"{output} kW"}
        for air, flow, output in points
    ]


@pytest.mark.parametrize(("air", "expected"), [(-3.0, 7.489), (-2.2, 7.587), (2, 8.1)])
def test_rated_output_between_two_air_temperatures(air: float, expected: float) -> None:
    # Worked out apart: a straight line from 7.0 kW at -7 degC to 8.1 kW at 2 degC.
    given = {
        "unit.rating": rated((-7, 45, 7.0), (2, 45, 8.1)),
        "readings.air_temperature": f"{air} degC",
        "readings.water.flow_temperature": "45 degC",
    }
    assert number("rated_output_as_read", given) == pytest.approx(expected * 1000, abs=0.6)


@pytest.mark.parametrize(("air", "flow"), [(-4, 41), (0.5, 50), (1, 36.5)])
def test_rated_output_does_not_hang_on_which_temperature_is_read_first(
    air: float, flow: float
) -> None:
    corners = {(-7, 35): 7.4, (-7, 55): 6.8, (2, 35): 8.1, (2, 55): 7.3}
    cold, mild = (
        corners[a, 35] + (corners[a, 55] - corners[a, 35]) * (flow - 35) / 20 for a in (-7, 2)
    )
    given = {
        "unit.rating": rated(*((a, f, output) for (a, f), output in corners.items())),
        "readings.air_temperature": f"{air} degC",
        "readings.water.flow_temperature": f"{flow} degC",
    }
    expected = cold + (mild - cold) * (air + 7) / 9
    assert number("rated_output_as_read", given) == pytest.approx(expected * 1000, rel=1e-9)


HONEST = {"error of the flow": 0.95, "error of the difference": 4.7 / 5}


@pytest.mark.parametrize(
    ("share", "expected"),
    [
        # Both meters at the edge of their classes, from memory: 5 % of flow, 0.3 K of 5 K.
        (HONEST["error of the flow"] * HONEST["error of the difference"], "met"),
        # A quarter of the heat gone, and both meters too kind.
        (0.75 / (HONEST["error of the flow"] * HONEST["error of the difference"]), "breached"),
    ],
)
def test_errors_of_honest_instruments_breach_nothing_and_hide_nothing_large(
    share: float, expected: str
) -> None:
    given = {
        "unit.rating": rated((2, 45, 8.0), (7, 45, 9.0)),
        "readings.air_temperature": "2 degC",
        "readings.at_full_power": True,
        "water.fluid": "water",
        **water(23.18 * share, 5, 42.5),
        "readings.water.flow_temperature": "45 degC",
    }
    assert verdict_of("commissioning/heat-as-rated", given) == expected


@pytest.mark.parametrize("air", [-15, -7, 2, 7, 15])
@pytest.mark.parametrize("altitude", [0, 800, 1800])
def test_density_of_air_agrees_with_two_libraries(air: float, altitude: float) -> None:
    given = {"readings.air_in": f"{air} degC", "site.altitude": f"{altitude} m"}
    found = number("air_density_as_read", given)
    pressure = psychrolib.GetStandardAtmPressure(altitude)
    assert found == pytest.approx(psychrolib.GetDryAirDensity(air, pressure), rel=1e-3)
    real_gas = PropsSI("D", "T", air + 273.15, "P", pressure, "Air")
    assert found == pytest.approx(real_gas, rel=2e-3)


def cooling(air: float, heat: float, power: float, flow: float) -> float:
    """Return the cooling of dry air [K] by the rulebook; heat, power [W], flow [m3/h]."""
    return number(
        "air_cooling_if_dry",
        {
            "readings.air_in": f"{air} degC",
            "site.altitude": "0 m",
            "unit.air_flow": f"{flow} m3/h",
            "readings.heat_output": f"{heat} W",
            "readings.electricity.power": f"{power} W",
        },
    )


@pytest.mark.parametrize(
    ("air", "heat", "power", "flow"), [(7, 8000, 2000, 3000), (-7, 7000, 2600, 3400)]
)
def test_dry_air_that_leaves_so_cold_has_given_the_heat(
    air: float, heat: float, power: float, flow: float
) -> None:
    leaving = air - cooling(air, heat, power, flow)
    mass_flow = psychrolib.GetDryAirDensity(air, 101325) * flow / 3600
    fall = psychrolib.GetDryAirEnthalpy(air) - psychrolib.GetDryAirEnthalpy(leaving)
    assert mass_flow * fall == pytest.approx(heat - power, rel=2e-3)


@pytest.mark.parametrize(
    ("air", "humidity", "drop"), [(7, 0.87, 7.0), (5, 0.85, 10.0), (2, 0.84, 7.0)]
)
def test_damp_air_cools_less_than_the_bound(air: float, humidity: float, drop: float) -> None:
    # Air that leaves saturated after a true drop; the bound worked out from the heat it gave.
    at = ("T", air + 273.15, "R", humidity, "P", 101325)
    behind = ("T", air - drop + 273.15, "R", 1.0, "P", 101325)
    heat = (HAPropsSI("H", *at) - HAPropsSI("H", *behind)) / HAPropsSI("V", *at)
    bound = cooling(air, heat * 3000 / 3600 + 2000, 2000, 3000)
    assert drop < bound < 2 * drop


def test_half_of_the_air_is_found_out_in_dry_winter_air() -> None:
    # At -7 degC and 75 % psychrolib leaves little to the water: the drop is nearly that of dry air.
    before = psychrolib.GetHumRatioFromRelHum(-7, 0.75, 101325)
    enthalpy = psychrolib.GetMoistAirEnthalpy(-7, before)
    heat, flow = 4400.0, 3000.0
    mass_flow = psychrolib.GetDryAirDensity(-7, 101325) * flow / 2 / 3600
    low, high = -40.0, -7.0
    for _ in range(60):
        leaving = (low + high) / 2
        left = min(before, psychrolib.GetSatHumRatio(leaving, 101325))
        given_up = mass_flow * (enthalpy - psychrolib.GetMoistAirEnthalpy(leaving, left))
        low, high = (low, leaving) if given_up < heat else (leaving, high)
    readings = {
        "unit.heat_source": "outdoor air",
        "unit.air_flow": f"{flow} m3/h",
        "site.altitude": "0 m",
        "readings.at_full_power": True,
        "readings.heat_output": "7 kW",
        "readings.electricity.power": "2.6 kW",
        "readings.air_in": "-7 degC",
    }
    found = verdict_of(
        "commissioning/air-flow-arrives", {**readings, "readings.air_out": f"{low} degC"}
    )
    assert found == "breached"
    whole = -7 - (-7 - low) / 2
    found = verdict_of(
        "commissioning/air-flow-arrives", {**readings, "readings.air_out": f"{whole} degC"}
    )
    assert found == "met"
