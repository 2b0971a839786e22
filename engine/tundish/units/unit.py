"""Units: a symbol, its dimension, and the exact factor to SI."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from tundish.groundwork.dataclass import dataclass
from tundish.text.bounds import LONGEST_QUANTITY
from tundish.text.nearest import did_you_mean
from tundish.units.dimension import NUMBER, Dimension
from tundish.units.units import ENTRIES, POINTS, SPELLINGS


class MeasureError(ValueError):
    """A quantity or unit that cannot be read; its text is one plain sentence."""


class _UnknownUnitError(MeasureError):
    """A unit that is not known; `nearest_units` of its part has more to say."""

    def __init__(self, sentence: str, part: str) -> None:
        super().__init__(sentence)
        self.part = part


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit as written, with its factor and zero point in SI.

    Attributes:
        symbol: The unit as written, for showing it back.
        factor: SI value of one of this unit [SI units of `dimension`].
        zero: SI value of this scale's zero [SI units]; zero for all but degC.
        dimension: What the unit measures.
        point: Whether a reading is a point on a scale (degC, dB) and not an amount.
    """

    symbol: str
    factor: Fraction
    zero: Fraction
    dimension: Dimension
    point: bool = False

    def __str__(self) -> str:
        """Return the symbol as written."""
        return self.symbol


KNOWN: dict[str, Unit] = {
    symbol: Unit(symbol, Fraction(factor), Fraction(0), dimension)
    for symbol, factor, dimension in ENTRIES
} | {
    symbol: Unit(symbol, factor, zero, dimension, point=True)
    for symbol, (factor, zero, dimension) in POINTS.items()
}
"""All units with a symbol of their own, by that symbol."""

_LARGEST_FACTOR = Fraction(10) ** 60
_PART = re.compile(r"([./·]?)(?:(\()|(\))|([^./·()^0-9\s]+(?:[23](?![0-9]))?|1)(?:\^(-?[0-9]))?)")


@lru_cache(maxsize=2048)
def read_unit(text: str) -> Unit:
    """Read a unit such as ``L/min``, ``W/(m2.K)`` or ``°C``.

    Args:
        text: The unit alone, without its number. A dot multiplies, a slash divides what follows
            it alone, as in UCUM; round brackets group.

    Returns:
        The unit; its symbol is `text` as written.

    Raises:
        MeasureError: If a part is no known unit, naming the nearest; or if the whole is too long,
            too large or too small for a unit.

    Example:
        >>> read_unit("L/min").dimension.name
        'flow'
    """
    try:
        return _read(text)
    except _UnknownUnitError as error:
        raise MeasureError(f"{error}{nearest_units(error.part)}") from None


@lru_cache(maxsize=2048)
def is_unit(text: str) -> bool:
    """Say whether a text is a unit; unlike `read_unit` it looks for no nearest one."""
    try:
        _read(text)
    except MeasureError:
        return False
    return True


def _read(text: str) -> Unit:
    if len(text) > LONGEST_QUANTITY:
        raise MeasureError("A unit is a short text such as 'L/min'; this one is too long.")
    simple = _simple(text)
    if simple is not None:
        return Unit(text, simple.factor, simple.zero, simple.dimension, simple.point)
    factor, dimension, end = _product(text, 0, depth=0)
    if end != len(text):
        raise MeasureError(f"'{text}' is no unit: nothing is expected after '{text[:end]}'.")
    if not 1 / _LARGEST_FACTOR <= factor <= _LARGEST_FACTOR:
        raise MeasureError(f"'{text}' is no unit that anything is measured in.")
    return Unit(text, factor, Fraction(0), dimension)


def dimension_of(text: str) -> Dimension:
    """Return the dimension of a unit text, for instance of ``kJ/(kg.K)``."""
    return read_unit(text).dimension


def nearest_units(text: str) -> str:
    """Return a closing sentence, " Did you mean 'mm'?" or what to write for inches; or nothing."""
    from tundish.units.imperial import metric_unit

    return metric_unit(text) or did_you_mean(text, [*KNOWN, *SPELLINGS])


def _simple(text: str) -> Unit | None:
    return KNOWN.get(text) or KNOWN.get(SPELLINGS.get(text, ""))


def _product(text: str, start: int, depth: int) -> tuple[Fraction, Dimension, int]:
    """Read factors from `start` up to the end or a closing bracket."""
    factor, dimension, at = Fraction(1), NUMBER, start
    while at < len(text) and text[at] != ")":
        match = _PART.match(text, at)
        if match is None or match[3] or bool(match[1]) == (at == start) or depth > 2:
            raise _UnknownUnitError(f"'{text}' is no unit.", text)
        if match[2]:
            inner_factor, inner, at = _product(text, match.end(), depth + 1)
            if at >= len(text):
                raise MeasureError(f"'{text}' is no unit: a closing bracket is missing.")
            at += 1
        else:
            inner_factor, inner = _factor(match[4], match[5], text)
            at = match.end()
        if match[1] == "/":
            factor, dimension = factor / inner_factor, dimension / inner
        else:
            factor, dimension = factor * inner_factor, dimension * inner
    if at == start:
        raise MeasureError(f"'{text}' is no unit: a part is missing.")
    return factor, dimension, at


def _factor(symbol: str, power: str | None, whole: str) -> tuple[Fraction, Dimension]:
    unit = _simple(symbol)
    if unit is None and power is None and symbol.endswith(("2", "3")):
        # As UCUM writes it, an exponent stands right behind: m/s2.
        unit, power = _simple(symbol[:-1]), symbol[-1]
    if unit is None:
        inside = "" if symbol == whole else f" in '{whole}'"
        raise _UnknownUnitError(f"'{symbol}'{inside} is no known unit.", symbol)
    if unit.point:
        hint = " A temperature difference is written in K." if symbol != "dB" else ""
        raise MeasureError(f"'{symbol}' cannot be part of the unit '{whole}'.{hint}")
    exponent = int(power or 1)
    return unit.factor**exponent, unit.dimension**exponent
