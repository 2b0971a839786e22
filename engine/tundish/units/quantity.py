"""Quantities: a decimal number with its unit, read from text and shown back as written."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from tundish.groundwork.dataclass import dataclass
from tundish.text.bounds import LONGEST_QUANTITY
from tundish.units.dimension import Dimension
from tundish.units.unit import MeasureError, Unit, read_unit

__all__ = ["MalformedQuantityError", "MeasureError", "Quantity", "parse_quantity"]

_FORM = re.compile(r"\s*([+\-\u2212]?)([0-9]*)([.,]?)([0-9]*)(?:[eE]([+-]?[0-9]{1,3}))?\s*(.*?)\s*")


class MalformedQuantityError(MeasureError):
    """A text that has not the form of a quantity: a number and a unit.

    Args:
        fault: What is wrong with it, without a full stop.

    Attributes:
        fault: The same, for a caller with a better example.
    """

    def __init__(self, fault: str) -> None:
        super().__init__(f"{fault}; write it as '22 L/min' or '150 mm'.")
        self.fault = fault


@dataclass(frozen=True, slots=True)
class Quantity:
    """A measured value: the number and unit that someone wrote.

    Equality is of what was written; compare `exact` or `si` to compare sizes.

    Attributes:
        magnitude: The number as written, exact.
        unit: The unit as written.

    Example:
        >>> parse_quantity("15 cm").exact == parse_quantity("150 mm").exact
        True
    """

    magnitude: Decimal
    unit: Unit

    @property
    def exact(self) -> Fraction:
        """Return the value in SI base units as an exact fraction."""
        value = Fraction(self.magnitude) * self.unit.factor
        return value + self.unit.zero if self.unit.zero else value

    @property
    def si(self) -> float:
        """Return the value in SI base units (degC becomes kelvin).

        Raises:
            MeasureError: If it is too large for a floating-point number.
        """
        unit = self.unit
        try:
            if unit.zero:
                return float(self.exact)
            # The same float as that of the exact value, whose common divisors need not be found.
            over, under = self.magnitude.as_integer_ratio()
            return (over * unit.factor.numerator) / (under * unit.factor.denominator)
        except OverflowError:
            raise MeasureError("This number is too large to be a measured value.") from None

    @property
    def dimension(self) -> Dimension:
        """Return what is measured."""
        return self.unit.dimension

    def __str__(self) -> str:
        """Return the text as written, with one space before the unit.

        An exponent is written out as zeros, unless nobody could read it back then.
        """
        text = f"{self.magnitude:f} {self.unit}"
        if len(text) > LONGEST_QUANTITY:
            text = f"{self.magnitude} {self.unit}"
        return text.removesuffix(" 1")


@lru_cache(maxsize=4096)
def parse_quantity(text: str) -> Quantity:
    """Read a quantity such as ``22 L/min``.

    Args:
        text: A decimal number and a unit. A comma may stand for the decimal point when three
            digits do not follow it, where it could also part thousands.

    Returns:
        The quantity, exact.

    Raises:
        MeasureError: If there is no number, no unit or no such unit, or the number is too large.

    Example:
        >>> round(parse_quantity("60 L/min").si, 9)
        0.001
    """
    if len(text) > LONGEST_QUANTITY:
        raise MalformedQuantityError("This text is too long for a quantity")
    match = _FORM.fullmatch(text)
    if match is None or not (match[2] or match[4]):
        raise MalformedQuantityError(f"'{text}' does not begin with a number")
    sign, whole, mark, fraction, exponent, unit = match.groups()
    if mark == "," and len(fraction) == 3:
        raise MeasureError(
            f"'{text}' can be read two ways: write '{whole}.{fraction}' or '{whole}{fraction}'."
        )
    if not unit:
        raise MalformedQuantityError(f"'{text}' has no unit")
    minus = "-" if sign in ("-", "\u2212") else ""
    number = f"{minus}{whole or 0}.{fraction}" if fraction else f"{minus}{whole or 0}"
    magnitude = Decimal(number if exponent is None else f"{number}E{exponent}")
    try:
        quantity = Quantity(magnitude, read_unit(unit))
    except MeasureError:
        _refuse_imperial(text.strip())
        raise
    _ = quantity.si  # refuses a number too large here, where its writer can be told
    return quantity


def _refuse_imperial(text: str) -> None:
    """Refuse a quantity in inches and the like with what it is in metric.

    Raises:
        MeasureError: If it is one.
    """
    from tundish.units.imperial import metric_at

    metric = metric_at(text)
    if metric is not None and metric.end == len(text):
        raise MeasureError(metric.sentence) from None
