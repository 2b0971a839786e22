"""What the data sheet states about the water side of the unit."""

from __future__ import annotations

from typing import Literal

from tundish.job.part import (
    Area,
    Choice,
    Choices,
    ElectricalConductivity,
    Flow,
    Fraction,
    Hardness,
    Items,
    Length,
    Number,
    Pressure,
    Temperature,
    TemperatureDifference,
    Text,
    Texts,
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
        "Which glycol may be used?"
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
    relief_valve: Pressure = fact("At what pressure does the built-in relief valve open?")
    highest_pressure: Pressure = fact("What water pressure may not be passed?")
    lowest_pressure: Pressure = fact("What water pressure is the least to run?")
    expansion_vessel: Volume = fact("How large is the built-in expansion vessel?")
    glycol_allowed: GlycolAllowed | None = fact("May glycol be used?")
    frost_valves_allowed: Truth = fact("May antifreeze valves be used?")
    farthest_cylinder: Length = fact(
        "How far away may the cylinder be?", label="farthest distance of the cylinder"
    )
    smallest_coil_area: Area = fact("What coil does it ask of the cylinder?")
    mesh: Length = fact("What mesh must the filter have?", label="mesh of the filter")
    highest_hardness: Hardness = fact("How hard may the water be?")
    highest_conductivity: ElectricalConductivity = fact("What conductivity may the water have?")
    lowest_ph: Number = fact("What pH is the least?", label="lowest pH")
    highest_ph: Number = fact("What pH is the most?", label="highest pH")
    flow_switch: Choice[Literal["built in", "to be added", "none"]] = fact("Has it a flow switch?")
    frost_circulation_below: Temperature = fact("Below what water does it circulate against frost?")
    supplied: Texts = fact("What comes in the box for the water side?", label="supplied parts")
    unit_height_limit: Length = fact("How much higher than the unit may emitters stand?")
