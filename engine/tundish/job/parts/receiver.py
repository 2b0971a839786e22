"""Receivers: the places where someone hears the unit, and what else is heard there."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import Side


class _Heard(Part, answered_by="surveyor", found_in="Seen or measured at the place of the unit."):
    """The way of sound from a source to a receiver."""

    distance: t.Length = fact(
        "How far is it from the unit to there?", label="distance of the receiver", example="9 m"
    )
    reflecting_surfaces: t.Count = fact(
        "How many surfaces reflect the sound towards there, the ground counted as one?",
        "Count the ground and each wall within a metre of the unit.",
        label="number of reflecting surfaces",
        example="2",
    )
    screened: t.Choice[Literal["not", "partly", "fully"]] = fact(
        "Is the unit hidden from it by something solid?",
        "Partly: a step of 25 cm aside would show it.",
        label="screening",
        example="not",
    )
    detour: t.Length = fact(
        "How much longer is the way over the edge of the screen than the straight one?",
        "Drawn to scale: unit to edge and edge to receiver, less unit to receiver.",
        label="detour over the screen",
        example="0.4 m",
    )


class OtherSource(_Heard):
    """Another unit that the receiver hears at the same time."""

    name: t.Text = fact(
        "Which other unit is heard?",
        "Any name that tells it from others.",
        label="other unit that is heard",
        example="unit of the house next door",
    )
    same_home: t.Truth = fact(
        "Does the other unit belong to the same home?",
        label="other unit of the same home",
        example="false",
    )
    sound_power_day: t.SoundLevel = fact(
        "What sound power has the other unit by day?", "From its data sheet.", example="60 dB"
    )
    sound_power_night: t.SoundLevel = fact(
        "What sound power has the other unit by night?", "From its data sheet.", example="55 dB"
    )


class Receiver(_Heard):
    """A place where someone hears the unit."""

    name: t.Text = fact(
        "Who or what hears the unit?",
        "Any name that tells it from others.",
        example="neighbour's bedroom window",
    )
    side: t.Choice[Side] = fact(
        "On which side of the unit does it lie?",
        "Front is where the air is blown out; left and right as seen from there.",
        label="side of the receiver",
        example="front",
    )
    whose: t.Choice[Literal["neighbour", "own home"]] = fact(
        "Is it a neighbour's or of the home itself?",
        label="owner of the receiver",
        example="neighbour",
    )
    kind: t.Choice[Literal["bedroom", "other living room", "garden", "boundary"]] = fact(
        "What is there?",
        "Of a room: the outside of its window, or of a door to it.",
        label="kind of receiver",
        example="bedroom",
    )
    also_hears: t.Items[OtherSource] = fact(
        "Which other units are heard there?", label="other units that are heard"
    )
    measured_day: t.SoundLevel = fact(
        "What level was measured there by day?",
        "With a sound level meter, outside the window while the unit runs.",
        label="measured level by day",
        example="38 dB",
    )
    measured_night: t.SoundLevel = fact(
        "What level was measured there by night?",
        "With a sound level meter, outside the window while the unit runs.",
        label="measured level by night",
        example="33 dB",
    )
