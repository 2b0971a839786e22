"""Parts of the data sheet that are not water or electricity: size, sound, refrigerant, placing."""

from typing import ClassVar, Literal

from tundish.job.common import Feet, Side
from tundish.job.part import (
    Choice,
    Choices,
    Count,
    Density,
    Duration,
    Items,
    Length,
    Mass,
    OrNone,
    Part,
    SoundLevel,
    Text,
    Texts,
    Truth,
    Who,
    fact,
)


class UnitPart(Part):
    """What a maker states about the unit."""

    answered_by: ClassVar[Who] = "maker"
    found_in: ClassVar[str] = "From the maker's data sheet or installation manual."


class Refrigerant(UnitPart):
    """The refrigerant."""

    name: Text = fact("Which refrigerant is it?", "From the plate.", label="refrigerant")
    charge: Mass = fact("How much refrigerant does it hold?", label="refrigerant charge")
    safety_class: Choice[Literal["A1", "A2L", "A2", "A3", "B1", "B2L", "B2", "B3"]] = fact(
        "Which safety class has it by ISO 817?",
        "From the plate or the data sheet.",
        label="stated safety class",
    )
    warming_potential: Count = fact("What global warming potential has it?")
    lower_flammability_limit: Density = fact(
        "Above what concentration can it burn?", label="stated flammability limit"
    )
    sealed: Truth = fact(
        "Does it leave the factory sealed, needing no work on refrigerant?",
        label="sealing of the refrigerant in the factory",
    )


class Size(UnitPart):
    """Outside measures of the unit."""

    width: Length = fact("How wide is the unit?", label="width of the unit")
    depth: Length = fact("How deep is the unit?", label="depth of the unit")
    height: Length = fact("How high is the unit?", label="height of the unit")


class SoundPower(UnitPart):
    """Sound power levels."""

    day: SoundLevel = fact("What sound power has it by day?", label="sound power by day")
    night: SoundLevel = fact("What sound power has it by night?", label="sound power by night")
    rated: SoundLevel = fact("What sound power stands on its label?", label="rated sound power")


class UnitClearance(UnitPart):
    """Space that the maker asks for."""

    below: Length = fact("What space does it need below?", label="needed clearance below")
    back: Length = fact("What space does it need behind?", label="needed clearance behind")
    left: Length = fact(
        "What space does it need on the left?", label="needed clearance on the left"
    )
    right: Length = fact(
        "What space does it need on the right?", label="needed clearance on the right"
    )
    front: Length = fact("What space does it need in front?", label="needed clearance in front")
    top: Length = fact("What space does it need above?", label="needed clearance above")
    beside_unit: Length = fact(
        "What space does it need to a unit beside it?", label="needed space to a unit beside it"
    )
    facing_unit: Length = fact(
        "What space does it need to a unit before or behind it?",
        label="needed space to a unit before or behind it",
    )
    service: Length = fact(
        "What space does service need before its service panel?", label="needed space for service"
    )
    service_side: Choice[Side] = fact(
        "On which side is its service panel?",
        "From the installation manual; left and right as seen from the front.",
        label="side of the service panel",
    )


class ProtectiveZone(UnitPart):
    """A space around the unit in which something must not be."""

    side: Choice[Literal["front", "back", "left", "right", "all sides"]] = fact(
        "On which side does the zone lie?"
    )
    reach: Length = fact("How far does the zone reach?", label="reach of the protective zone")
    free_of: Choices[
        Literal["openings", "drains", "light wells", "ignition sources", "public ground", "pits"]
    ] = fact("What must not lie in the zone?", label="what the zone is kept free of")


class UnitPlacing(UnitPart):
    """How the maker wants the unit placed."""

    feet: OrNone[Feet] = fact("What feet does the maker ask for?")
    protective_zone: Items[ProtectiveZone] = fact("Which protective zones does the maker ask for?")
    coil: Choice[Literal["untreated", "treated"]] = fact(
        "Is the coil treated against corrosion?", label="treatment of the coil"
    )
    coil_metals: Choice[
        Literal["copper and aluminium", "aluminium", "copper", "stainless steel"]
    ] = fact("Of what metals is the coil?", label="metals of the coil")
    proven_category: Choice[Literal["C1", "C2", "C3", "C4", "C5", "CX"]] = fact(
        "Up to which category of corrosivity are coil and casing proven?",
        label="proven corrosivity category",
    )
    enclosure_allowed: Truth = fact("May anything enclose it?", label="allowance of an enclosure")
    fragile: Texts = fact("What must not be touched or bear on anything?", label="fragile parts")
    least_distance_to_coast: Length = fact("How far from the sea must it stand?")
    mounting: Choices[
        Literal["ground", "wall", "flat roof", "pitched roof", "balcony", "frame"]
    ] = fact("Where may it be mounted?", label="allowed mountings")
    drain_heater: Choice[Literal["built in", "to be added", "none"]] = fact(
        "Is the drain pan heated?", label="drain pan heater"
    )
    highest_snow: Length = fact("How high may snow stand at the unit?")
    lifting_points: Count = fact("How many lifting points has it?")
    tilt_allowed: Truth = fact(
        "May it be tilted or laid down in transport?", label="tilting in transport"
    )
    rest_after_tilt: Duration = fact(
        "How long must it stand after it was tilted before it may run?",
        label="rest after tilting",
    )
    centre_of_mass: Choice[Literal["middle", "compressor side", "marked on the packing"]] = fact(
        "Where is its centre of mass?", label="centre of mass"
    )
    rinse_with: Choice[Literal["water", "cleaner", "not"]] = fact("How may the coil be rinsed?")
