"""Sound: limits of the place, and what is done to keep them."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class SoundLimit(
    Part,
    answered_by="designer",
    found_in="From the rules of the place, or the planning permission.",
):
    """Limits at the receiver."""

    day: t.SoundLevel = fact(
        "What level holds by day?", label="sound limit by day", example="50 dB"
    )
    night: t.SoundLevel = fact(
        "What level holds by night?", label="sound limit by night", example="40 dB"
    )


class Sound(Part, answered_by="designer", found_in="From the sound assessment."):
    """Sound."""

    limit: SoundLimit | None = fact("What sound limits hold here?")
    area_kind: t.Choice[
        Literal[
            "care",
            "quiet residential",
            "residential",
            "mixed",
            "urban",
            "business",
            "industry",
        ]
    ] = fact(
        "What kind of area is it?",
        "From the development plan of the authority; care: hospitals, nursing homes, spas.",
        label="kind of area",
        example="residential",
    )
    background: t.SoundLevel = fact(
        "How loud is it at night without the unit?",
        "By measuring.",
        label="level without the unit",
        example="32 dB",
    )
    tone_heard: t.Choice[Literal["not", "audible", "clear"]] = fact(
        "Can a single tone be heard in its noise?",
        "By listening beside the unit, or from its data sheet.",
        label="audible tone",
        example="not",
    )
    expected: t.SoundLevel = fact(
        "What level is expected at the worst place?", label="level to be expected", example="36 dB"
    )
    measures: t.Choices[
        Literal["screen", "quiet mode", "vibration mounts", "flexible hoses", "housing", "moved"]
    ] = fact(
        "What is done against sound?",
        label="measures against sound",
        example='["vibration mounts", "quiet mode"]',
    )
    screen_height: t.Length = fact(
        "How high is the screen?", "From the design, or measured on the spot.", example="1.5 m"
    )
    bedroom_wall: t.Truth = fact(
        "Is the unit fixed to the wall of a bedroom?",
        "From the drawing, or seen on the spot.",
        who="surveyor",
        example="false",
    )
