"""Explaining a unit: what it measures, its way to SI, the others of the same kind."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from tundish.job.schema import job_schema
from tundish.report.page.line import GAP, Line, items, section
from tundish.report.tell.phrases import counted, listed
from tundish.rulebook.rulebook import Rulebook
from tundish.units.dimension import LEVEL
from tundish.units.display_units import usual_unit
from tundish.units.format import show_number
from tundish.units.quantity import parse_quantity
from tundish.units.unit import KNOWN, MeasureError, Unit, read_unit
from tundish.units.units import SPELLINGS

_DIGITS = 6
_MOST_NAMED = 5
_ATOM = re.compile(r"[^./·()^0-9\s]+(?:[23](?![0-9]))?")


def unit_named(text: str) -> Unit | None:
    """Return the unit of a text, or None if it is none."""
    try:
        return read_unit(text)
    except MeasureError:
        return None


def unit_lines(unit: Unit, rulebook: Rulebook) -> Iterator[Line]:
    """Give what a unit measures, what it is in SI, and other units of the same kind.

    Args:
        unit: The unit.
        rulebook: Its quantities show which units are in use.
    """
    yield Line("heading", unit.symbol)
    measures = "a plain number" if unit.dimension.is_number else unit.dimension.name
    yield Line("under", "unit")
    yield GAP
    yield Line("entry", measures, "measures")
    if unit.dimension != LEVEL:
        yield Line("entry", _in_si(unit), "in SI")
    if unit.point:
        yield Line("entry", _POINT[unit.dimension.name], "a scale")
    also = [spelling for spelling, symbol in SPELLINGS.items() if symbol == _plain(unit)]
    if also:
        yield Line("entry", ", ".join(also), "also written")
    facts = [fact for fact in job_schema().facts() if fact.dimension == unit.dimension]
    if facts and not unit.dimension.is_number:
        paths = listed([fact.path for fact in facts[:_MOST_NAMED]])
        more = ", such as" if len(facts) > _MOST_NAMED else ":"
        yield Line("entry", f"{counted(len(facts), 'fact')}{more} {paths}", "in a job")
    others = [other for other in _in_use(unit, rulebook) if other.symbol != unit.symbol]
    texts = (_turned(unit, other) for other in others)
    yield from section("other units of the same kind", items(texts))


def _plain(unit: Unit) -> str:
    return SPELLINGS.get(unit.symbol, unit.symbol)


def _in_si(unit: Unit) -> str:
    """Return what one of a unit is in SI; of a scale with a zero of its own, what a reading is."""
    symbol = si_symbol(unit)
    if unit.zero:
        return (
            f"a reading in {unit.symbol}, plus {show_number(float(unit.zero), 8)}, is in {symbol}"
        )
    if unit.dimension.is_number:
        return f"{_unit_line(unit)} = {_factor(unit.factor)}"
    return f"{_unit_line(unit)} = {_factor(unit.factor)} {symbol}"


def si_symbol(unit: Unit) -> str:
    """Return the unit of SI for what a unit measures, built as that unit is.

    Example:
        >>> si_symbol(read_unit("uS/cm")), si_symbol(read_unit("L/min"))
        ('S/m', 'm3/s')
    """
    for model in (unit, usual_unit(unit.dimension)):
        symbol = _ATOM.sub(lambda match: _coherent(match[0]), _plain(model))
        built = unit_named(symbol)
        if built and built.dimension == unit.dimension and built.factor == 1 and not built.point:
            return symbol
    return f"units of {unit.dimension.name} in SI"


def _coherent(symbol: str) -> str:
    """Return the unit of SI with a symbol of its own for one part of a unit."""
    part = KNOWN.get(SPELLINGS.get(symbol, symbol))
    alike = (
        known.symbol
        for known in KNOWN.values()
        if part and known.dimension == part.dimension and known.factor == 1 and not known.point
    )
    return next(alike, symbol)


def _unit_line(unit: Unit) -> str:
    return "1" if unit.symbol == "1" else f"1 {unit.symbol}"


def _factor(factor: Fraction) -> str:
    """Return a factor exactly where a decimal number can say it, else as a fraction and nearly."""
    number = show_number(float(factor), 12)
    if Fraction(number) == factor:
        return number
    near = show_number(float(factor), _DIGITS)
    if factor.denominator < 10**9 and factor.numerator < 10**9:
        return f"{factor} = {near}"
    return f"nearly {near}"


def _in_use(unit: Unit, rulebook: Rulebook) -> list[Unit]:
    """Return units of the same dimension: those with symbols, and those that are in use."""
    known = list(KNOWN.values())
    examples = (fact.example for fact in job_schema().facts() if fact.kind == "quantity")
    used = [parse_quantity(example).unit for example in examples]
    shown = [quantity.unit for quantity in rulebook.quantities.values() if quantity.unit]
    usual = usual_unit(unit.dimension, unit.point)
    every = [*known, usual, *used, *shown]
    alike = {_plain(other): other for other in reversed(every) if other.dimension == unit.dimension}
    return sorted(alike.values(), key=lambda other: (other.factor, other.symbol))


def _turned(unit: Unit, other: Unit) -> str:
    """Return one of a unit in another, whichever way the number is no small one."""
    if unit.zero or other.zero:
        return f"{other.symbol}: a difference of 1 {unit.symbol} is one of 1 {other.symbol}"
    if unit.factor >= other.factor:
        ratio = show_number(float(unit.factor / other.factor), _DIGITS)
        return f"{other.symbol}: {_unit_line(unit)} = {ratio} {other.symbol}".removesuffix(" 1")
    ratio = show_number(float(other.factor / unit.factor), _DIGITS)
    return f"{other.symbol}: {_unit_line(other)} = {ratio} {unit.symbol}".removesuffix(" 1")


_POINT = {
    "temperature": "a reading is a point on a scale; differences are written in K",
    "sound level": "a reading is a point on a scale; levels never add as numbers",
}
