"""A run of pipe, with its insulation."""

from typing import ClassVar

from tundish.job.model.part import (
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
from tundish.job.parts.common import FlowOrReturn, Surroundings


class Insulation(Part):
    """Insulation around a pipe."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "Printed on the insulation, seen or measured."

    thickness: Length = fact(
        "How thick is the insulation?", label="insulation thickness", example="25 mm"
    )
    conductivity: ThermalConductivity = fact(
        "What thermal conductivity has it?",
        "From its data sheet, at the temperature stated there.",
        label="insulation conductivity",
        example="0.036 W/(m.K)",
    )
    sun_cover: Truth = fact("Is it covered against sun and birds?", label="cover against sun")
    closed_joints: Truth = fact(
        "Are joints, bends and valves closed as well?", label="closing of the joints"
    )
    metal_jacket: Truth = fact(
        "Is its outermost layer bare metal?", label="metal jacket", example="false"
    )
    pre_insulated: Truth = fact(
        "Did pipe and insulation come as one, in a casing that keeps ground water out?",
        label="pre-insulated pipe",
        example="false",
    )
    closed_cell: Truth = fact(
        "Is it of closed cells, so that it takes up no water?", label="closed cells"
    )


class Run(Part):
    """A run of pipe of one size in one place."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "From the drawing, or measured on the spot."

    name: Text = fact(
        "What is the run called?",
        "Any name that tells it from others.",
        example="flow, unit to house wall",
    )
    pipe: Pipe = fact(
        "What pipe is it?", "Printed on the pipe.", label="pipe size", example="copper 28 x 0.9"
    )
    length: Length = fact("How long is the run?", label="length of the run", example="6 m")
    place: Choice[Surroundings] = fact(
        "Where does it run?", label="surroundings of the run", example="heated room"
    )
    carries: Choice[FlowOrReturn] = fact(
        "Does it carry flow or return?", label="direction of the run", example="flow"
    )
    always_open: Truth = fact(
        "Can water always circulate through it, whatever valves do?", label="free circulation"
    )
    serves_cylinder: Truth = fact(
        "Does water on its way to or from the cylinder pass through it?",
        label="use for hot water",
        example="false",
    )
    feeds: Texts = fact(
        "Which emitters does it feed, by their names, where it does not feed all of them?",
        label="emitters that it feeds",
        example='["living room", "hall"]',
    )
    insulation: OrNone[Insulation] = fact("What insulates it?")
    bends: Count = fact("How many bends has it?", label="number of bends", example="4")
    tees: Count = fact("How many tees has it?", label="number of tees", example="1")
    valves: Count = fact("How many valves are in it?", label="number of valves", example="1")
    loss_coefficient: Number = fact(
        "What is the sum of the loss coefficients of its fittings?",
        "From the data sheets of the fittings, added up.",
        example="3.5",
    )
    flows_down: Truth = fact("Does water flow down in it?", label="downward flow", example="false")
    connection_thread: Text = fact("What thread or size has its end?", example="G 1")
    volume: Volume = fact(
        "How much water is in it, if it is no plain pipe?", label="water in the run", example="5 L"
    )
    surrounding_temperature: Temperature = fact(
        "How cold can it get around it?",
        "In the coldest night at its coldest stretch.",
        example="5 degC",
    )
    burial_depth: Length = fact(
        "How deep does it lie in the ground?", label="depth of the pipe", example="800 mm"
    )
    falls_to_drain: Truth = fact(
        "Does it fall to a drain valve all the way, so that it can be emptied?",
        label="fall to a drain valve",
    )
    oxygen_barrier: Truth = fact(
        "Does the pipe keep oxygen out?", "Printed on the pipe; metal keeps oxygen out."
    )
    flexible: Truth = fact("Is it a flexible hose?", label="flexible hose", example="false")
    sleeved: Truth = fact(
        "Where it passes a wall, does it do so in a sealed sleeve?", label="sealed sleeve"
    )
    supported: Truth = fact("Is it held so that it loads no connection?", label="clamping")
