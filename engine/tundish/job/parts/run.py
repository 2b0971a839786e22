"""A run of pipe, with its insulation."""

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import FlowOrReturn, Surroundings


class Insulation(
    Part, answered_by="installer", found_in="Printed on the insulation, seen or measured."
):
    """Insulation around a pipe."""

    thickness: t.Length = fact(
        "How thick is the insulation?", label="insulation thickness", example="25 mm"
    )
    conductivity: t.ThermalConductivity = fact(
        "What thermal conductivity has it?",
        "From its data sheet, at the temperature stated there.",
        label="insulation conductivity",
        example="0.036 W/(m.K)",
    )
    sun_cover: t.Truth = fact("Is it covered against sun and birds?", label="cover against sun")
    closed_joints: t.Truth = fact(
        "Are joints, bends and valves closed as well?", label="closing of the joints"
    )
    metal_jacket: t.Truth = fact("Is its outermost layer bare metal?", example="false")
    pre_insulated: t.Truth = fact(
        "Did pipe and insulation come as one, in a casing that keeps ground water out?",
        label="pre-insulated pipe",
        example="false",
    )
    closed_cell: t.Truth = fact(
        "Is it of closed cells, so that it takes up no water?", label="closed cells"
    )


class Run(Part, answered_by="installer", found_in="From the drawing, or measured on the spot."):
    """A run of pipe of one size in one place."""

    name: t.Text = fact(
        "What is the run called?",
        "Any name that tells it from others.",
        example="flow, unit to house wall",
    )
    pipe: t.Pipe = fact(
        "What pipe is it?", "Printed on the pipe.", label="pipe size", example="copper 28 x 0.9"
    )
    length: t.Length = fact("How long is the run?", label="length of the run", example="6 m")
    place: t.Choice[Surroundings] = fact(
        "Where does it run?", label="surroundings of the run", example="heated room"
    )
    carries: t.Choice[FlowOrReturn] = fact(
        "Does it carry flow or return?", label="direction of the run", example="flow"
    )
    always_open: t.Truth = fact(
        "Can water always circulate through it, whatever valves do?", label="free circulation"
    )
    serves_cylinder: t.Truth = fact(
        "Does water on its way to or from the cylinder pass through it?",
        label="use for hot water",
        example="false",
    )
    feeds: t.Texts = fact(
        "Which emitters does it feed, by their names?",
        'Write ["all"] where the whole flow passes it.',
        label="emitters that it feeds",
        example='["living room", "hall"]',
    )
    insulation: t.OrNone[Insulation] = fact("What insulates it?")
    bends: t.Count = fact("How many bends has it?", label="number of bends", example="4")
    tees: t.Count = fact("How many tees has it?", label="number of tees", example="1")
    valves: t.Count = fact("How many valves are in it?", label="number of valves", example="1")
    loss_coefficient: t.Number = fact(
        "What is the sum of the loss coefficients of its fittings?",
        "From the data sheets of the fittings, added up.",
        example="3.5",
    )
    flows_down: t.Truth = fact(
        "Does water flow down in it?", label="downward flow", example="false"
    )
    connection_thread: t.Text = fact("What thread or size has its end?", example="G 1")
    volume: t.Volume = fact(
        "How much water is in it, if it is no plain pipe?", label="water in the run", example="5 L"
    )
    surrounding_temperature: t.Temperature = fact(
        "How cold can it get around it?",
        "In the coldest night at its coldest stretch.",
        example="5 degC",
    )
    burial_depth: t.Length = fact(
        "How deep does it lie in the ground?", label="depth of the pipe", example="800 mm"
    )
    falls_to_drain: t.Truth = fact(
        "Does it fall to a drain valve all the way, so that it can be emptied?",
        label="fall to a drain valve",
    )
    oxygen_barrier: t.Truth = fact(
        "Does the pipe keep oxygen out?", "Printed on the pipe; metal keeps oxygen out."
    )
    flexible: t.Truth = fact("Is it a flexible hose?", label="flexible hose", example="false")
    sleeved: t.Truth = fact(
        "Where it passes a wall, does it do so in a sealed sleeve?", label="sealed sleeve"
    )
    supported: t.Truth = fact("Is it held so that it loads no connection?", label="clamping")
