"""Moist air against psychrolib, an independent library that follows the ASHRAE Handbook.

The rating points of EN 14511 (from memory) pair each air temperature with a wet bulb; the humidity
that goes with it is worked out apart.
"""

from __future__ import annotations

import psychrolib
import pytest

from tundish.physics.moist_air import (
    ZERO_CELSIUS,
    air_enthalpy,
    air_pressure,
    dew_point,
    humidity_ratio,
    saturation_pressure,
    wet_bulb,
)

psychrolib.SetUnitSystem(psychrolib.SI)

SEA_LEVEL = 101325.0

# air [degC], humidity: humidity ratio [g/kg], dew point, wet bulb [degC], worked out apart
STATES: dict[tuple[float, float], tuple[float, float, float]] = {
    (7, 0.87): (5.397, 4.99, 6.01),
    (5, 0.85): (4.586, 2.69, 3.95),
    (5, 0.60): (3.230, -1.87, 2.12),
    (2, 0.84): (3.661, -0.37, 1.01),
    (0, 0.90): (3.395, -1.27, -0.57),
    (-7, 0.75): (1.561, -10.27, -7.98),
    (-15, 0.75): (0.762, -18.08, -15.57),
}
GRID = [
    (temperature, humidity, altitude)
    for temperature in (-25, -10, -1, 0.005, 0.5, 2, 10, 26, 35)
    for humidity in (0.1, 0.5, 0.8, 1.0)
    for altitude in (0, 1500)
]


@pytest.mark.parametrize("state", STATES)
def test_states_of_winter_air_come_out_as_worked_out_apart(state: tuple[float, float]) -> None:
    temperature, humidity = state[0] + ZERO_CELSIUS, state[1]
    ratio, dew, wet = STATES[state]
    assert humidity_ratio(temperature, humidity, SEA_LEVEL) * 1000 == pytest.approx(ratio, abs=6e-4)
    assert dew_point(temperature, humidity, SEA_LEVEL) - ZERO_CELSIUS == pytest.approx(
        dew, abs=6e-3
    )
    assert wet_bulb(temperature, humidity, SEA_LEVEL) - ZERO_CELSIUS == pytest.approx(wet, abs=6e-3)


@pytest.mark.parametrize(("air", "humidity", "wet"), [(7, 0.87, 6), (2, 0.84, 1), (-7, 0.75, -8)])
def test_rating_points_show_their_wet_bulb(air: float, humidity: float, wet: float) -> None:
    shown = wet_bulb(air + ZERO_CELSIUS, humidity, SEA_LEVEL) - ZERO_CELSIUS
    assert shown == pytest.approx(wet, abs=0.05)


@pytest.mark.parametrize(("air", "humidity", "altitude"), GRID)
def test_every_property_agrees_with_the_library(
    air: float, humidity: float, altitude: float
) -> None:
    pressure = psychrolib.GetStandardAtmPressure(altitude)
    temperature = air + ZERO_CELSIUS
    ratio = psychrolib.GetHumRatioFromRelHum(air, humidity, pressure)
    assert air_pressure(altitude) == pytest.approx(pressure, rel=1e-9)
    assert saturation_pressure(temperature) == pytest.approx(
        psychrolib.GetSatVapPres(air), rel=1e-6
    )
    assert humidity_ratio(temperature, humidity, pressure) == pytest.approx(ratio, rel=1e-6)
    assert air_enthalpy(temperature, humidity, pressure) == pytest.approx(
        psychrolib.GetMoistAirEnthalpy(air, ratio), rel=1e-5, abs=1
    )
    assert dew_point(temperature, humidity, pressure) - ZERO_CELSIUS == pytest.approx(
        psychrolib.GetTDewPointFromRelHum(air, humidity), abs=2e-3
    )
    assert wet_bulb(temperature, humidity, pressure) - ZERO_CELSIUS == pytest.approx(
        psychrolib.GetTWetBulbFromRelHum(air, humidity, pressure), abs=2e-3
    )


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="relative humidity must be from 0 to 100 %"):
        humidity_ratio(280.0, 1.01, SEA_LEVEL)
    with pytest.raises(ValueError, match="air temperature must be from -100 to 100 degC"):
        saturation_pressure(172.0)
    with pytest.raises(ValueError, match="altitude must be from -500 m to 11 km"):
        air_pressure(11001)
