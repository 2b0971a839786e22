"""Words and small records that several parts of a job share."""

from typing import Literal, TypeAlias

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact

CompassPoint: TypeAlias = Literal[
    "north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"
]

Side: TypeAlias = Literal["front", "back", "left", "right"]
"""A side of the outdoor unit: it blows to the front; left and right as seen from there."""

SIDES: tuple[Side, ...] = ("back", "left", "right", "front")
"""The four of them, as one reads a plan with the front below."""

Surroundings: TypeAlias = Literal["outdoors", "underground", "unheated room", "heated room"]

Load: TypeAlias = Literal[
    "outdoor unit",
    "backup heater",
    "booster heater",
    "immersion heater",
    "controls",
    "circulation pump",
    "other",
]

SwitchedBy: TypeAlias = Literal[
    "unit", "contactor outside the unit", "own switch", "thermostat", "timer", "nothing"
]

FlowOrReturn: TypeAlias = Literal["flow", "return"]


class Entries(
    Part,
    answered_by="electrician",
    found_in="Counted at the unit, or from its installation manual.",
):
    """Openings for cables, by what passes through them."""

    power: t.Count = fact(
        "How many openings take power cables?", label="openings for power cables", example="2"
    )
    control: t.Count = fact(
        "How many openings take control cables?", label="openings for control cables", example="2"
    )


class Feet(
    Part, answered_by="installer", found_in="Seen at the unit, or from its installation manual."
):
    """Feet under the outdoor unit."""

    count: t.Count = fact("How many feet are there?", label="number of feet", example="4")
    height: t.Length = fact("How high are the feet?", label="height of the feet", example="150 mm")
    kind: t.Choice[Literal["rubber", "metal", "concrete", "plastic", "spring"]] = fact(
        "What are the feet made of?", label="kind of feet", example="rubber"
    )
    in_the_box: t.Truth = fact(
        "Do they come in the box of the unit?", label="feet in the box", example="false"
    )


class Record(Part):
    """A document or a visit, with its day."""

    date: t.Day = fact("On which day was it made?", "From the paper itself.", example="2026-10-15")
    reference: t.Text = fact(
        "Under which reference is it kept?", "From the paper itself.", example="2026-118"
    )
    by: t.Text = fact(
        "In which role did someone make it?",
        "From the paper itself.",
        label="author",
        example="installer",
    )
