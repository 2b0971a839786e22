"""The placement: where the outdoor unit stands, what is around it and under it."""

from __future__ import annotations

from typing import Any, ClassVar, Literal

from pydantic import model_validator

from tundish.job.common import CompassPoint, Feet
from tundish.job.part import (
    AreaLoad,
    Choice,
    Choices,
    Count,
    Fraction,
    Items,
    Length,
    Mass,
    OrNone,
    Part,
    Pipe,
    Power,
    Text,
    Truth,
    Who,
    fact,
)

OPEN = "open"


class _Measured(Part):
    """What is measured on the spot."""

    answered_by: ClassVar[Who] = "surveyor"
    found_in: ClassVar[str] = "Measured at the place of the unit."


class Clearance(_Measured):
    """Free space around the unit; `top = "open"` says that nothing is above it."""

    written_as: ClassVar[dict[str, str]] = {"open_above": "top"}

    back: Length = fact("How much space is behind the unit?", label="clearance behind")
    left: Length = fact("How much space is left of the unit?", label="clearance on the left")
    right: Length = fact("How much space is right of the unit?", label="clearance on the right")
    front: Length = fact("How much space is before the unit?", label="clearance in front")
    top: Length = fact("How much space is above the unit?", label="clearance above")
    open_above: Truth = fact("Is the unit open to the sky?", label="open sky above the unit")

    @model_validator(mode="before")
    @classmethod
    def _read_open(cls, facts: Any) -> Any:
        """Take the word "open" for the top apart, so that a rule meets a length or a truth."""
        if not isinstance(facts, dict) or facts.get("top") != OPEN:
            return facts
        if facts.get("open_above") is False:
            raise ValueError("The top is 'open', yet open_above is false; leave one of them out.")
        return {key: value for key, value in facts.items() if key != "top"} | {"open_above": True}

    @model_validator(mode="after")
    def _open_has_no_height(self) -> Clearance:
        if self.open_above and self.top is not None:
            raise ValueError("The unit is open above, yet top states a length; leave one out.")
        return self


class Discharge(_Measured):
    """Where the cold air goes."""

    towards: Choice[Literal["open", "wall", "corner", "path", "fence", "planting", "window"]] = (
        fact("What does the unit blow towards?", label="what the air is blown towards")
    )
    distance_to_obstacle: Length = fact("How far is what the air meets first?")
    distance_to_path: Length = fact("How far is the nearest path that the cold air could ice?")


class Base(_Measured):
    """What the unit stands on."""

    kind: Choice[
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
    ] = fact("What does the unit stand on?", label="kind of base")
    level: Truth = fact("Is the base level?", "With a spirit level.", label="base in level")
    frost_free: Truth = fact("Is the base founded so that frost cannot lift it?")
    bears: Mass = fact(
        "What mass can it bear?",
        "From its maker or a structural engineer.",
        label="mass that the base bears",
    )
    wall: Choice[Literal["masonry", "concrete", "timber frame", "insulated facade"]] = fact(
        "What wall bears the bracket?", label="wall behind the bracket"
    )
    decoupled: Truth = fact("Does anything keep vibration out of the building?")


class Condensate(_Measured):
    """Where the melted frost goes."""

    to: Choice[Literal["soakaway", "drain", "gutter", "ground", "roof"]] = fact(
        "Where does the water go?", label="destination of the condensate"
    )
    pipe: Pipe = fact("What pipe takes it away?", label="condensate pipe")
    fall: Fraction = fact("With what fall is the pipe laid?", label="fall of the condensate pipe")
    heated: Truth = fact("Is the drain heated against freezing?")
    heater_power: Power = fact("What power has the drain heater?")
    trapped: Truth = fact("Has the drain a trap against foul air?")
    soakaway_depth: Length = fact("How deep is the soakaway?")
    over_path: Truth = fact("Can the water run over a path and freeze?")


class Opening(_Measured):
    """A place near the unit that leaked refrigerant or cold air could reach."""

    name: Text = fact("What opening is it?")
    kind: Choice[
        Literal["window", "door", "vent", "drain", "light well", "cellar", "ignition source"]
    ] = fact("What kind of opening is it?")
    distance: Length = fact("How far is it from the unit?", label="distance of the opening")
    below_unit: Truth = fact("Does it lie lower than the unit?")


class Receiver(_Measured):
    """A place where someone hears the unit."""

    name: Text = fact("Who or what hears the unit?")
    distance: Length = fact("How far is it?", label="distance of the receiver")
    reflecting_surfaces: Count = fact(
        "How many surfaces beside the unit reflect its sound towards there?",
        "Count ground and walls within a metre of the unit.",
    )
    screened: Choice[Literal["not", "partly", "fully"]] = fact(
        "Is the unit hidden from it by something solid?"
    )


class SnowHood(_Measured):
    """A roof over the unit against snow."""

    height_above: Length = fact("How far above the unit is it?", label="height of the snow hood")
    bears: AreaLoad = fact("What snow load does it bear?", label="load the snow hood bears")


class Placement(_Measured):
    """Where the outdoor unit stands."""

    on: Choice[Literal["ground", "wall", "flat roof", "pitched roof", "balcony", "frame"]] = fact(
        "What is the unit mounted on?", label="mounting"
    )
    faces: Choice[CompassPoint] = fact(
        "Where does the discharge side face?", "With a compass.", label="direction it faces"
    )
    height_below: Length = fact(
        "How high is the underside of the unit above the ground or roof below it?",
        label="height below the unit",
    )
    clearance: Clearance | None = fact("What space is around the unit?")
    discharge: Discharge | None = fact("Where does the air go?")
    base: Base | None = fact("What does the unit stand on?")
    feet: OrNone[Feet] = fact("What feet are put under the unit?")
    fixings: Choice[
        Literal["stainless steel", "galvanised steel", "zinc-plated steel", "aluminium", "none"]
    ] = fact("What metal are the fixings?")
    condensate: Condensate | None = fact("Where does the melted frost go?")
    snow_hood: OrNone[SnowHood] = fact("What roof is over the unit against snow?")
    wind_screen: Truth = fact("Is there a screen against the wind?")
    enclosed: Choice[Literal["not", "louvred housing", "niche", "courtyard"]] = fact(
        "Does anything enclose the unit?", label="enclosure"
    )
    access: Truth = fact("Can someone reach the unit for service without a ladder?")
    fall_protection: Truth = fact("Is there protection against falling where service works?")
    guarded_against: Choices[Literal["vehicles", "children", "animals", "theft", "leaves"]] = fact(
        "Against what is the unit guarded?"
    )
    in_a_hollow: Truth = fact("Does the unit stand in a hollow where gas could gather?")
    openings: Items[Opening] = fact("Which openings and ignition sources are near the unit?")
    hears: Items[Receiver] = fact("Who hears the unit?", label="places that hear the unit")
    distance_to_boundary: Length = fact("How far is the boundary of the plot?")
