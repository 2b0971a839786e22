"""Formatting computed values in a chosen unit, to a few significant digits."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal

from tundish.units.unit import Unit

SIGNIFICANT_DIGITS = 4
"""Digits a computed value is shown with: enough to follow the sum, not to pretend precision."""


def in_unit(si: float, unit: Unit, difference: bool = False) -> float:
    """Return an SI value in `unit`.

    Args:
        si: The value [SI base units].
        unit: The unit to show it in.
        difference: Whether `si` is a difference of points, so that the scale's zero is left out.

    Returns:
        The number that stands before the unit.
    """
    zero = 0.0 if difference else float(unit.zero)
    return (si - zero) / float(unit.factor)


def show(si: float, unit: Unit, digits: int = SIGNIFICANT_DIGITS, difference: bool = False) -> str:
    """Return an SI value as text in `unit`, rounded to `digits` significant digits.

    Example:
        >>> from tundish.units.unit import read_unit
        >>> show(0.0162, read_unit("L"))
        '16.2 L'
    """
    number = show_number(in_unit(si, unit, difference), digits)
    symbol = "K" if difference and unit.symbol in ("degC", "°C", "℃") else unit.symbol
    return number if symbol == "1" else f"{number} {symbol}"


def show_apart(values: list[tuple[float, Unit]]) -> list[str]:
    """Return several values as text with enough digits that unequal ones look unequal.

    Without this a breach by a hair would read "20 L is less than 20 L".
    """
    for digits in range(SIGNIFICANT_DIGITS, 13):
        shown = [show(si, unit, digits) for si, unit in values]
        if len(set(shown)) == len({si for si, _ in values}):
            return shown
    return shown


def show_number(value: float, digits: int = SIGNIFICANT_DIGITS) -> str:
    """Return a plain number rounded to `digits` significant digits, without an exponent.

    Digits before the decimal point are never rounded away: 12345 stays 12345.
    """
    exact = Decimal(repr(value))
    if not exact.is_finite() or exact == 0:
        return "0" if exact == 0 else str(value)
    needed = max(digits, exact.adjusted() + 1)
    rounded = Context(prec=needed, rounding=ROUND_HALF_EVEN).plus(exact)
    text = f"{rounded:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
