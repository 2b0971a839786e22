"""What the data sheet states about the water side of the unit."""

from typing import Literal

from tundish.job.part import (
    PH,
    Area,
    Choice,
    Choices,
    ElectricalConductivity,
    Flow,
    Fraction,
    Hardness,
    Items,
    Length,
    Pressure,
    Temperature,
    TemperatureDifference,
    Text,
    Truth,
    Volume,
    fact,
)
from tundish.job.unit_parts import UnitPart


class PumpPoint(UnitPart):
    """One point of the pump curve."""

    flow: Flow = fact("At what flow?", label="flow")
    head: Pressure = fact("What pressure is left for the installation?", label="pump head")


class PressureLossPoint(UnitPart):
    """The pressure loss inside the unit at one flow."""

    flow: Flow = fact("At what flow?", label="flow")
    loss: Pressure = fact("What pressure is lost in the unit?", label="pressure loss in the unit")


class GlycolAllowed(UnitPart):
    """Whether glycol may be used."""

    allowed: Truth = fact("May glycol be used?", label="permission of glycol")
    highest_fraction: Fraction = fact("How much glycol may there be?")
    kinds: Choices[Literal["propylene glycol", "ethylene glycol"]] = fact(
        "Which glycol may be used?", label="kinds of glycol that the unit allows"
    )
    needs_flow_switch: Truth = fact("Does glycol call for a flow switch?")
    inhibited: Truth = fact("Must the glycol be inhibited?")


class UnitWater(UnitPart):
    """The water side of the unit."""

    minimum_flow: Flow = fact("What flow does the unit need to run?")
    nominal_flow: Flow = fact("At what flow is it rated?")
    maximum_flow: Flow = fact("What flow may not be passed?")
    minimum_defrost_flow: Flow = fact("What flow does a defrost need?")
    minimum_free_volume: Volume = fact("How much water must be free to circulate?")
    content: Volume = fact("How much water is in the unit?", label="water content of the unit")
    connection: Text = fact("What thread or size is the connection?", label="water connection")
    temperature_difference: TemperatureDifference = fact("For what difference is it rated?")
    pressure_loss: PressureLossPoint | None = fact("What pressure is lost in the unit?")
    pump_head: Items[PumpPoint] = fact("What does the built-in pump give?")
    pump: Choice[Literal["built in", "to be added"]] = fact("Is the pump in the unit?")
    relief_valve: Pressure = fact(
        "At what pressure does the built-in relief valve open?",
        label="opening pressure of the unit's own relief valve",
    )
    highest_pressure: Pressure = fact(
        "What water pressure may not be passed?", label="highest water pressure of the unit"
    )
    lowest_pressure: Pressure = fact(
        "What water pressure is the least to run?", label="least water pressure of the unit"
    )
    expansion_vessel: Volume = fact(
        "How large is the built-in expansion vessel?", label="expansion vessel in the unit"
    )
    expansion_vessel_precharge: Pressure = fact(
        "To what pressure is the built-in expansion vessel charged with gas?",
        label="precharge of the vessel in the unit",
    )
    built_in: Choices[Literal["relief valve", "expansion vessel"]] = fact(
        "Which of these are built into its water side?", label="safety parts built into the unit"
    )
    glycol_allowed: GlycolAllowed | None = fact("May glycol be used?")
    frost_valves_allowed: Truth = fact("May antifreeze valves be used?")
    farthest_cylinder: Length = fact(
        "How far away may the cylinder be?", label="farthest distance of the cylinder"
    )
    smallest_coil_area: Area = fact("What coil does it ask of the cylinder?")
    mesh: Length = fact("What mesh must the filter have?", label="mesh that the unit asks for")
    highest_hardness: Hardness = fact(
        "How hard may the water be?", label="hardness that the unit allows"
    )
    highest_conductivity: ElectricalConductivity = fact(
        "What conductivity may the water have?", label="conductivity that the unit allows"
    )
    lowest_ph: PH = fact("What pH is the least?", label="lowest pH that the unit allows")
    highest_ph: PH = fact("What pH is the most?", label="highest pH that the unit allows")
    flow_switch: Choice[Literal["built in", "to be added", "none"]] = fact("Has it a flow switch?")
    frost_circulation_below: Temperature = fact("Below what water does it circulate against frost?")
    supplied: Choices[
        Literal[
            "flow isolation valve",
            "return isolation valve",
            "return isolation valve with filter",
            "filter",
            "flow switch",
            "flexible hoses",
            "antifreeze valves",
            "drain valve",
            "air vent",
            "relief valve",
            "other",
        ]
    ] = fact("What comes in the box for the water side?", label="parts that come with the unit")
    shows: Choices[Literal["flow", "flow temperature", "return temperature", "pressure"]] = fact(
        "Which of these can be read on the unit or its controller?",
        label="readings that the unit shows",
    )
    unit_height_limit: Length = fact("How much higher than the unit may emitters stand?")
