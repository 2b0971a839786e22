"""The placement: where the outdoor unit stands, what is around it and under it."""

from collections.abc import Mapping
from typing import Any, ClassVar, Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.around import Around, Opening, OtherUnit
from tundish.job.parts.common import CompassPoint, Feet
from tundish.job.parts.condensate import Condensate
from tundish.job.parts.receiver import Receiver

OPEN = "open"


class _Measured(
    Part, answered_by="surveyor", found_in="Seen or measured at the place of the unit."
):
    """What is seen or measured on the spot."""


class Clearance(_Measured):
    """Free space around the unit, left and right as seen from its front.

    `top = "open"` says that nothing is above it.
    """

    written_as: ClassVar[dict[str, str]] = {"open_above": "top"}

    back: t.Length = fact(
        "How much space is behind the unit?", label="clearance behind", example="300 mm"
    )
    left: t.Length = fact(
        "How much space is left of the unit?", label="clearance on the left", example="500 mm"
    )
    right: t.Length = fact(
        "How much space is right of the unit?", label="clearance on the right", example="800 mm"
    )
    front: t.Length = fact(
        "How much space is before the unit?", label="clearance in front", example="1 m"
    )
    top: t.Length = fact(
        "How much space is above the unit?",
        'Measured at the place of the unit; write "open" where nothing is above it.',
        label="clearance above",
        example="1 m",
        otherwise='Write "open" where nothing is above it.',
    )
    open_above: t.Truth = fact(
        "Is the unit open to the sky?", label="open sky above the unit", example="false"
    )

    @classmethod
    def prepared(cls, facts: Mapping[str, Any]) -> Mapping[str, Any]:
        """Take the word "open" for the top apart, so that a rule meets a length or a truth."""
        if facts.get("top") != OPEN:
            return facts
        if facts.get("open_above") is False:
            raise ValueError("The top is 'open', yet open_above is false; leave one of them out.")
        return {key: value for key, value in facts.items() if key != "top"} | {"open_above": True}

    def check(self) -> None:
        """Refuse a height above where there is nothing above."""
        if self.open_above and self.top is not None:
            raise ValueError("The unit is open above, yet top states a length; leave one out.")


class Discharge(_Measured):
    """Where the cold air goes."""

    towards: t.Choice[Literal["open", "wall", "corner", "path", "fence", "planting", "window"]] = (
        fact(
            "What does the unit blow towards?",
            label="what the air is blown towards",
            example="open",
        )
    )
    distance_to_obstacle: t.Length = fact("How far is what the air meets first?", example="4 m")
    distance_to_path: t.Length = fact(
        "How far is the nearest path that the cold air could ice?", example="3 m"
    )


class Base(_Measured):
    """What the unit stands on."""

    kind: t.Choice[
        Literal[
            "concrete slab",
            "concrete strips",
            "paving",
            "wall bracket",
            "roof frame",
            "timber deck",
            "screw foundation",
            "soil",
        ]
    ] = fact("What does the unit stand on?", label="kind of base", example="concrete slab")
    level: t.Truth = fact("Is the base level?", "With a spirit level.", label="base in level")
    frost_free: t.Truth = fact(
        "Is the base founded so that frost cannot lift it?",
        "From the drawing, or ask whoever laid it.",
        label="base safe from frost",
    )
    bears: t.Mass = fact(
        "What mass can the base bear?",
        "From its maker or a structural engineer.",
        label="mass that the base bears",
        example="400 kg",
    )
    wall: t.Choice[Literal["masonry", "concrete", "timber frame", "insulated facade"]] = fact(
        "What wall bears the bracket?", label="wall behind the bracket", example="masonry"
    )
    decoupled: t.Truth = fact(
        "Does anything keep vibration out of the building?", label="vibration isolation"
    )
    joined_to_house: t.Truth = fact(
        "Does the base touch the house or its foundation?",
        label="base joined to the house",
        example="false",
    )
    structure_checked: t.Truth = fact(
        "Did a structural engineer agree to the load on wall, roof or balcony?",
        "From the letter of the engineer.",
        label="check of the structure",
    )


