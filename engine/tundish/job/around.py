"""What is around the outdoor unit: things beside it, openings, other units, boundaries."""

from typing import ClassVar, Literal, TypeAlias

from tundish.job.common import Side
from tundish.job.part import Choice, Length, Part, Text, Truth, Who, fact

Neighbouring: TypeAlias = Literal[
    "house wall", "wall", "fence", "hedge", "railing", "another unit", "open"
]


class _Measured(Part):
    """What is measured on the spot."""

    answered_by: ClassVar[Who] = "surveyor"
    found_in: ClassVar[str] = "Measured at the place of the unit."


class Around(_Measured):
    """What stands on each side; left and right as seen from the front."""

    back: Choice[Neighbouring] = fact("What stands behind the unit?", label="what stands behind")
    left: Choice[Neighbouring] = fact(
        "What stands left of the unit?", label="what stands on the left"
    )
    right: Choice[Neighbouring] = fact(
        "What stands right of the unit?", label="what stands on the right"
    )
    front: Choice[Neighbouring] = fact("What stands before the unit?", label="what stands in front")


class Opening(_Measured):
    """A place near the unit that leaked refrigerant, noise or cold air could reach."""

    name: Text = fact("What opening is it?")
    kind: Choice[
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
    ] = fact("What kind of opening is it?", label="kind of opening")
    side: Choice[Side] = fact(
        "On which side of the unit does it lie?",
        "Front is where the air is blown out; left and right as seen from there.",
        label="side of the opening",
    )
    distance: Length = fact("How far is it from the unit?", label="distance of the opening")
    below_unit: Truth = fact("Does it lie lower than the unit?", label="place below the unit")
    above_unit: Truth = fact("Does it lie straight above the unit?")
    sealed: Truth = fact(
        "Is it closed gas-tight: a drain by a water seal, a window by being fixed?",
        label="gas-tight closing",
    )


class OtherUnit(_Measured):
    """Another outdoor unit near this one."""

    name: Text = fact("What is the other unit called?")
    side: Choice[Side] = fact(
        "On which side of this unit does the other unit stand?",
        "Front is where the air is blown out; left and right as seen from there.",
        label="side of the other unit",
    )
    distance: Length = fact("How far apart are the casings?", label="distance to the other unit")
    blows: Choice[Literal["the same way", "away", "towards this unit", "across"]] = fact(
        "Where does the other unit blow its air?", label="discharge of the other unit"
    )
