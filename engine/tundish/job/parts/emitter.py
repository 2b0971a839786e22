"""Emitters: radiators, heated floors and the like."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Loops(Part, answered_by="installer", found_in="From the drawing of the loops."):
    """The loops of a heated floor, wall or ceiling."""

    count: t.Count = fact("How many loops are there?", label="number of loops", example="4")
    longest: t.Length = fact("How long is the longest loop?", label="longest loop", example="85 m")
    length: t.Length = fact(
        "How long are all loops together?", label="length of all loops", example="300 m"
    )
    spacing: t.Length = fact(
        "How far apart are the pipes?", label="spacing of the pipes", example="150 mm"
    )
    pipe: t.Pipe = fact(
        "What pipe is it?",
        "Printed on the pipe.",
        label="pipe of the loops",
        example="PE-RT 16 x 2",
    )
    oxygen_barrier: t.Truth = fact(
        "Does the pipe keep oxygen out?",
        "Printed on the pipe.",
        label="oxygen barrier of the loops",
    )


class Emitter(
    Part, answered_by="installer", found_in="From the drawing or the maker's data sheet."
):
    """One emitter, or the loops of one room."""

    name: t.Text = fact(
        "What is the emitter called?",
        "Any name that tells it from others.",
        example="living room radiator",
    )
    room: t.Text = fact("In which room is it?", label="room of the emitter", example="living room")
    kind: t.Choice[
        Literal["radiator", "heated floor", "heated wall", "fan convector", "towel rail", "other"]
    ] = fact("What kind of emitter is it?", label="kind of emitter", example="radiator")
    output: t.Power = fact("What heat does it give at the design temperatures?", example="1.4 kW")
    standard_output: t.Power = fact("What output does its maker state?", example="4 kW")
    standard_difference: t.TemperatureDifference = fact(
        "For what excess temperature is that stated?", example="50 K"
    )
    exponent: t.Number = fact(
        "What exponent has its output?", label="exponent of the output", example="1.3"
    )
    volume: t.Volume = fact(
        "How much water is in it?", label="water content of the emitter", example="9 L"
    )
    shut_by: t.Choice[
        Literal["nothing", "thermostatic valve", "zone valve", "actuator", "hand valve"]
    ] = fact(
        "What can shut it?",
        "Seen at the emitter.",
        label="valve of the emitter",
        example="thermostatic valve",
    )
    flow: t.Flow = fact(
        "What flow does it need?",
        "From the design: its heat and how far the water cools in it.",
        label="flow of the emitter",
        example="4 L/min",
    )
    pressure_loss: t.Pressure = fact(
        "What pressure is lost in it at its flow, its valve left out?",
        label="pressure loss in the emitter",
        example="2 kPa",
    )
    valve_kv: t.Flow = fact(
        "What flow passes its valve at a pressure loss of 1 bar (Kv)?",
        label="Kv of its valve",
        example="0.6 m3/h",
    )
    highest_temperature: t.Temperature = fact(
        "How warm may its water be at most?", example="55 degC"
    )
    floor_covering: t.Choice[Literal["tile", "stone", "timber", "carpet", "vinyl"]] = fact(
        "What covers the floor?", "Seen in the room.", example="tile"
    )
    area: t.Area = fact("What area is heated?", label="heated area", example="24 m2")
    balanced: t.Truth = fact(
        "Is it balanced?",
        "From the record of the balancing, or the setting of its valve.",
        label="balancing",
    )
    loops: Loops | None = fact("What loops has it?")
