"""Pipe sizes as the trade writes them: "copper 28 x 0.9", "steel DN25"."""

from __future__ import annotations

import re

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.kinds import FactKind
from tundish.text.nearest import did_you_mean
from tundish.text.quoted import quoted
from tundish.units.quantity import Quantity, parse_quantity

MATERIALS = (
    "copper",
    "steel",
    "stainless steel",
    "PEX",
    "PE-RT",
    "polybutylene",
    "polypropylene",
    "multilayer",
)

_EXAMPLES = "'copper 28 x 0.9', 'multilayer 26 x 3' or 'steel DN25'"
_LONGEST = 60
_NUMBER = r"[0-9]{1,4}(?:\.[0-9]{1,3})?"
_MILLIMETRES = re.compile(rf"({_NUMBER})(?: ?mm)?(?: ?[x×] ?({_NUMBER})(?: ?mm)?)?")
_NOMINAL = re.compile(r"DN ?([1-9][0-9]{0,3})")


@dataclass(frozen=True, slots=True)
class PipeSize:
    """The size of a pipe.

    Args:
        name: The size as it was written.
        material: What it is made of, out of `MATERIALS`.
        size: The size alone in one spelling, "28 x 0.9" or "DN25", to look it up in a table.
        outside_diameter: Outside diameter, or None when only a nominal size is known.
        wall: Thickness of the wall, or None when not known.
    """

    name: str
    material: str
    size: str
    outside_diameter: Quantity | None = None
    wall: Quantity | None = None

    def __str__(self) -> str:
        """Return the size as it was written."""
        return self.name


def parse_pipe_size(text: str) -> PipeSize:
    """Return the pipe size that a text states.

    Args:
        text: Material, then outside diameter and wall in millimetres, or a nominal size; the wall
            may be left out while it is not known.

    Returns:
        The size.

    Raises:
        ValueError: If it is no pipe size, or could not be a pipe.

    Example:
        >>> str(parse_pipe_size("copper 28 x 0.9").wall)
        '0.9 mm'
    """
    name = " ".join(text.split())
    match = re.match(r"[^0-9]+? (?=DN ?[0-9]|[0-9])", name)
    if len(name) > _LONGEST or match is None:
        raise ValueError(f"{quoted(text)} is no pipe size; write it as {_EXAMPLES}.")
    material, size = _material(match[0].strip()), name[match.end() :]
    nominal = _NOMINAL.fullmatch(size)
    if nominal:
        return PipeSize(name, material, f"DN{nominal[1]}")
    measures = _MILLIMETRES.fullmatch(size)
    if measures is None:
        raise ValueError(f"{quoted(text)} is no pipe size; write it as {_EXAMPLES}.")
    return _measured(name, material, measures[1], measures[2])


@dataclass(frozen=True)
class PipeKind(FactKind):
    """A pipe size."""

    def read(self, value: object) -> PipeSize:
        """Return the pipe size that was written."""
        if isinstance(value, PipeSize):
            return value
        if not isinstance(value, str):
            raise ValueError(f"Write a pipe size such as {_EXAMPLES}, not {quoted(value)}.")
        return parse_pipe_size(value)


def _material(word: str) -> str:
    known = {material.lower(): material for material in MATERIALS}
    if word.lower() in known:
        return known[word.lower()]
    listed = ", ".join(f"'{material}'" for material in MATERIALS)
    near = did_you_mean(word, MATERIALS)
    raise ValueError(f"{quoted(word)} is no pipe material; there are {listed}.{near}")


def _measured(name: str, material: str, outside: str, wall: str | None) -> PipeSize:
    diameter = parse_quantity(f"{outside} mm")
    thickness = parse_quantity(f"{wall} mm") if wall else None
    if diameter.exact <= 0 or (thickness is not None and thickness.exact <= 0):
        raise ValueError(f"{quoted(name)} cannot be: diameter and wall are above zero.")
    if thickness is not None and 2 * thickness.exact >= diameter.exact:
        raise ValueError(f"{quoted(name)} cannot be: twice the wall leaves no bore in the pipe.")
    size = _plain(outside) if wall is None else f"{_plain(outside)} x {_plain(wall)}"
    return PipeSize(name, material, size, diameter, thickness)


def _plain(number: str) -> str:
    return f"{float(number):g}"
