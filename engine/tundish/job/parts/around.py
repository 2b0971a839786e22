"""What is around the outdoor unit: things beside it, openings, other units, boundaries."""

from typing import Literal, TypeAlias

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import Side

Neighbouring: TypeAlias = Literal[
    "house wall", "wall", "fence", "hedge", "railing", "another unit", "open"
]


class _Measured(
    Part, answered_by="surveyor", found_in="Seen or measured at the place of the unit."
):
    """What is seen or measured on the spot."""


class Around(_Measured):
    """What stands on each side; left and right as seen from the front."""

    back: t.Choice[Neighbouring] = fact(
        "What stands behind the unit?", label="what stands behind", example="house wall"
    )
    left: t.Choice[Neighbouring] = fact(
        "What stands left of the unit?", label="what stands on the left", example="fence"
    )
    right: t.Choice[Neighbouring] = fact(
        "What stands right of the unit?", label="what stands on the right", example="open"
    )
    front: t.Choice[Neighbouring] = fact(
        "What stands before the unit?", label="what stands in front", example="open"
    )


class Opening(_Measured):
    """A place near the unit that leaked refrigerant, noise or cold air could reach."""

    name: t.Text = fact(
        "What opening is it?", "Any name that tells it from others.", example="kitchen window"
    )
    kind: t.Choice[
        Literal[
            "window",
            "door",
            "vent",
            "drain",
            "light well",
            "cellar",
            "pit",
            "ignition source",
            "public ground",
            "neighbour's ground",
        ]
    ] = fact("What kind of opening is it?", label="kind of opening", example="window")
    side: t.Choice[Side] = fact(
        "On which side of the unit does it lie?",
        "Front is where the air is blown out; left and right as seen from there.",
        label="side of the opening",
        example="right",
    )
    distance: t.Length = fact(
        "How far is it from the unit?", label="distance of the opening", example="1.6 m"
    )
    below_unit: t.Truth = fact(
        "Does it lie lower than the unit?", label="place below the unit", example="false"
    )
    above_unit: t.Truth = fact(
        "Does it lie straight above the unit?", example="false", label="place above the unit"
    )
    sealed: t.Truth = fact(
        "Is it closed gas-tight: a drain by a water seal, a window by being fixed?",
        label="gas-tight closing",
        example="false",
    )


class OtherUnit(_Measured):
    """Another outdoor unit near this one."""

    name: t.Text = fact(
        "What is the other unit called?",
        "Any name that tells it from others.",
        example="unit of the house next door",
    )
    side: t.Choice[Side] = fact(
        "On which side of this unit does the other unit stand?",
        "Front is where the air is blown out; left and right as seen from there.",
        label="side of the other unit",
        example="left",
    )
    distance: t.Length = fact(
        "How far apart are the casings?", label="distance to the other unit", example="1.5 m"
    )
    blows: t.Choice[Literal["the same way", "away", "towards this unit", "across"]] = fact(
        "Where does the other unit blow its air?",
        "By looking at its fan.",
        label="discharge of the other unit",
        example="the same way",
    )
