"""What the data sheet states about the water side of the unit."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import fact
from tundish.job.parts.unit_parts import UnitPart


class PumpPoint(UnitPart):
    """One point of the pump curve."""

    flow: t.Flow = fact("At what flow is this loss of pressure stated?", example="23 L/min")
    head: t.Pressure = fact(
        "What pressure is left for the installation?", label="pump head", example="62 kPa"
    )


class PressureLossPoint(UnitPart):
    """The pressure loss inside the unit at one flow."""

    flow: t.Flow = fact("At what flow does the pump leave this pressure?", example="23 L/min")
    loss: t.Pressure = fact(
        "What pressure is lost in the unit?", label="pressure loss in the unit", example="14 kPa"
    )


class GlycolAllowed(UnitPart):
    """Whether glycol may be used."""

    allowed: t.Truth = fact("May glycol be used?", label="permission of glycol")
    highest_fraction: t.Fraction = fact("How much glycol may there be?", example="35 %")
    kinds: t.Choices[Literal["propylene glycol", "ethylene glycol"]] = fact(
        "Which glycol may be used?",
        label="kinds of glycol that the unit allows",
        example='["propylene glycol"]',
    )
    needs_flow_switch: t.Truth = fact(
        "Does glycol call for a flow switch?", label="need for a flow switch"
    )


class UnitWater(UnitPart):
    """The water side of the unit."""

    minimum_flow: t.Flow = fact("What flow does the unit need to run?", example="16 L/min")
    nominal_flow: t.Flow = fact("At what flow is it rated?", example="23 L/min")
    maximum_flow: t.Flow = fact("What flow may not be passed?", example="36 L/min")
    minimum_defrost_flow: t.Flow = fact("What flow does a defrost need?", example="20 L/min")
    minimum_free_volume: t.Volume = fact(
        "How much water must be free to circulate?", example="40 L"
    )
    content: t.Volume = fact(
        "How much water is in the unit?", label="water content of the unit", example="3.2 L"
    )
    connection: t.Text = fact(
        "What thread or size is the connection?", label="water connection", example="G 1"
    )
    pressure_loss: PressureLossPoint | None = fact("What pressure is lost in the unit?")
    pump_head: t.Items[PumpPoint] = fact("What does the built-in pump give?")
    pump: t.Choice[Literal["built in", "to be added"]] = fact(
        "Is the pump in the unit?", example="built in"
    )
    relief_valve: t.Pressure = fact(
        "At what pressure does the built-in relief valve open?",
        label="opening pressure of the unit's own relief valve",
        example="3 bar",
    )
    highest_pressure: t.Pressure = fact(
        "What water pressure may not be passed?",
        label="highest water pressure of the unit",
        example="3 bar",
    )
    lowest_pressure: t.Pressure = fact(
        "What water pressure is the least to run?",
        label="least water pressure of the unit",
        example="0.8 bar",
    )
    expansion_vessel: t.Volume = fact(
        "How large is the built-in expansion vessel?",
        label="expansion vessel in the unit",
        example="8 L",
    )
    expansion_vessel_precharge: t.Pressure = fact(
        "To what pressure is the built-in expansion vessel charged with gas?",
        label="precharge of the vessel in the unit",
        example="1 bar",
    )
    built_in: t.Choices[Literal["relief valve", "expansion vessel"]] = fact(
        "Which of these are built into its water side?",
        label="safety parts built into the unit",
        example='["relief valve", "expansion vessel"]',
    )
    glycol_allowed: GlycolAllowed | None = fact("May glycol be used?")
    frost_valves_allowed: t.Truth = fact(
        "May antifreeze valves be used?", label="permission for antifreeze valves"
    )
    farthest_cylinder: t.Length = fact(
        "How far away may the cylinder be?",
        label="farthest distance of the cylinder",
        example="15 m",
    )
    smallest_coil_area: t.Area = fact("What coil does it ask of the cylinder?", example="2 m2")
    mesh: t.Length = fact(
        "What mesh must the filter have?", label="mesh that the unit asks for", example="0.8 mm"
    )
    highest_hardness: t.Hardness = fact(
        "How hard may the water be?", label="hardness that the unit allows", example="1.5 mmol/L"
    )
    highest_conductivity: t.ElectricalConductivity = fact(
        "What conductivity may the water have?",
        label="conductivity that the unit allows",
        example="500 uS/cm",
    )
    lowest_ph: t.PH = fact(
        "What is the lowest pH the water may have?",
        label="lowest pH that the unit allows",
        example="7.5",
    )
    highest_ph: t.PH = fact(
        "What is the highest pH the water may have?",
        label="highest pH that the unit allows",
        example="9.5",
    )
    flow_switch: t.Choice[Literal["built in", "to be added", "none"]] = fact(
        "Has it a flow switch?", example="built in"
    )
    supplied: t.Choices[
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
    ] = fact(
        "What comes in the box for the water side?",
        label="parts that come with the unit",
        example='["flexible hoses", "filter"]',
    )
    shows: t.Choices[Literal["flow", "flow temperature", "return temperature", "pressure"]] = fact(
        "Which of these can be read on the unit or its controller?",
        label="readings that the unit shows",
        example='["flow", "flow temperature", "return temperature", "pressure"]',
    )