class SnowHood(_Measured):
    """A roof over the unit against snow."""

    height_above: t.Length = fact(
        "How far above the unit is it?", label="height of the snow hood", example="600 mm"
    )
    bears: t.AreaLoad = fact(
        "What snow load does it bear?",
        "From its maker or a structural engineer.",
        label="load the snow hood bears",
        example="1.5 kN/m2",
    )


class Placement(_Measured):
    """Where the outdoor unit stands."""

    on: t.Choice[Literal["ground", "wall", "flat roof", "pitched roof", "balcony", "frame"]] = fact(
        "What is the unit mounted on?", label="mounting", example="ground"
    )
    faces: t.Choice[CompassPoint] = fact(
        "Where does the discharge side face?",
        "With a compass.",
        label="direction it faces",
        example="south",
    )
    height_below: t.Length = fact(
        "How high is the underside of the unit above the ground or roof below it?",
        label="height below the unit",
        example="400 mm",
    )
    clearance: Clearance | None = fact("What space is around the unit?")
    around: Around | None = fact("What stands on each side of the unit?")
    other_units: t.Items[OtherUnit] = fact(
        "Which other outdoor units stand near?", label="other units near"
    )
    discharge: Discharge | None = fact("Where does the air go?")
    base: Base | None = fact("What does the unit stand on?")
    feet: t.OrNone[Feet] = fact("What feet are put under the unit?")
    fixings: t.Choice[
        Literal["stainless steel", "galvanised steel", "zinc-plated steel", "aluminium", "none"]
    ] = fact("What metal are the fixings?", example="stainless steel")
    condensate: Condensate | None = fact("Where does the melted frost go?")
    snow_hood: t.OrNone[SnowHood] = fact("What roof is over the unit against snow?")
    wind_screen: t.Truth = fact("Is there a screen against the wind?", example="false")
    enclosed: t.Choice[Literal["not", "louvred housing", "niche", "courtyard", "pit"]] = fact(
        "Does anything enclose the unit?", label="enclosure", example="not"
    )
    free_area: t.Area = fact(
        "What free area have the openings of the enclosure for the air that goes in?",
        "The gaps alone: the area of a louvre times its free share.",
        label="free area of the enclosure",
        example="1.2 m2",
    )
    air_kept_apart: t.Truth = fact(
        "Is the air blown out led out of the enclosure, so that it cannot be drawn in again there?",
        "By a duct, collar or partition between outlet and inlet; a strip of paper shows it.",
        label="way out for the air of its own",
    )
    vehicles_near: t.Truth = fact(
        "Could a vehicle drive or roll against the unit?",
        "By looking for drives, parking and turning places beside it.",
        label="vehicles beside the unit",
        example="false",
    )
    access: t.Truth = fact(
        "Can someone reach the unit for service without a ladder?", label="access for service"
    )
    fall_protection: t.Truth = fact(
        "Is there protection against falling where service works?",
        label="protection against falling",
    )
    edge_distance: t.Length = fact(
        "How far is the unit from the nearest edge that someone could fall from?",
        label="distance of an edge",
        example="3 m",
    )
    anchored: t.Truth = fact(
        "Is the unit bolted to what it stands on?", label="anchoring of the unit"
    )
    guarded_against: t.Choices[Literal["vehicles", "children", "animals", "theft", "leaves"]] = (
        fact(
            "Against what is the unit guarded?",
            example='["leaves"]',
            label="what the unit is guarded against",
        )
    )
    in_a_hollow: t.Truth = fact(
        "Does the unit stand in a hollow where gas could gather?",
        example="false",
        label="place in a hollow",
    )
    openings: t.Items[Opening] = fact("Which openings and ignition sources are near the unit?")
    hears: t.Items[Receiver] = fact("Who hears the unit?", label="places that hear the unit")
    distance_to_boundary: t.Length = fact(
        "How far is the boundary of the plot?", label="distance of the boundary", example="3 m"
    )
    units_on_plot: t.Count = fact(
        "How many outdoor units are on the plot, this one counted?",
        label="units on the plot",
        example="1",
    )
    faces_road: t.Truth = fact(
        "Does the unit stand before a wall that faces a road?",
        label="place before a road",
        example="false",
    )
    height_of_top: t.Length = fact(
        "How high above the ground is the top of the unit?",
        label="height of its top",
        example="1.2 m",
    )
