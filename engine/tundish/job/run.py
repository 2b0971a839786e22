"""A run of pipe, with its insulation."""

from typing import ClassVar

from tundish.job.common import FlowOrReturn, Surroundings
from tundish.job.part import (
    Choice,
    Count,
    Length,
    Number,
    OrNone,
    Part,
    Pipe,
    Temperature,
    Text,
    Texts,
    ThermalConductivity,
    Truth,
    Volume,
    Who,
    fact,
)


class Insulation(Part):
    """Insulation around a pipe."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "Printed on the insulation, or measured."

    thickness: Length = fact("How thick is the insulation?", label="insulation thickness")
    conductivity: ThermalConductivity = fact(
        "What thermal conductivity has it?",
        "From its data sheet, at the temperature stated there.",
        label="insulation conductivity",
    )
    sun_cover: Truth = fact("Is it covered against sun and birds?", label="cover against sun")
    closed_joints: Truth = fact(
        "Are joints, bends and valves closed as well?", label="closing of the joints"
    )
    metal_jacket: Truth = fact("Is its outermost layer bare metal?", label="metal jacket")
    pre_insulated: Truth = fact(
        "Did pipe and insulation come as one, in a casing that keeps ground water out?",
        label="pre-insulated pipe",
    )
    closed_cell: Truth = fact(
        "Is it of closed cells, so that it takes up no water?", label="closed cells"
    )


class Run(Part):
    """A run of pipe of one size in one place."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "From the drawing, or measured on the spot."

    name: Text = fact("What is the run called?")
    pipe: Pipe = fact("What pipe is it?", "Printed on the pipe.", label="pipe size")
    length: Length = fact("How long is the run?", label="length of the run")
    place: Choice[Surroundings] = fact("Where does it run?", label="surroundings of the run")
    carries: Choice[FlowOrReturn] = fact(
        "Does it carry flow or return?", label="direction of the run"
    )
    always_open: Truth = fact(
        "Can water always circulate through it, whatever valves do?", label="free circulation"
    )
    serves_cylinder: Truth = fact(
        "Does water on its way to or from the cylinder pass through it?",
        label="use for hot water",
    )
    feeds: Texts = fact(
        "Which emitters does it feed, by their names, where it does not feed all of them?",
        label="emitters that it feeds",
    )
    insulation: OrNone[Insulation] = fact("What insulates it?")
    bends: Count = fact("How many bends has it?", label="number of bends")
    tees: Count = fact("How many tees has it?", label="number of tees")
    valves: Count = fact("How many valves are in it?", label="number of valves")
    loss_coefficient: Number = fact("What is the sum of the loss coefficients of its fittings?")
    flows_down: Truth = fact("Does water flow down in it?", label="downward flow")
    connection_thread: Text = fact("What thread or size has its end?")
    volume: Volume = fact(
        "How much water is in it, if it is no plain pipe?", label="water in the run"
    )
    surrounding_temperature: Temperature = fact("How cold can it get around it?")
    burial_depth: Length = fact("How deep does it lie in the ground?", label="depth of the pipe")
    falls_to_drain: Truth = fact(
        "Does it fall to a drain valve all the way, so that it can be emptied?",
        label="fall to a drain valve",
    )
    oxygen_barrier: Truth = fact("Does the pipe keep oxygen out?")
    flexible: Truth = fact("Is it a flexible hose?", label="flexible hose")
    sleeved: Truth = fact(
        "Where it passes a wall, does it do so in a sealed sleeve?", label="sealed sleeve"
    )
    supported: Truth = fact("Is it held so that it loads no connection?", label="clamping")
