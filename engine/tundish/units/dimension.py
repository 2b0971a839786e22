"""Dimensions: what kind of thing a quantity measures, as exponents of the base dimensions."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tundish.groundwork.dataclass import dataclass

BASES = ("length", "mass", "time", "current", "temperature", "amount", "level")


@dataclass(frozen=True, slots=True)
class Dimension:
    """Exponents of the SI base dimensions, with sound level as one of its own.

    Level stands apart because decibels are logarithms: they carry no power of anything,
    and must never be mixed with plain numbers.

    Example:
        >>> LENGTH * LENGTH == AREA
        True
        >>> (VOLUME / TIME).name
        'flow'
    """

    exponents: tuple[Fraction, ...]

    def __mul__(self, other: Dimension) -> Dimension:
        """Return the dimension of a product."""
        return Dimension(tuple(a + b for a, b in self._pairs(other)))

    def __truediv__(self, other: Dimension) -> Dimension:
        """Return the dimension of a quotient."""
        return Dimension(tuple(a - b for a, b in self._pairs(other)))

    def __pow__(self, power: Fraction | int) -> Dimension:
        """Return the dimension of a power."""
        return Dimension(tuple(a * power for a in self.exponents))

    @property
    def is_number(self) -> bool:
        """Say whether this is a plain number, without any dimension."""
        return not any(self.exponents)

    @property
    def name(self) -> str:
        """Return the trade's name, or the exponents spelt out where there is none."""
        named = _NAMES.get(self)
        if named:
            return named
        parts = [
            base if power == 1 else f"{base}^{power}"
            for base, power in zip(BASES, self.exponents, strict=True)
            if power
        ]
        return " x ".join(parts)

    def _pairs(self, other: Dimension) -> Iterator[tuple[Fraction, Fraction]]:
        return zip(self.exponents, other.exponents, strict=True)


def _base(name: str) -> Dimension:
    return Dimension(tuple(Fraction(int(base == name)) for base in BASES))


NUMBER = Dimension((Fraction(0),) * len(BASES))
LENGTH = _base("length")
MASS = _base("mass")
TIME = _base("time")
CURRENT = _base("current")
TEMPERATURE = _base("temperature")
AMOUNT = _base("amount")
LEVEL = _base("level")

AREA = LENGTH**2
VOLUME = LENGTH**3
VELOCITY = LENGTH / TIME
FLOW = VOLUME / TIME
FORCE = MASS * LENGTH / TIME**2
PRESSURE = FORCE / AREA
ENERGY = FORCE * LENGTH
POWER = ENERGY / TIME
VOLTAGE = POWER / CURRENT
RESISTANCE = VOLTAGE / CURRENT

DIMENSIONS: dict[str, Dimension] = {
    "number": NUMBER,
    "length": LENGTH,
    "area": AREA,
    "volume": VOLUME,
    "mass": MASS,
    "time": TIME,
    "current": CURRENT,
    "temperature": TEMPERATURE,
    "amount": AMOUNT,
    "sound level": LEVEL,
    "velocity": VELOCITY,
    "flow": FLOW,
    "mass flow": MASS / TIME,
    "force": FORCE,
    "pressure": PRESSURE,
    "energy": ENERGY,
    "power": POWER,
    "voltage": VOLTAGE,
    "resistance": RESISTANCE,
    "conductance": NUMBER / RESISTANCE,
    "let-through energy": CURRENT**2 * TIME,
    "frequency": NUMBER / TIME,
    "density": MASS / VOLUME,
    "hardness": AMOUNT / VOLUME,
    "molar mass": MASS / AMOUNT,
    "resistance per length": RESISTANCE / LENGTH,
    "electrical conductivity": NUMBER / RESISTANCE / LENGTH,
    "thermal conductivity": POWER / LENGTH / TEMPERATURE,
    "heat transfer coefficient": POWER / AREA / TEMPERATURE,
    "thermal resistance": TEMPERATURE / POWER,
    "linear thermal resistance": TEMPERATURE * LENGTH / POWER,
    "heat loss per length": POWER / LENGTH,
    "specific energy": ENERGY / MASS,
    "specific heat": ENERGY / MASS / TEMPERATURE,
    "heat capacity": ENERGY / TEMPERATURE,
    "heat loss per degree": POWER / TEMPERATURE,
    "pressure loss per length": PRESSURE / LENGTH,
    "dynamic viscosity": PRESSURE * TIME,
    "volume per power": VOLUME / POWER,
    "power per area": POWER / AREA,
    "mass per area": MASS / AREA,
    "deposition rate": MASS / AREA / TIME,
    "acceleration": LENGTH / TIME**2,
}
"""Every dimension that has a name of its own in the trade."""

_NAMES = {dimension: name for name, dimension in reversed(DIMENSIONS.items())}
