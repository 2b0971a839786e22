"""Imperial units such as inches: none is accepted, so each is answered with its metric value."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import cache

from tundish.groundwork.dataclass import dataclass

_METRIC: dict[str, tuple[str, str]] = {
    # unit: (the metric unit to write, how many of it are one)
    "inch": ("mm", "25.4"),
    "foot": ("m", "0.3048"),
    "yard": ("m", "0.9144"),
    "mile": ("km", "1.609344"),
    "square foot": ("m2", "0.09290304"),
    "cubic foot": ("m3", "0.028316846592"),
    "imperial gallon": ("L", "4.54609"),
    "American gallon": ("L", "3.785411784"),
    "imperial gallon a minute": ("L/min", "4.54609"),
    "American gallon a minute": ("L/min", "3.785411784"),
    "cubic foot a minute": ("m3/h", "1.69901079552"),
    "pound": ("kg", "0.45359237"),
    "ounce": ("g", "28.349523125"),
    "pound a square inch": ("bar", "0.0689475729"),
    "British thermal unit an hour": ("W", "0.2930710702"),
    "mile an hour": ("m/s", "0.44704"),
    "degree Fahrenheit": ("degC", "0.5555555556"),
}

_WRITTEN: dict[str, tuple[str, ...]] = {
    # how it is written: what that may be
    **dict.fromkeys(("in", "in.", "inch", "inches", '"', "″", "”", "''"), ("inch",)),
    **dict.fromkeys(("ft", "ft.", "foot", "feet", "'", "′", "’"), ("foot",)),
    **dict.fromkeys(("yd", "yard", "yards"), ("yard",)),
    **dict.fromkeys(("mi", "mile", "miles"), ("mile",)),
    **dict.fromkeys(("sq ft", "sqft", "ft2", "ft²", "ft^2", "sq. ft."), ("square foot",)),
    **dict.fromkeys(("cu ft", "cuft", "ft3", "ft³", "ft^3"), ("cubic foot",)),
    **dict.fromkeys(("gal", "gallon", "gallons"), ("imperial gallon", "American gallon")),
    **dict.fromkeys(("gpm", "gal/min"), ("imperial gallon a minute", "American gallon a minute")),
    "cfm": ("cubic foot a minute",),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), ("pound",)),
    **dict.fromkeys(("oz", "ounce", "ounces"), ("ounce",)),
    "psi": ("pound a square inch",),
    **dict.fromkeys(("btu/h", "btuh", "btu/hr"), ("British thermal unit an hour",)),
    "mph": ("mile an hour",),
    **dict.fromkeys(("°f", "degf", "℉", "f", "fahrenheit"), ("degree Fahrenheit",)),
}

_FREEZING_IN_FAHRENHEIT = 32

_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_INCH = "''|inches|inch|in(?![A-Za-z0-9_])|[\"″”]"


@cache
def _mixed() -> re.Pattern[str]:
    """Return what inches look like as a tape or a pipe is marked in them: 3/4", 1 1/4", 5' 6"."""
    return re.compile(
        rf"(?:(?P<feet>{_NUMBER}) ?(?:feet|foot|ft|['′’])[ -]?)?"
        rf"(?:(?P<whole>[0-9]+)[ -])?(?P<over>[0-9]+)(?:/(?P<under>[1-9][0-9]*))? ?(?:{_INCH})"
    )


@cache
def _plain() -> re.Pattern[str]:
    """Return what a number with a unit of another trade looks like."""
    units = "|".join(re.escape(word) for word in sorted(_WRITTEN, key=len, reverse=True))
    return re.compile(rf"(?P<number>{_NUMBER}) ?(?P<unit>{units})(?![A-Za-z0-9_/])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Metric:
    """What a quantity in a unit of another trade is in metric.

    Attributes:
        magnitude: How many of the metric unit.
        unit: The metric unit's symbol.
        end: Index after the last character of what was written.
        sentence: What to write instead.
    """

    magnitude: Decimal
    unit: str
    end: int
    sentence: str


def metric_at(text: str, start: int = 0) -> Metric | None:
    """Read a quantity in a unit of another trade.

    Args:
        text: The text.
        start: Index of the quantity's first digit.

    Returns:
        The quantity in metric, or nothing where it has no such unit.

    Example:
        >>> metric_at("6 in").sentence
        "'6 in' is not metric: write it in mm, as 152.4 mm."
    """
    mixed = _mixed().match(text, start)
    plain = _plain().match(text, start)
    if mixed and (plain is None or mixed.end() > plain.end()):
        inches = _inches(mixed)
        return _metric(inches, ("inch",), mixed[0], mixed.end())
    if plain is None:
        return None
    number = Decimal(plain["number"].replace(",", "."))
    return _metric(number, _WRITTEN[plain["unit"].lower()], plain[0], plain.end())


def metric_unit(symbol: str) -> str:
    """Return a sentence that names the metric unit to use, with a leading space, or nothing.

    Args:
        symbol: A unit's symbol, without a number.

    Example:
        >>> metric_unit("inch")
        ' Write it in mm: 1 inch is 25.4 mm.'
    """
    names = _WRITTEN.get(symbol.lower(), ())
    if not names:
        return ""
    unit = _METRIC[names[0]][0]
    if unit == "degC":
        return " Write it in degC."
    each = ", ".join(f"1 {name} is {_shown(Decimal(_METRIC[name][1]))} {unit}" for name in names)
    return f" Write it in {unit}: {each}."


def _inches(mixed: re.Match[str]) -> Decimal:
    feet = Decimal((mixed["feet"] or "0").replace(",", "."))
    part = Decimal(mixed["over"]) / Decimal(mixed["under"] or 1)
    return 12 * feet + Decimal(mixed["whole"] or 0) + part


def _metric(number: Decimal, names: tuple[str, ...], written: str, end: int) -> Metric:
    unit = _METRIC[names[0]][0]
    values = [_in_metric(number, name) for name in names]
    metric = f"{_shown(values[0])} {unit}"
    if len(names) > 1:
        metric = " or ".join(
            f"{_shown(value)} {unit} ({name})" for value, name in zip(values, names, strict=True)
        )
    sentence = f"'{written}' is not metric: write it in {unit}, as {metric}."
    return Metric(values[0], unit, end, sentence)


def _in_metric(number: Decimal, name: str) -> Decimal:
    if name == "degree Fahrenheit":
        return (number - _FREEZING_IN_FAHRENHEIT) / Decimal("1.8")
    return number * Decimal(_METRIC[name][1])


def _shown(value: Decimal) -> str:
    """Return a number with six digits at most, as nobody measured more."""
    return f"{float(value):.6g}"
