"""Handling: bringing the unit to its place without hurting anyone."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Route(Part, answered_by="surveyor", found_in="By walking the way with a tape."):
    """The way from the vehicle to the place."""

    length: t.Length = fact("How long is the way?", label="length of the way", example="25 m")
    narrowest: t.Length = fact(
        "How narrow is the narrowest place of the way in?",
        label="narrowest place",
        example="900 mm",
    )
    lowest: t.Length = fact(
        "How low is the lowest place of the way in?", label="lowest headroom", example="2.1 m"
    )
    steps: t.Count = fact("How many steps are on it?", label="number of steps", example="0")
    steepest: t.Fraction = fact(
        "How steep is the steepest place?", label="steepest slope", example="5 %"
    )
    surface: t.Choice[Literal["paved", "gravel", "grass", "mud", "stairs"]] = fact(
        "What is underfoot?", label="surface of the way", example="paved"
    )
    overhead_line: t.Truth = fact("Does an electric line hang over it?", example="false")
    public: t.Truth = fact(
        "Does it cross a public way?", label="crossing of a public way", example="false"
    )
    closed_off: t.Truth = fact(
        "Is the public way closed off, as its authority allows, while the load hangs?",
        "From the permit of its authority.",
        label="closing of the public way",
    )


class Handling(Part, answered_by="installer", found_in="From the plan of the work."):
    """Handling."""

    route: Route | None = fact("What is the way to the place?", label="way to the place")
    people: t.Count = fact("How many people carry?", label="number of people", example="2")
    gear: t.Choices[
        Literal[
            "trolley",
            "stair climber",
            "pallet truck",
            "hoist",
            "crane",
            "lifting straps",
            "scaffold",
            "ladder",
        ]
    ] = fact("What gear is there?", example='["trolley", "hoist"]')
    gear_bears: t.Mass = fact(
        "What mass does the gear bear?",
        "From the plate of the gear.",
        example="250 kg",
        label="mass that the gear bears",
    )
    lift_height: t.Length = fact("How high must the unit be lifted?", example="400 mm")
    packed_mass: t.Mass = fact(
        "What does the unit weigh in its packing?",
        "From the label of the packing, or the data sheet.",
        who="maker",
        example="138 kg",
    )
    storage_area: t.Area = fact(
        "What area is there to store the delivery?", "Measured on the spot.", example="4 m2"
    )
    work_at_height: t.Truth = fact("Must anyone work above the ground?", example="false")
    upright: t.Truth = fact(
        "Does the unit stay upright all the way?", label="staying upright all the way"
    )
    lifting_plan: t.Truth = fact("Is there a plan for the lift?", label="plan for the lift")
    slings: t.Choice[Literal["rated and inspected", "packing straps, used once", "unmarked"]] = (
        fact(
            "What kind of slings or straps bear the unit in the lift?",
            "By the tag on them.",
            label="slings of the lift",
            example="rated and inspected",
        )
    )
    ground_bears: t.AreaLoad = fact(
        "What load on an area does the ground or floor under gear and unit bear?",
        "From the drawings, or a structural engineer.",
        label="load that the ground bears",
        example="5 kN/m2",
    )
    gear_footprint: t.Area = fact(
        "On what area does the loaded gear stand?",
        "The wheels or outriggers that touch the ground, with their plates.",
        label="area the gear stands on",
        example="0.5 m2",
    )
    gear_mass: t.Mass = fact(
        "What does the gear itself weigh?",
        "From the plate of the gear.",
        label="mass of the gear",
        example="25 kg",
    )
    held: t.Choice[Literal["close at waist", "close above", "close below", "at arm's length"]] = (
        fact("How is the load held?", label="way the load is held", example="close at waist")
    )
    turns: t.Choice[Literal["not", "more than 45 degrees", "more than 90 degrees"]] = fact(
        "How far do those who lift twist sideways with the load?",
        "Shoulders against hips, at the worst moment of the way.",
        label="twist of those who lift",
        example="not",
    )
    heavy_side_told: t.Truth = fact(
        "Does everyone who lifts know which side of the unit is the heavy one?",
        label="knowledge of the heavy side",
    )
    fragile_taken_off: t.Truth = fact(
        "Are fragile parts taken off and kept safe until the unit stands?",
        label="taking off of fragile parts",
    )
    checked_after_transport: t.Truth = fact(
        "Was the unit looked over for damage and leaks after the transport?",
        "Ask whoever took the delivery in.",
        label="check after transport",
    )
    rested: t.Duration = fact(
        "How long did it stand upright before it was started?",
        "Ask whoever set it up.",
        label="rest before the start",
        example="12 h",
    )
