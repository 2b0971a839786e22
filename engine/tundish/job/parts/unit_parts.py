"""Parts of the data sheet that are not water or electricity: size, sound, refrigerant, placing."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import Feet, Side


class UnitPart(
    Part, answered_by="maker", found_in="From the maker's data sheet or installation manual."
):
    """What a maker states about the unit."""


class Refrigerant(UnitPart):
    """The refrigerant."""

    name: t.Text = fact(
        "Which refrigerant is it?", "From the plate.", label="refrigerant", example="R290"
    )
    charge: t.Mass = fact(
        "How much refrigerant does it hold?", label="refrigerant charge", example="1.3 kg"
    )
    safety_class: t.Choice[Literal["A1", "A2L", "A2", "A3", "B1", "B2L", "B2", "B3"]] = fact(
        "Which safety class has it by ISO 817?",
        "From the plate or the data sheet.",
        label="stated safety class",
        example="A3",
    )
    lower_flammability_limit: t.Density = fact(
        "Above what concentration can it burn?",
        label="stated flammability limit",
        example="0.038 kg/m3",
    )
    sealed: t.Truth = fact(
        "Does it leave the factory sealed, needing no work on refrigerant?",
        label="sealing of the refrigerant in the factory",
    )


class Size(UnitPart):
    """Outside measures of the unit."""

    width: t.Length = fact("How wide is the unit?", label="width of the unit", example="1250 mm")
    depth: t.Length = fact("How deep is the unit?", label="depth of the unit", example="430 mm")
    height: t.Length = fact("How high is the unit?", label="height of the unit", example="870 mm")


class SoundPower(UnitPart):
    """Sound power levels."""

    day: t.SoundLevel = fact(
        "What sound power has it by day?", label="sound power by day", example="58 dB"
    )
    night: t.SoundLevel = fact(
        "What sound power has it by night?", label="sound power by night", example="54 dB"
    )
    rated: t.SoundLevel = fact(
        "What sound power stands on its label?", label="rated sound power", example="57 dB"
    )


class UnitClearance(UnitPart):
    """Space that the maker asks for."""

    below: t.Length = fact(
        "What space does it need below?", label="needed clearance below", example="150 mm"
    )
    back: t.Length = fact(
        "What space does it need behind?", label="needed clearance behind", example="300 mm"
    )
    left: t.Length = fact(
        "What space does it need on the left?",
        label="needed clearance on the left",
        example="300 mm",
    )
    right: t.Length = fact(
        "What space does it need on the right?",
        label="needed clearance on the right",
        example="500 mm",
    )
    front: t.Length = fact(
        "What space does it need in front?", label="needed clearance in front", example="1 m"
    )
    top: t.Length = fact(
        "What space does it need above?", label="needed clearance above", example="500 mm"
    )
    beside_unit: t.Length = fact(
        "What space does it need to a unit beside it?",
        label="needed space to a unit beside it",
        example="500 mm",
    )
    facing_unit: t.Length = fact(
        "What space does it need to a unit before or behind it?",
        label="needed space to a unit before or behind it",
        example="2 m",
    )
    service: t.Length = fact(
        "What space does service need before its service panel?",
        label="needed space for service",
        example="600 mm",
    )
    service_side: t.Choice[Side] = fact(
        "On which side is its service panel?",
        "From the installation manual; left and right as seen from the front.",
        label="side of the service panel",
        example="right",
    )


class ProtectiveZone(UnitPart):
    """A space around the unit in which something must not be."""

    side: t.Choice[Literal["front", "back", "left", "right", "all sides"]] = fact(
        "On which side does the zone lie?", example="all sides"
    )
    reach: t.Length = fact(
        "How far does the zone reach?", label="reach of the protective zone", example="1 m"
    )
    free_of: t.Choices[
        Literal["openings", "drains", "light wells", "ignition sources", "public ground", "pits"]
    ] = fact(
        "What must not lie in the zone?",
        label="what the zone is kept free of",
        example='["openings"]',
    )


class UnitPlacing(UnitPart):
    """How the maker wants the unit placed."""

    feet: t.OrNone[Feet] = fact("What feet does the maker ask for?")
    protective_zone: t.Items[ProtectiveZone] = fact(
        "Which protective zones does the maker ask for?"
    )
    coil: t.Choice[Literal["untreated", "treated"]] = fact(
        "Is the coil treated against corrosion?", label="treatment of the coil", example="treated"
    )
    coil_metals: t.Choice[
        Literal["copper and aluminium", "aluminium", "copper", "stainless steel"]
    ] = fact(
        "Of what metals is the coil?", label="metals of the coil", example="copper and aluminium"
    )
    proven_category: t.Choice[Literal["C1", "C2", "C3", "C4", "C5", "CX"]] = fact(
        "Up to which category of corrosivity are coil and casing proven?",
        label="proven corrosivity category",
        example="C4",
    )
    enclosure_allowed: t.Truth = fact(
        "May anything enclose it?", label="allowance of an enclosure", example="false"
    )
    least_distance_to_coast: t.Length = fact("How far from the sea must it stand?", example="500 m")
    mounting: t.Choices[
        Literal["ground", "wall", "flat roof", "pitched roof", "balcony", "frame"]
    ] = fact("Where may it be mounted?", label="allowed mountings", example='["ground", "wall"]')
    drain_heater: t.Choice[Literal["built in", "to be added", "none"]] = fact(
        "Is the drain pan heated?", label="drain pan heater", example="built in"
    )
    lifting_points: t.Count = fact("How many lifting points has it?", example="4")
    tilt_allowed: t.Truth = fact(
        "May it be tilted or laid down in transport?", label="tilting in transport", example="false"
    )
    rest_after_tilt: t.Duration = fact(
        "How long must it stand after it was tilted before it may run?",
        label="rest after tilting",
        example="12 h",
    )
    centre_of_mass: t.Choice[Literal["middle", "compressor side", "marked on the packing"]] = fact(
        "Where is its centre of mass?", example="compressor side"
    )
    rinse_with: t.Choice[Literal["water", "cleaner", "not"]] = fact(
        "How may the coil be rinsed?", example="water", label="way of rinsing"
    )
