"""The unit a computed value is shown in where nothing better is known."""

from __future__ import annotations

from tundish.units import dimension as d
from tundish.units.dimension import BASES, Dimension
from tundish.units.unit import Unit, read_unit

_USUAL: dict[str, str] = {
    "length": "m",
    "area": "m2",
    "volume": "L",
    "mass": "kg",
    "time": "h",
    "current": "A",
    "temperature": "degC",
    "sound level": "dB",
    "velocity": "m/s",
    "flow": "L/min",
    "mass flow": "kg/h",
    "force": "N",
    "pressure": "kPa",
    "energy": "kJ",
    "power": "kW",
    "voltage": "V",
    "resistance": "ohm",
    "density": "kg/m3",
    "hardness": "mmol/L",
    "resistance per length": "ohm/km",
    "thermal conductivity": "W/(m.K)",
    "heat transfer coefficient": "W/(m2.K)",
    "linear thermal resistance": "m.K/W",
    "thermal resistance": "K/W",
    "heat loss per length": "W/m",
    "specific energy": "kJ/kg",
    "specific heat": "kJ/(kg.K)",
    "heat capacity": "kJ/K",
    "pressure loss per length": "Pa/m",
    "dynamic viscosity": "mPa.s",
    "volume per power": "L/kW",
    "electrical conductivity": "uS/cm",
}

_SYMBOLS = dict(zip(BASES, ("m", "kg", "s", "A", "K", "mol", "dB"), strict=True))


def usual_unit(dimension: Dimension, point: bool = False) -> Unit:
    """Return the unit the trade shows a dimension in, or the SI unit where it has no habit.

    Args:
        dimension: What is measured.
        point: Whether it is a point on a scale; a temperature difference is shown in K.

    Example:
        >>> str(usual_unit(d.FLOW))
        'L/min'
    """
    if dimension == d.TEMPERATURE and not point:
        return read_unit("K")
    if dimension.is_number:
        return read_unit("1")
    symbol = _USUAL.get(dimension.name)
    return read_unit(symbol) if symbol else _coherent(dimension)


def _coherent(dimension: Dimension) -> Unit:
    """Spell a unit out of SI base units; roots of units have no symbol and stay unnamed."""
    above, below = list[str](), list[str]()
    for base, power in zip(BASES, dimension.exponents, strict=True):
        size = abs(power)
        if size:
            written = _SYMBOLS[base] if size == 1 else f"{_SYMBOLS[base]}^{size}"
            (above if power > 0 else below).append(written)
    symbol = ".".join(above) or "1"
    if below:
        symbol += "/" + (below[0] if len(below) == 1 else f"({'.'.join(below)})")
    return Unit(symbol, read_unit("1").factor, read_unit("1").zero, dimension)
