"""The hot water cylinder, its electric heaters and the valve that sends it the flow."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import Surroundings, SwitchedBy


class CylinderPart(
    Part, answered_by="installer", found_in="From the plate or the data sheet of the cylinder."
):
    """What belongs to the cylinder."""


class Heater(CylinderPart, found_in="From the plate or the data sheet of the heater."):
    """An electric heater for hot water."""

    power: t.Power = fact("What power has the heater?", label="power of the heater", example="3 kW")
    phases: t.Phases = fact(
        "On how many phases does it run?", label="phases of the heater", example="1"
    )
    device_rating: t.Current = fact(
        "What device does its maker ask for?", label="asked device rating", example="16 A"
    )
    switched_by: t.Choice[SwitchedBy] = fact(
        "What switches the heater?", "From the wiring diagram.", label="switching", example="unit"
    )
    thermal_cut_out: t.Truth = fact("Has it a thermal cut-out of its own?")
    cut_out_reset_by_hand: t.Truth = fact(
        "Does the thermal cut-out stay open until someone resets it?",
        label="reset of the thermal cut-out by hand",
    )
    cut_out_bypassed: t.Truth = fact(
        "Can current reach the heater past its thermal cut-out?",
        "From the wiring diagram: the cut-out must break the feed of the heater itself.",
        label="bypass of the thermal cut-out",
        example="false",
    )


class Cylinder(CylinderPart):
    """The hot water cylinder."""

    volume: t.Volume = fact("How large is the cylinder?", label="cylinder volume", example="200 L")
    coil_area: t.Area = fact("What area has the coil?", example="2.4 m2")
    coil_volume: t.Volume = fact(
        "How much water is in the coil?", label="water in the coil", example="14 L"
    )
    coil_pressure_loss: t.Pressure = fact(
        "What pressure is lost in the coil at the flow for hot water?",
        label="pressure loss in the coil",
        example="8 kPa",
    )
    coil_wall: t.Choice[Literal["single", "double"]] = fact(
        "Is the wall between heating and drinking water single or double?", example="single"
    )
    matched: t.Truth = fact(
        "Is the cylinder made for this heat pump?", label="matching of the cylinder"
    )
    vented: t.Truth = fact(
        "Is the cylinder open to the air above?", label="venting of the cylinder", example="false"
    )
    vent_free: t.Truth = fact(
        "Does the vent pipe rise to the open without a valve, and out of reach of frost?",
        "Follow the pipe from the top of the cylinder to its end above the cistern.",
        label="free vent of the cylinder",
    )
    has: t.Choices[
        Literal[
            "sensor pocket",
            "immersion heater boss",
            "thermostat",
            "thermal cut-out",
            "relief valve",
            "drain valve",
            "anode",
            "circulation connection",
            "expansion space",
        ]
    ] = fact(
        "What has the cylinder?",
        label="equipment of the cylinder",
        example='["sensor pocket", "immersion heater boss", "thermal cut-out"]',
    )
    cut_out_reset_by_hand: t.Truth = fact(
        "Does the cylinder's own thermal cut-out stay open until someone resets it?",
        label="reset of the cylinder's thermal cut-out by hand",
    )
    sensor_height: t.Length = fact("How high is the sensor pocket?", example="450 mm")
    height: t.Length = fact("How high is the cylinder?", label="cylinder height", example="1.6 m")
    heat_loss: t.HeatLossPerDegree = fact(
        "What heat does it lose for each degree?", example="1.6 W/K"
    )
    highest_pressure: t.Pressure = fact(
        "What pressure does it bear?", label="cylinder pressure", example="6 bar"
    )
    highest_temperature: t.Temperature = fact("How hot may it get?", example="90 degC")
    lining: t.Choice[Literal["stainless steel", "enamel", "copper", "plastic"]] = fact(
        "What is the cylinder made of inside?", example="stainless steel"
    )
    place: t.Choice[Surroundings] = fact(
        "Where is the cylinder?",
        "From the drawing, or seen on the spot.",
        label="place of the cylinder",
        example="heated room",
    )
    base_bears: t.Truth = fact(
        "Does the floor bear the full cylinder?",
        "From the drawings, or a structural engineer.",
        label="floor under the cylinder",
    )


class PriorityValve(CylinderPart, found_in="From the plate or the data sheet of the valve."):
    """The valve that sends the flow to the cylinder."""

    place: t.Text = fact(
        "Where is the valve?",
        "From the drawing, or seen on the spot.",
        label="place of the priority valve",
        example="airing cupboard",
    )
    run_by_unit: t.Truth = fact(
        "Does the unit switch the valve?", "From the wiring diagram.", label="switching by the unit"
    )
    rest_position: t.Choice[Literal["heating", "hot water"]] = fact(
        "Where does it rest without power?", example="heating"
    )
    running_time: t.Duration = fact("How long does it take to turn?", example="15 s")
    pressure_loss: t.Pressure = fact(
        "What pressure is lost in it at the design flow?",
        label="pressure loss in the priority valve",
        example="3 kPa",
    )
    kv: t.Flow = fact(
        "What flow passes it at a pressure loss of 1 bar (Kv)?",
        label="Kv of the priority valve",
        example="8 m3/h",
    )
