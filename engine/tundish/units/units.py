"""The units of the trade: symbol, exact factor to SI, dimension, other spellings.

A compound such as ``kJ/(kg.K)`` needs no entry: `unit.read_unit` builds it from these.
"""

from __future__ import annotations

from fractions import Fraction

from tundish.units import dimension as d
from tundish.units.dimension import Dimension

Entry = tuple[str, str, Dimension]

POINTS: dict[str, tuple[Fraction, Fraction, Dimension]] = {
    # symbol: (factor, what the zero of the scale is in SI, dimension)
    "degC": (Fraction(1), Fraction("273.15"), d.TEMPERATURE),
    "dB": (Fraction(1), Fraction(0), d.LEVEL),
}
"""Scales whose readings are points: they have differences, but no sums."""

ENTRIES: tuple[Entry, ...] = (
    ("um", "1e-6", d.LENGTH),
    ("mm", "1e-3", d.LENGTH),
    ("cm", "1e-2", d.LENGTH),
    ("m", "1", d.LENGTH),
    ("km", "1e3", d.LENGTH),
    ("mm2", "1e-6", d.AREA),
    ("cm2", "1e-4", d.AREA),
    ("m2", "1", d.AREA),
    ("mL", "1e-6", d.VOLUME),
    ("L", "1e-3", d.VOLUME),
    ("m3", "1", d.VOLUME),
    ("mg", "1e-6", d.MASS),
    ("g", "1e-3", d.MASS),
    ("kg", "1", d.MASS),
    ("t", "1e3", d.MASS),
    ("ms", "1e-3", d.TIME),
    ("s", "1", d.TIME),
    ("min", "60", d.TIME),
    ("h", "3600", d.TIME),
    ("day", "86400", d.TIME),
    ("week", "604800", d.TIME),
    ("month", "2629800", d.TIME),
    ("year", "31557600", d.TIME),
    ("mA", "1e-3", d.CURRENT),
    ("A", "1", d.CURRENT),
    ("kA", "1e3", d.CURRENT),
    ("K", "1", d.TEMPERATURE),
    ("mol", "1", d.AMOUNT),
    ("mmol", "1e-3", d.AMOUNT),
    ("N", "1", d.FORCE),
    ("kN", "1e3", d.FORCE),
    ("mPa", "1e-3", d.PRESSURE),
    ("Pa", "1", d.PRESSURE),
    ("kPa", "1e3", d.PRESSURE),
    ("MPa", "1e6", d.PRESSURE),
    ("mbar", "1e2", d.PRESSURE),
    ("bar", "1e5", d.PRESSURE),
    ("mH2O", "9806.65", d.PRESSURE),
    ("J", "1", d.ENERGY),
    ("kJ", "1e3", d.ENERGY),
    ("MJ", "1e6", d.ENERGY),
    ("Wh", "3600", d.ENERGY),
    ("kWh", "3.6e6", d.ENERGY),
    ("W", "1", d.POWER),
    ("kW", "1e3", d.POWER),
    ("VA", "1", d.POWER),
    ("kVA", "1e3", d.POWER),
    ("mV", "1e-3", d.VOLTAGE),
    ("V", "1", d.VOLTAGE),
    ("kV", "1e3", d.VOLTAGE),
    ("mohm", "1e-3", d.RESISTANCE),
    ("ohm", "1", d.RESISTANCE),
    ("kohm", "1e3", d.RESISTANCE),
    ("Mohm", "1e6", d.RESISTANCE),
    ("uS", "1e-6", d.NUMBER / d.RESISTANCE),
    ("mS", "1e-3", d.NUMBER / d.RESISTANCE),
    ("S", "1", d.NUMBER / d.RESISTANCE),
    # Degrees of hardness as the trade turns them: 1 mmol/L = 5.6 dH = 10 fH = 100 mg/L CaCO3.
    ("dH", "5/28", d.AMOUNT / d.VOLUME),
    ("fH", "1/10", d.AMOUNT / d.VOLUME),
    ("mg/L CaCO3", "1/100", d.AMOUNT / d.VOLUME),
    # A grain of calcium carbonate (64.79891 mg) in an imperial gallon (4.54609 L).
    ("Clark", "6479891/45460900", d.AMOUNT / d.VOLUME),
    ("Hz", "1", d.NUMBER / d.TIME),
    ("kHz", "1e3", d.NUMBER / d.TIME),
    ("%", "1e-2", d.NUMBER),
    ("1", "1", d.NUMBER),
)

SPELLINGS: dict[str, str] = {
    "°C": "degC",
    "℃": "degC",
    "dB(A)": "dB",
    "l": "L",
    "ml": "mL",
    "litre": "L",
    "litres": "L",
    "metre": "m",
    "metres": "m",
    "hour": "h",
    "hours": "h",
    "minute": "min",
    "minutes": "min",
    "second": "s",
    "seconds": "s",
    "days": "day",
    "d": "day",
    "weeks": "week",
    "months": "month",
    "years": "year",
    "a": "year",
    "Ω": "ohm",
    "mΩ": "mohm",
    "kΩ": "kohm",
    "MΩ": "Mohm",
    "µS": "uS",
    "μS": "uS",
    "µm": "um",
    "μm": "um",
    "°dH": "dH",
    "°fH": "fH",
    "mg/l CaCO3": "mg/L CaCO3",
    "ppm CaCO3": "mg/L CaCO3",
    "°Clark": "Clark",
    "mm²": "mm2",
    "cm²": "cm2",
    "m²": "m2",
    "m³": "m3",
    "m of water": "mH2O",
    "percent": "%",
}
"""Other ways people write a unit; each is understood and shown back as it was written."""
