"""Our unit symbols in pint's words: an independent registry that the tests compare with."""

from __future__ import annotations

import re
from fractions import Fraction

import pint

from tundish.units.dimension import BASES, Dimension

REGISTRY: pint.UnitRegistry = pint.UnitRegistry()

PINT_WORDS = {
    "um": "micrometer",
    "t": "metric_ton",
    "min": "minute",
    "h": "hour",
    "a": "year",
    "mH2O": "meter_H2O",
    "ohm": "ohm",
    "mohm": "milliohm",
    "kohm": "kiloohm",
    "Mohm": "megaohm",
    "uS": "microsiemens",
    "mS": "millisiemens",
    "S": "siemens",
    "K": "kelvin",
    "%": "percent",
    "1": "dimensionless",
}
"""Only the symbols that pint writes otherwise."""

PINT_BASES = {
    "length": "[length]",
    "mass": "[mass]",
    "time": "[time]",
    "current": "[current]",
    "temperature": "[temperature]",
    "amount": "[substance]",
}

_SYMBOL = re.compile(r"mH2O|[A-Za-z%]+|(?<![-^])1")
_EXPONENT = re.compile(r" \^?(-?[0-9])")


def pint_unit(text: str) -> pint.Quantity:
    """Return one of a unit, in pint's SI base units."""
    spelt = _SYMBOL.sub(lambda match: f" {PINT_WORDS.get(match[0], match[0])} ", text)
    spelt = _EXPONENT.sub(r"**\1", spelt.replace(".", "*"))
    return REGISTRY.Quantity(1.0, spelt).to_base_units()


def pint_dimension(quantity: pint.Quantity) -> Dimension:
    """Return pint's dimensionality as one of our dimensions."""
    powers = dict(quantity.dimensionality)
    return Dimension(
        tuple(
            Fraction(powers.get(PINT_BASES.get(base, base), 0)).limit_denominator()
            for base in BASES
        )
    )
