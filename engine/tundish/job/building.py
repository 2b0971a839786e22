"""The building: its heat loss, rooms and use."""

from typing import ClassVar, Literal

from tundish.job.part import (
    Area,
    Choice,
    Choices,
    Count,
    Energy,
    HeatLossPerDegree,
    Items,
    Part,
    Power,
    Temperature,
    Text,
    Truth,
    Volume,
    fact,
)


class Room(Part):
    """A heated room."""

    found_in: ClassVar[str] = "From the room-by-room heat loss calculation."

    name: Text = fact("What is the room called?")
    heat_loss: Power = fact("What heat does the room lose at the design temperature?")
    temperature: Temperature = fact("How warm shall the room be?", label="room temperature")
    area: Area = fact("What is the floor area of the room?", label="floor area")


class Building(Part):
    """What is heated."""

    found_in: ClassVar[str] = "From the heat loss calculation or the drawings."

    kind: Choice[Literal["detached", "semi-detached", "terraced", "flat", "other"]] = fact(
        "What kind of building is it?", "By looking.", label="kind of building"
    )
    use: Choice[Literal["dwelling", "holiday home", "workplace", "mixed"]] = fact(
        "What is the building used for?", "Ask the customer.", who="customer"
    )
    design_heat_loss: Power = fact("What heat does the building lose at the design temperature?")
    heat_loss_method: Choice[
        Literal["room by room", "whole building", "from fuel used", "guess"]
    ] = fact("How was the heat loss found?")
    heat_loss_coefficient: HeatLossPerDegree = fact("What heat is lost for each degree?")
    indoor_temperature: Temperature = fact("How warm shall it be indoors?", who="customer")
    balance_temperature: Temperature = fact("Above which outdoor air is no heating needed?")
    yearly_heat: Energy = fact("What heat does the building need in a year?")
    floor_area: Area = fact("What is the heated floor area?")
    heated_volume: Volume = fact("What volume is heated?")
    occupants: Count = fact(
        "How many people live here?",
        "Ask the customer.",
        who="customer",
        label="number of occupants",
    )
    left_empty_in_winter: Truth = fact(
        "Is the building left empty for weeks in winter?", "Ask the customer.", who="customer"
    )
    asbestos: Choices[Literal["roof", "wall", "flue", "boxing", "other"]] = fact(
        "Where is asbestos known or suspected?", "From the asbestos register.", who="surveyor"
    )
    rooms: Items[Room] = fact("Which rooms are heated?")
