"""Receivers: the places where someone hears the unit, and what else is heard there."""

from typing import ClassVar, Literal

from tundish.job.common import Side
from tundish.job.part import Choice, Count, Items, Length, Part, SoundLevel, Text, Truth, Who, fact


class _Heard(Part):
    """The way of sound from a source to a receiver."""

    answered_by: ClassVar[Who] = "surveyor"
    found_in: ClassVar[str] = "Measured at the place of the unit."

    distance: Length = fact("How far is it?", label="distance of the receiver")
    reflecting_surfaces: Count = fact(
        "How many surfaces reflect the sound towards there, the ground counted as one?",
        "Count the ground and each wall within a metre of the unit.",
        label="number of reflecting surfaces",
    )
    screened: Choice[Literal["not", "partly", "fully"]] = fact(
        "Is the unit hidden from it by something solid?",
        "Partly: a step of 25 cm aside would show it.",
        label="screening",
    )
    detour: Length = fact(
        "How much longer is the way over the edge of the screen than the straight one?",
        "Drawn to scale: unit to edge and edge to receiver, less unit to receiver.",
        label="detour over the screen",
    )


class OtherSource(_Heard):
    """Another unit that the receiver hears at the same time."""

    name: Text = fact("Which other unit is heard?", label="other unit that is heard")
    same_home: Truth = fact(
        "Does the other unit belong to the same home?", label="other unit of the same home"
    )
    sound_power_day: SoundLevel = fact(
        "What sound power has the other unit by day?", "From its data sheet."
    )
    sound_power_night: SoundLevel = fact(
        "What sound power has the other unit by night?", "From its data sheet."
    )


class Receiver(_Heard):
    """A place where someone hears the unit."""

    name: Text = fact("Who or what hears the unit?")
    side: Choice[Side] = fact(
        "On which side of the unit does it lie?",
        "Front is where the air is blown out; left and right as seen from there.",
        label="side of the receiver",
    )
    whose: Choice[Literal["neighbour", "own home"]] = fact(
        "Is it a neighbour's or of the home itself?", label="owner of the receiver"
    )
    kind: Choice[Literal["bedroom", "other living room", "garden", "boundary"]] = fact(
        "What is there?",
        "Of a room: the outside of its window, or of a door to it.",
        label="kind of receiver",
    )
    also_hears: Items[OtherSource] = fact(
        "Which other units are heard there?", label="other units that are heard"
    )
    measured_day: SoundLevel = fact(
        "What level was measured there by day?", label="measured level by day"
    )
    measured_night: SoundLevel = fact(
        "What level was measured there by night?", label="measured level by night"
    )
