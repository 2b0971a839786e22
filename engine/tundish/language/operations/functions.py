"""The functions an expression can call, each with the kinds it takes and gives.

A function of physics is offered here by one entry: its Python function takes and gives plain SI
floats, and raises ValueError where it does not hold, which makes the result unknown.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

from tundish.groundwork.dataclass import dataclass
from tundish.language.tree.kind import PLAIN_NUMBER, Kind, quantity_kind
from tundish.physics import friction, moist_air, sound
from tundish.units.dimension import ENERGY, LENGTH, LEVEL, MASS, PRESSURE, TEMPERATURE

LOOPS = ("all", "any", "sum", "count", "least", "greatest")
"""Words that stand before a loop over a list."""

INTERPOLATE = "interpolate"
"""The word that stands before a reading between the items of a list."""

SPECIAL = ("known", "present", "assume", "lookup")
"""Functions of the language itself, which see more than the value of what they are given."""


CONSTANTS = {"pi": math.pi}
"""Numbers that have a name in the language."""


@dataclass(frozen=True, slots=True)
class Function:
    """A function offered to expressions.

    Attributes:
        name: Its name in an expression.
        calculate: The Python function; SI floats in, SI float out.
        result: Gives the kind of the result from those of the arguments; raises ValueError
            with a sentence where they do not fit.
        title: A short noun phrase for explanations.
    """

    name: str
    calculate: Callable[..., float]
    result: Callable[[tuple[Kind, ...]], Kind]
    title: str

    def __repr__(self) -> str:
        """Return the name alone: a function has one meaning only."""
        return f"Function({self.name})"


def _fixed(takes: tuple[Kind, ...], gives: Kind) -> Callable[[tuple[Kind, ...]], Kind]:
    def result(kinds: tuple[Kind, ...]) -> Kind:
        if len(kinds) != len(takes):
            raise ValueError(f"takes {_counted(len(takes))}, not {len(kinds)}")
        for position, (given, taken) in enumerate(zip(kinds, takes, strict=True), start=1):
            if (given.name, given.dimension, given.point) != (
                taken.name,
                taken.dimension,
                taken.point,
            ):
                raise ValueError(f"takes {taken} as argument {position}, not {given}")
        return gives

    return result


def _alike(kinds: tuple[Kind, ...]) -> Kind:
    """Two or more quantities of one kind give that kind."""
    if len(kinds) < 2:
        raise ValueError("takes two or more values, or a loop over a list")
    for kind in kinds:
        if kind.name != "quantity":
            raise ValueError(f"takes quantities, not {kind}")
        if (kind.dimension, kind.point) != (kinds[0].dimension, kinds[0].point):
            raise ValueError(f"takes values of one kind, not {kinds[0]} and {kind}")
    return kinds[0]


def _levels(kinds: tuple[Kind, ...]) -> Kind:
    """Two or more sound levels give a sound level."""
    if len(kinds) < 2:
        raise ValueError("takes two or more sound levels")
    for kind in kinds:
        if kind != _LEVEL:
            raise ValueError(f"takes sound levels, not {kind}")
    return _LEVEL


def _one_quantity(kinds: tuple[Kind, ...]) -> Kind:
    if len(kinds) != 1:
        raise ValueError(f"takes 1 value, not {len(kinds)}")
    if kinds[0].name != "quantity" or kinds[0].point:
        raise ValueError(f"takes a quantity that is no point on a scale, not {kinds[0]}")
    return kinds[0]


def _square_root(kinds: tuple[Kind, ...]) -> Kind:
    kind = _one_quantity(kinds)
    return quantity_kind(kind.dimension ** Fraction(1, 2))


def _counted(count: int) -> str:
    return "1 value" if count == 1 else f"{count} values"


_AIR = quantity_kind(TEMPERATURE, point=True)
_LEVEL = quantity_kind(LEVEL, point=True)
_MOIST_AIR = (_AIR, PLAIN_NUMBER, quantity_kind(PRESSURE))

FUNCTIONS: dict[str, Function] = {
    function.name: function
    for function in (
        Function("least", min, _alike, "the least"),
        Function("greatest", max, _alike, "the greatest"),
        Function("absolute", abs, _one_quantity, "the size"),
        Function("square_root", math.sqrt, _square_root, "the square root"),
        Function(
            "exponential",
            math.exp,
            _fixed((PLAIN_NUMBER,), PLAIN_NUMBER),
            "e to the power",
        ),
        Function(
            "logarithm",
            math.log,
            _fixed((PLAIN_NUMBER,), PLAIN_NUMBER),
            "the natural logarithm",
        ),
        Function(
            "whole_above",
            math.ceil,
            _fixed((PLAIN_NUMBER,), PLAIN_NUMBER),
            "the next whole number up",
        ),
        Function(
            "friction_factor",
            friction.friction_factor,
            _fixed((PLAIN_NUMBER, PLAIN_NUMBER), PLAIN_NUMBER),
            "the Darcy friction factor",
        ),
        Function(
            "decibels",
            sound.decibels,
            _fixed((PLAIN_NUMBER,), _LEVEL.difference),
            "the ratio in decibels",
        ),
        Function(
            "decibel_ratio",
            sound.decibel_ratio,
            _fixed((_LEVEL.difference,), PLAIN_NUMBER),
            "the ratio of powers",
        ),
        Function("level_sum", sound.level_sum, _levels, "the sum of the levels"),
        Function(
            "air_pressure",
            moist_air.air_pressure,
            _fixed((quantity_kind(LENGTH),), quantity_kind(PRESSURE)),
            "the air pressure at an altitude",
        ),
        Function(
            "saturation_pressure",
            moist_air.saturation_pressure,
            _fixed((_AIR,), quantity_kind(PRESSURE)),
            "the saturation pressure of water vapour",
        ),
        Function(
            "humidity_ratio",
            moist_air.humidity_ratio,
            _fixed(_MOIST_AIR, PLAIN_NUMBER),
            "the humidity ratio",
        ),
        Function("dew_point", moist_air.dew_point, _fixed(_MOIST_AIR, _AIR), "the dew point"),
        Function("wet_bulb", moist_air.wet_bulb, _fixed(_MOIST_AIR, _AIR), "the wet bulb"),
        Function(
            "air_enthalpy",
            moist_air.air_enthalpy,
            _fixed(_MOIST_AIR, quantity_kind(ENERGY / MASS)),
            "the enthalpy of moist air",
        ),
    )
}
"""Every function with a fixed meaning, by name."""
