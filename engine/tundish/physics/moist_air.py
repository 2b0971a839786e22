"""Moist air: how much water it holds, and at what temperature it lets it go.

Pressure is an argument throughout, as a site at 1,000 m has a tenth less of it than one by the sea.
"""

from __future__ import annotations

import math

ZERO_CELSIUS = 273.15
_TRIPLE_POINT = 273.16
_MOLAR_RATIO = 0.621945  # of water to dry air
_ROUNDS = 80


def saturation_pressure(temperature: float) -> float:
    """Return the pressure of water vapour in balance with water, or with ice below freezing.

    Args:
        temperature: Air temperature [K], from 173.15 to 373.15.

    Returns:
        Saturation pressure [Pa].

    Raises:
        ValueError: If the temperature is outside its range.

    Source:
        R. W. Hyland and A. Wexler, Formulations for the thermodynamic properties of the saturated
        phases of H2O from 173.15 K to 473.15 K, ASHRAE Transactions 89(2A), 1983, as printed in
        ASHRAE Fundamentals, psychrometrics (from memory; checked against psychrolib).

    Example:
        >>> round(saturation_pressure(293.15))
        2339
    """
    if not 173.15 <= temperature <= 373.15:
        raise ValueError("the air temperature must be from -100 to 100 degC")
    coefficients = _OVER_ICE if temperature <= _TRIPLE_POINT else _OVER_WATER
    over, *powers, logarithmic = coefficients
    total = over / temperature + logarithmic * math.log(temperature)
    total += sum(factor * temperature**power for power, factor in enumerate(powers))
    return math.exp(total)


_OVER_ICE = (
    -5.6745359e3,
    6.3925247,
    -9.677843e-3,
    6.2215701e-7,
    2.0747825e-9,
    -9.484024e-13,
    4.1635019,
)
_OVER_WATER = (
    -5.8002206e3,
    1.3914993,
    -4.8640239e-2,
    4.1764768e-5,
    -1.4452093e-8,
    0.0,
    6.5459673,
)


def humidity_ratio(temperature: float, relative_humidity: float, pressure: float) -> float:
    """Return the mass of water vapour that goes with a mass of dry air.

    Args:
        temperature: Air temperature [K].
        relative_humidity: Relative humidity [1], from 0 to 1.
        pressure: Air pressure [Pa].

    Returns:
        Humidity ratio [1], kilograms of vapour a kilogram of dry air.

    Raises:
        ValueError: If an argument is outside its range, or the vapour would exceed the air.

    Source:
        Ideal gases, W = 0.621945 pw / (p - pw); ASHRAE Fundamentals, psychrometrics (from memory).

    Example:
        >>> round(humidity_ratio(278.15, 0.85, 101325), 6)
        0.004586
    """
    if not 0 <= relative_humidity <= 1:
        raise ValueError("the relative humidity must be from 0 to 100 %")
    vapour = relative_humidity * saturation_pressure(temperature)
    if not vapour < pressure:
        raise ValueError("the air pressure must be above that of the vapour")
    return _MOLAR_RATIO * vapour / (pressure - vapour)


def dew_point(temperature: float, relative_humidity: float, pressure: float) -> float:
    """Return the temperature at which air begins to let water go, as dew or as frost.

    Args:
        temperature: Air temperature [K].
        relative_humidity: Relative humidity [1], above 0 to 1.
        pressure: Air pressure [Pa].

    Returns:
        Dew point [K]; frost point where it is below freezing.

    Raises:
        ValueError: If an argument is outside its range.

    Source:
        The temperature whose saturation pressure is that of the vapour, found by halving.

    Example:
        >>> round(dew_point(278.15, 0.85, 101325) - 273.15, 2)
        2.69
    """
    humidity_ratio(temperature, relative_humidity, pressure)  # refuses what cannot be
    vapour = relative_humidity * saturation_pressure(temperature)
    low, high = 173.15, temperature
    if not saturation_pressure(low) <= vapour:
        raise ValueError("the air is too dry for its dew point to be found")
    for _ in range(_ROUNDS):
        middle = (low + high) / 2
        low, high = (middle, high) if saturation_pressure(middle) < vapour else (low, middle)
    return (low + high) / 2


def wet_bulb(temperature: float, relative_humidity: float, pressure: float) -> float:
    """Return the temperature of a wet thermometer in moving air.

    Args:
        temperature: Air temperature [K].
        relative_humidity: Relative humidity [1], from 0 to 1.
        pressure: Air pressure [Pa].

    Returns:
        Wet bulb temperature [K]; over ice where it is below freezing.

    Raises:
        ValueError: If an argument is outside its range.

    Source:
        Adiabatic saturation, ASHRAE Fundamentals, psychrometrics, the equations for water and for
        ice (from memory; checked against psychrolib), solved by halving.

    Example:
        >>> round(wet_bulb(280.15, 0.87, 101325) - 273.15, 1)
        6.0
    """
    actual = humidity_ratio(temperature, relative_humidity, pressure)
    low, high = max(173.15, temperature - 60), temperature
    for _ in range(_ROUNDS):
        middle = (low + high) / 2
        too_cold = _ratio_at_wet_bulb(temperature, middle, pressure) < actual
        low, high = (middle, high) if too_cold else (low, middle)
    return (low + high) / 2


def _ratio_at_wet_bulb(temperature: float, wet: float, pressure: float) -> float:
    """Return the humidity ratio of air that shows a given wet bulb temperature."""
    saturated = humidity_ratio(wet, 1.0, pressure)
    air, bulb = temperature - ZERO_CELSIUS, wet - ZERO_CELSIUS
    if bulb >= 0:
        return ((2501 - 2.326 * bulb) * saturated - 1.006 * (air - bulb)) / (
            2501 + 1.86 * air - 4.186 * bulb
        )
    return ((2830 - 0.24 * bulb) * saturated - 1.006 * (air - bulb)) / (
        2830 + 1.86 * air - 2.1 * bulb
    )


def air_enthalpy(temperature: float, relative_humidity: float, pressure: float) -> float:
    """Return the enthalpy of moist air, counted from dry air and water at 0 degC.

    Args:
        temperature: Air temperature [K].
        relative_humidity: Relative humidity [1], from 0 to 1.
        pressure: Air pressure [Pa].

    Returns:
        Enthalpy [J/kg] a kilogram of dry air.

    Raises:
        ValueError: If an argument is outside its range.

    Source:
        h = 1006 t + W (2501000 + 1860 t); ASHRAE Fundamentals, psychrometrics (from memory).

    Example:
        >>> round(air_enthalpy(278.15, 0.85, 101325) / 1000, 1)
        16.5
    """
    ratio = humidity_ratio(temperature, relative_humidity, pressure)
    air = temperature - ZERO_CELSIUS
    return 1006 * air + ratio * (2_501_000 + 1860 * air)


def air_pressure(altitude: float) -> float:
    """Return the mean air pressure at an altitude.

    Args:
        altitude: Height above the sea [m], from -500 to 11000.

    Returns:
        Pressure of the standard atmosphere [Pa].

    Raises:
        ValueError: If the altitude is outside its range.

    Source:
        ISO 2533, standard atmosphere (from memory; checked against psychrolib).

    Example:
        >>> round(air_pressure(0))
        101325
    """
    if not -500 <= altitude <= 11000:
        raise ValueError("the altitude must be from -500 m to 11 km")
    return 101325 * math.pow(1 - 2.25577e-5 * altitude, 5.2559)
