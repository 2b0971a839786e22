"""Sound: limits of the place, and what is done to keep them."""

from typing import ClassVar, Literal

from tundish.job.part import Choice, Choices, Length, Part, SoundLevel, Text, Truth, Who, fact


class SoundLimit(Part):
    """Limits at the receiver."""

    answered_by: ClassVar[Who] = "designer"
    found_in: ClassVar[str] = "From the rules of the place, or the planning permission."

    day: SoundLevel = fact("What level holds by day?", label="sound limit by day")
    night: SoundLevel = fact("What level holds by night?", label="sound limit by night")


class Sound(Part):
    """Sound."""

    answered_by: ClassVar[Who] = "designer"
    found_in: ClassVar[str] = "From the sound assessment."

    limit: SoundLimit | None = fact("What sound limits hold here?")
    area_kind: Choice[
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
    )
    background: SoundLevel = fact(
        "How loud is it at night without the unit?", "By measuring.", label="level without the unit"
    )
    method: Text = fact("By which method was the sound assessed?")
    tone_heard: Choice[Literal["not", "audible", "clear"]] = fact(
        "Can a single tone be heard in its noise?", label="audible tone"
    )
    expected: SoundLevel = fact(
        "What level is expected at the worst place?", label="level to be expected"
    )
    measures: Choices[
        Literal["screen", "quiet mode", "vibration mounts", "flexible hoses", "housing", "moved"]
    ] = fact("What is done against sound?", label="measures against sound")
    screen_height: Length = fact("How high is the screen?")
    bedroom_wall: Truth = fact("Is the unit fixed to the wall of a bedroom?", who="surveyor")
