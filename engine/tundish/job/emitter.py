"""Emitters: radiators, heated floors and the like."""

from typing import ClassVar, Literal

from tundish.job.part import (
    Area,
    Choice,
    Count,
    Flow,
    Length,
    Number,
    Part,
    Pipe,
    Power,
    Pressure,
    Temperature,
    TemperatureDifference,
    Text,
    Truth,
    Volume,
    Who,
    fact,
)


class Loops(Part):
    """The loops of a heated floor, wall or ceiling."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "From the drawing of the loops."

    count: Count = fact("How many loops are there?", label="number of loops")
    longest: Length = fact("How long is the longest loop?", label="longest loop")
    length: Length = fact("How long are all loops together?", label="length of all loops")
    spacing: Length = fact("How far apart are the pipes?", label="spacing of the pipes")
    pipe: Pipe = fact("What pipe is it?", label="pipe of the loops")
    oxygen_barrier: Truth = fact(
        "Does the pipe keep oxygen out?", label="oxygen barrier of the loops"
    )


class Emitter(Part):
    """One emitter, or the loops of one room."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "From the drawing or the maker's data sheet."

    name: Text = fact("What is the emitter called?")
    room: Text = fact("In which room is it?", label="room of the emitter")
    kind: Choice[
        Literal["radiator", "heated floor", "heated wall", "fan convector", "towel rail", "other"]
    ] = fact("What kind of emitter is it?", label="kind of emitter")
    output: Power = fact("What heat does it give at the design temperatures?", label="output")
    standard_output: Power = fact("What output does its maker state?")
    standard_difference: TemperatureDifference = fact("For what excess temperature is that stated?")
    exponent: Number = fact("What exponent has its output?", label="exponent of the output")
    volume: Volume = fact("How much water is in it?", label="water content of the emitter")
    shut_by: Choice[
        Literal["nothing", "thermostatic valve", "zone valve", "actuator", "hand valve"]
    ] = fact("What can shut it?", label="valve of the emitter")
    flow: Flow = fact("What flow does it need?", label="flow of the emitter")
    pressure_loss: Pressure = fact(
        "What pressure is lost in it at its flow, its valve left out?",
        label="pressure loss in the emitter",
    )
    valve_kv: Flow = fact(
        "What flow passes its valve at a pressure loss of 1 bar (Kv)?", label="Kv of its valve"
    )
    highest_temperature: Temperature = fact("How warm may its water be at most?")
    floor_covering: Choice[Literal["tile", "stone", "timber", "carpet", "vinyl"]] = fact(
        "What covers the floor?"
    )
    area: Area = fact("What area is heated?", label="heated area")
    balanced: Truth = fact("Is it balanced?")
    loops: Loops | None = fact("What loops has it?")
