"""The building: its heat loss, rooms and use."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Room(Part, found_in="From the room-by-room heat loss calculation."):
    """A heated room."""

    name: t.Text = fact(
        "What is the room called?", "As the heat loss calculation names it.", example="living room"
    )
    heat_loss: t.Power = fact(
        "What heat does the room lose at the design temperature?", example="1.4 kW"
    )
    temperature: t.Temperature = fact(
        "How warm shall the room be?", label="room temperature", example="20 degC"
    )
    area: t.Area = fact("What is the floor area of the room?", label="floor area", example="24 m2")


class Building(Part, found_in="From the heat loss calculation or the drawings."):
    """What is heated."""

    kind: t.Choice[Literal["detached", "semi-detached", "terraced", "flat", "other"]] = fact(
        "What kind of building is it?", "By looking.", label="kind of building", example="detached"
    )
    use: t.Choice[Literal["dwelling", "holiday home", "workplace", "mixed"]] = fact(
        "What is the building used for?", "Ask the customer.", who="customer", example="dwelling"
    )
    design_heat_loss: t.Power = fact(
        "What heat does the building lose at the design temperature?", example="7.2 kW"
    )
    heat_loss_method: t.Choice[
        Literal["room by room", "whole building", "from fuel used", "guess"]
    ] = fact("How was the heat loss found?", example="room by room")
    heat_loss_coefficient: t.HeatLossPerDegree = fact(
        "What heat is lost for each degree?", example="320 W/K"
    )
    indoor_temperature: t.Temperature = fact(
        "How warm shall it be indoors?",
        "Ask the customer; the heat loss calculation says what it was made for.",
        who="customer",
        example="20 degC",
    )
    balance_temperature: t.Temperature = fact(
        "Above which outdoor air is no heating needed?", example="15 degC"
    )
    occupants: t.Count = fact(
        "How many people live here?",
        "Ask the customer.",
        who="customer",
        label="number of occupants",
        example="4",
    )
    asbestos: t.Choices[Literal["roof", "wall", "flue", "boxing", "other"]] = fact(
        "Where is asbestos known or suspected?",
        "From the asbestos register.",
        who="surveyor",
        example="[]",
    )
    rooms: t.Items[Room] = fact("Which rooms are heated?")
