"""The functions an expression can call: one record each, which every form of evaluation reads.

A function of physics is offered here by one entry: its Python function takes and gives plain SI
floats, and raises ValueError where it does not hold, which makes the result unknown.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import reduce
from typing import Any

from tundish.language.tree.kind import PLAIN_NUMBER, Kind, fits, quantity_kind
from tundish.language.tree.node import Node
from tundish.language.tree.operation import Function
from tundish.physics import friction, moist_air, sound
from tundish.units.dimension import ENERGY, LENGTH, LEVEL, MASS, PRESSURE, TEMPERATURE

INTERPOLATE = "interpolate"
"""The word that stands before a reading between the items of a list."""

SPECIAL = ("known", "present", "assume", "lookup")
"""Functions of the language itself, which see more than the value of what they are given."""


CONSTANTS = {"pi": math.pi}
"""Numbers that have a name in the language."""


def _fixed(takes: tuple[Kind, ...], gives: Kind) -> Callable[[Sequence[Node]], Kind]:
    def result(arguments: Sequence[Node]) -> Kind:
        if len(arguments) != len(takes):
            raise ValueError(f"takes {_counted(len(takes))}, not {len(arguments)}")
        for position, (argument, taken) in enumerate(zip(arguments, takes, strict=True), start=1):
            if not fits(argument.kind, taken):
                raise ValueError(f"takes {taken} as argument {position}, not {argument.kind}")
        return gives

    return result


def _alike(arguments: Sequence[Node]) -> Kind:
    """Two or more quantities of one kind give that kind."""
    if len(arguments) < 2:
        raise ValueError("takes two or more values, or a loop over a list")
    first = arguments[0].kind
    for argument in arguments:
        kind = argument.kind
        if kind.name != "quantity":
            raise ValueError(f"takes quantities, not {kind}")
        if not fits(kind, first):
            raise ValueError(f"takes values of one kind, not {first} and {kind}")
    return first


def _levels(arguments: Sequence[Node]) -> Kind:
    """Two or more sound levels give a sound level."""
    if len(arguments) < 2:
        raise ValueError("takes two or more sound levels")
    for argument in arguments:
        if argument.kind != _LEVEL:
            raise ValueError(f"takes sound levels, not {argument.kind}")
    return _LEVEL


def _one_quantity(arguments: Sequence[Node]) -> Kind:
    if len(arguments) != 1:
        raise ValueError(f"takes 1 value, not {len(arguments)}")
    kind = arguments[0].kind
    if kind.name != "quantity" or kind.point:
        raise ValueError(f"takes a quantity that is no point on a scale, not {kind}")
    return kind


def _always(_: Sequence[bool]) -> bool:
    return True


def _square_root(arguments: Sequence[Node]) -> Kind:
    return quantity_kind(_one_quantity(arguments).dimension ** Fraction(1, 2))


def _counted(count: int) -> str:
    return "1 value" if count == 1 else f"{count} values"


def _extreme(numpy: Any, arrays: Sequence[Any], is_further: Callable[[Any, Any], Any]) -> Any:
    """Return the least or greatest, the first of equals, as Python does."""

    def further(first: Any, second: Any) -> Any:
        chosen = numpy.where(is_further(second, first), second, first)
        return numpy.where(second == second, chosen, numpy.nan)

    return reduce(further, arrays)


_AIR = quantity_kind(TEMPERATURE, point=True)
_LEVEL = quantity_kind(LEVEL, point=True)
_MOIST_AIR = (_AIR, PLAIN_NUMBER, quantity_kind(PRESSURE))
_OF_NUMBER = _fixed((PLAIN_NUMBER,), PLAIN_NUMBER)

FUNCTIONS: dict[str, Function] = {
    function.name: function
    for function in (
        Function(
            "least",
            min,
            _alike,
            columns=lambda numpy, *arrays: _extreme(numpy, arrays, lambda a, b: a < b),
            code="({1} if {1} < {0} else {0})",
            is_finite=True,
            is_monotone=True,
            steps=2,
            keeps_sign=all,
            elsewhere=("min", "minimum", "smallest", "lowest"),
            may_be_left_out=True,
        ),
        Function(
            "greatest",
            max,
            _alike,
            columns=lambda numpy, *arrays: _extreme(numpy, arrays, lambda a, b: a > b),
            code="({1} if {1} > {0} else {0})",
            is_finite=True,
            is_monotone=True,
            steps=2,
            keeps_sign=any,
            elsewhere=("max", "maximum", "largest", "highest"),
            may_be_left_out=True,
        ),
        Function(
            "absolute",
            abs,
            _one_quantity,
            columns=lambda numpy, array: numpy.abs(array),
            code="abs({0})",
            is_finite=True,
            is_monotone=True,  # on either side of zero, where it turns
            steps=2,
            keeps_sign=_always,
            elsewhere=("abs",),
            may_be_left_out=True,
        ),
        Function(
            "square_root",
            math.sqrt,
            _square_root,
            columns=lambda numpy, array: numpy.sqrt(array),
            is_finite=True,
            is_monotone=True,
            steps=2,
            keeps_sign=_always,
            elsewhere=("sqrt", "root"),
        ),
        Function(
            "exponential",
            math.exp,
            _OF_NUMBER,
            is_finite=True,
            is_monotone=True,
            keeps_sign=_always,
            elsewhere=("exp",),
        ),
        Function(
            "logarithm",
            math.log,
            _OF_NUMBER,
            is_finite=True,
            is_monotone=True,
            elsewhere=("ln", "log"),
        ),
        Function(
            "whole_above",
            math.ceil,
            _OF_NUMBER,
            # Adding zero turns -0.0 into 0.0, as Python's own functions give it.
            columns=lambda numpy, array: numpy.ceil(array) + 0.0,
            is_monotone=True,
            steps=2,
            keeps_sign=all,
            elsewhere=("ceil", "ceiling", "roundup", "round_up"),
            may_be_left_out=True,
        ),
        Function(
            "friction_factor",
            friction.friction_factor,
            _fixed((PLAIN_NUMBER, PLAIN_NUMBER), PLAIN_NUMBER),
            keeps_sign=_always,
        ),
        Function(
            "decibels",
            sound.decibels,
            _fixed((PLAIN_NUMBER,), _LEVEL.difference),
            is_monotone=True,
        ),
        Function(
            "decibel_ratio",
            sound.decibel_ratio,
            _fixed((_LEVEL.difference,), PLAIN_NUMBER),
            is_monotone=True,
            keeps_sign=_always,
        ),
        Function("level_sum", sound.level_sum, _levels, is_monotone=True),
        Function(
            "air_pressure",
            moist_air.air_pressure,
            _fixed((quantity_kind(LENGTH),), quantity_kind(PRESSURE)),
            is_monotone=True,
            keeps_sign=_always,
        ),
        Function(
            "saturation_pressure",
            moist_air.saturation_pressure,
            _fixed((_AIR,), quantity_kind(PRESSURE)),
            keeps_sign=_always,
        ),
        Function(
            "humidity_ratio",
            moist_air.humidity_ratio,
            _fixed(_MOIST_AIR, PLAIN_NUMBER),
            keeps_sign=_always,
        ),
        Function("dew_point", moist_air.dew_point, _fixed(_MOIST_AIR, _AIR), keeps_sign=_always),
        Function("wet_bulb", moist_air.wet_bulb, _fixed(_MOIST_AIR, _AIR), keeps_sign=_always),
        Function(
            "air_enthalpy",
            moist_air.air_enthalpy,
            _fixed(_MOIST_AIR, quantity_kind(ENERGY / MASS)),
        ),
    )
}
"""Every function with a fixed meaning, by name."""
