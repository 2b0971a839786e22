"""Frost on the coil, against psychrolib's moist air and the heats of ice and water of IAPWS."""

from __future__ import annotations

import psychrolib
import pytest
from iapws import IAPWS95
from iapws._iapws import _Ice

from published.calculated import calculated

psychrolib.SetUnitSystem(psychrolib.SI)

MEGAPASCAL = 0.101325

# air [degC], humidity [%]: water left in g/kg of dry air when it leaves 7, 10 and 12 K colder
LEFT: dict[tuple[float, float], tuple[float, float, float]] = {
    (7, 87): (1.623, 2.461, 2.921),
    (5, 85): (1.392, 2.110, 2.503),
    (5, 60): (0.036, 0.754, 1.147),
    (2, 84): (1.185, 1.753, 2.062),
    (0, 90): (1.312, 1.795, 2.058),
    (-7, 75): (0.447, 0.717, 0.863),
    (-15, 75): (0.239, 0.373, 0.444),
}
STATES = [
    (air, cooling, left)
    for air, row in LEFT.items()
    for cooling, left in zip((7, 10, 12), row, strict=True)
]


def worked_out(
    quantity: str, air: tuple[float, float], cooling: float, power: float = 5.3, altitude: float = 0
) -> float:
    """Return a quantity of the rulebook for one state of the air [SI]."""
    value = calculated(
        quantity,
        {
            "site.damp_air_temperature": f"{air[0]} degC",
            "site.damp_air_humidity": f"{air[1]} %",
            "site.altitude": f"{altitude} m",
            "unit.air_cooling": f"{cooling} K",
            "unit.heat_from_air": f"{power} kW",
        },
    )
    assert isinstance(value, float)
    return value


def from_the_library(
    air: tuple[float, float], cooling: float, altitude: float
) -> tuple[float, float]:
    """Return water left [kg/kg] and heat given [J/kg] by air that leaves the coil saturated."""
    temperature, humidity = air
    pressure = psychrolib.GetStandardAtmPressure(altitude)
    leaving = temperature - cooling
    before = psychrolib.GetHumRatioFromRelHum(temperature, humidity / 100, pressure)
    behind = psychrolib.GetSatHumRatio(leaving, pressure)
    fall = psychrolib.GetMoistAirEnthalpy(temperature, before)
    fall -= psychrolib.GetMoistAirEnthalpy(leaving, behind)
    # Ice leaves the air, whose own enthalpy lies below that of the water it is counted from.
    ice = 1000 * (_Ice(leaving + 273.15, MEGAPASCAL)["h"] - water_at_freezing())
    return before - behind, fall - (before - behind) * ice


def water_at_freezing() -> float:
    """Return the enthalpy of water [kJ/kg] as it freezes."""
    return float(IAPWS95(T=273.16, P=MEGAPASCAL).h)


@pytest.mark.parametrize(("air", "cooling", "left"), STATES)
def test_water_left_on_the_coil_is_what_was_worked_out_apart(
    air: tuple[float, float], cooling: float, left: float
) -> None:
    assert worked_out("water_out_of_frosting_air", air, cooling) * 1000 == pytest.approx(
        left, abs=6e-4
    )


@pytest.mark.parametrize("altitude", [0, 800, 2000])
@pytest.mark.parametrize("air", LEFT)
def test_water_and_heat_agree_with_the_libraries(air: tuple[float, float], altitude: float) -> None:
    left, heat = from_the_library(air, 10, altitude)
    found = worked_out("water_out_of_frosting_air", air, 10, altitude=altitude)
    assert found == pytest.approx(left, rel=1e-5)
    given = worked_out("heat_out_of_frosting_air", air, 10, altitude=altitude)
    assert given == pytest.approx(heat, rel=1e-3)


@pytest.mark.parametrize(
    ("air", "cooling", "power", "rate"),
    [
        ((5, 85), 10, 6.6667, 3.14),
        ((2, 84), 7, 5.3, 2.16),
        ((0, 90), 10, 5.3, 2.25),
    ],
)
def test_frost_grows_as_worked_out_apart(
    air: tuple[float, float], cooling: float, power: float, rate: float
) -> None:
    assert worked_out("frost_rate", air, cooling, power) * 3600 == pytest.approx(rate, abs=0.006)


def test_air_through_the_coil_is_what_a_fan_of_such_a_unit_moves() -> None:
    # 10 kW at a coefficient of 3: 6.667 kW out of air of 5 degC take 0.414 kg/s, 1182 m3/h.
    heat = worked_out("heat_out_of_frosting_air", (5, 85), 10)
    mass_flow = 6666.7 / heat
    ratio = psychrolib.GetHumRatioFromRelHum(5, 0.85, 101325)
    volume = psychrolib.GetMoistAirVolume(5, ratio, 101325)
    assert mass_flow == pytest.approx(0.414, abs=1e-3)
    assert mass_flow * volume * 3600 == pytest.approx(1182, rel=2e-3)


def test_frost_for_the_same_heat_hardly_hangs_on_how_far_the_air_is_cooled() -> None:
    rates = [worked_out("frost_rate", (2, 84), cooling) for cooling in (7, 8, 9, 10, 11, 12)]
    assert max(rates) / min(rates) < 1.03


def test_frost_is_heaviest_near_freezing() -> None:
    # Of air as damp as it gets in winter; far below freezing it holds little water.
    rates = {air: worked_out("frost_rate", (air, 90), 10) for air in (-15, -7, 0, 2)}
    assert sorted(rates, key=lambda air: rates[air]) == [-15, -7, 0, 2]
    assert rates[-15] < rates[2] / 2


def test_freezing_gives_the_heat_of_melting() -> None:
    melting = water_at_freezing() - float(_Ice(273.15, MEGAPASCAL)["h"])
    assert calculated("heat_of_melting", {}) == pytest.approx(1000 * melting, rel=1e-3)


def test_condensate_at_the_mild_rating_point_agrees_with_the_library() -> None:
    # A7/W35 of an 8.4 kW unit that takes 1.8 kW: 6.6 kW out of air of 7 degC with a wet bulb of 6.
    pressure = 101325.0
    before = psychrolib.GetHumRatioFromTWetBulb(7, 6, pressure)
    behind = psychrolib.GetSatHumRatio(-3, pressure)
    fall = psychrolib.GetMoistAirEnthalpy(7, before) - psychrolib.GetMoistAirEnthalpy(-3, behind)
    given = {
        "unit.rating": [
            {"air": "7 degC", "flow": "35 degC", "output": "8.4 kW", "input": "1.8 kW"}
        ],
        "site.damp_air_humidity": "87 %",
        "site.altitude": "0 m",
        "unit.air_cooling": "10 K",
    }
    expected = 6600 / fall * (before - behind)
    assert calculated("condensation_rate", given) == pytest.approx(expected, rel=3e-3)
