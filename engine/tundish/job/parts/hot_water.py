"""Domestic hot water: demand, hygiene, circulation and what relieves it."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.cylinder import Cylinder, CylinderPart, Heater, PriorityValve
from tundish.job.parts.run import Run
from tundish.job.parts.vessels import ExpansionVessel, Outlet, Relief


class Hygiene(Part, answered_by="designer", found_in="From the settings of the controller."):
    """What keeps the hot water free of germs."""

    temperature: t.Temperature = fact(
        "To what temperature is it heated against germs?",
        label="temperature against germs",
        example="60 degC",
    )
    interval: t.Duration = fact(
        "How often is it heated against germs?",
        label="interval of heating against germs",
        example="7 day",
    )
    hold: t.Duration = fact("How long is it held hot?", label="holding time", example="1 h")
    heated_by: t.Choice[Literal["unit", "immersion heater", "booster heater"]] = fact(
        "What heats it against germs?", example="immersion heater", label="heater against germs"
    )
    reaches_bottom: t.Truth = fact(
        "Does it heat the water at the bottom of the cylinder as well?",
        "From where the coil or the heater sits: water below it stays cold.",
        label="heating of the bottom against germs",
    )


class Circulation(
    Part,
    answered_by="installer",
    found_in="From the drawing, the controls, or measured on the spot.",
):
    """Circulation of hot water to the taps."""

    length: t.Length = fact("How long is the circulation loop?", example="20 m")
    return_temperature: t.Temperature = fact(
        "How warm does the water come back?", label="return of the circulation", example="50 degC"
    )
    timed: t.Truth = fact("Does a clock run the circulation?", label="clock for the circulation")
    flow: t.Flow = fact("What flow circulates?", example="2 L/min")


class HotOutlet(Outlet):
    """Where a relief valve of the cylinder discharges: one pipe to an air gap, one behind it."""

    first_pipe: t.Pipe = fact(
        "What pipe leads from the relief valve to the air gap?",
        label="discharge pipe before the air gap",
        example="copper 15 x 0.7",
    )
    first_length: t.Length = fact(
        "How long is the pipe from the relief valve to the air gap?",
        label="length of the discharge pipe before the air gap",
        example="400 mm",
    )
    drop: t.Length = fact(
        "How far does the pipe run straight down below the air gap, up to its first bend?",
        label="drop below the air gap",
        example="300 mm",
    )


class HotWaterRelief(Relief):
    """The valve against too high a pressure in the cylinder."""

    outlet: t.OrNone[HotOutlet] = fact(
        "Where does it discharge?", label="discharge of the relief valve"
    )


class TemperatureRelief(CylinderPart):
    """The valve on the cylinder that opens when the water gets far too hot."""

    into_tundish: t.Truth = fact(
        "Does it discharge into a tundish?",
        "Seen on the spot.",
        label="discharge of the temperature relief valve",
    )


class HotWater(Part, answered_by="designer", found_in="From the design."):
    """Domestic hot water."""

    cylinder: t.OrNone[Cylinder] = fact("What cylinder is there?")
    distance_from_unit: t.Length = fact(
        "How long is the pipe from the unit to the cylinder?",
        "From the drawing, or measured along the pipe.",
        label="distance to the cylinder",
        example="12 m",
    )
    booster: t.OrNone[Heater] = fact("What booster heater is there?", label="booster heater")
    immersion: t.OrNone[Heater] = fact("What immersion heater is there?", label="immersion heater")
    priority_valve: t.OrNone[PriorityValve] = fact("What valve sends the flow to the cylinder?")
    run: t.Items[Run] = fact(
        "Which runs of pipe lead only to the cylinder?", label="cylinder pipes"
    )
    storage_temperature: t.Temperature = fact("How hot is the water kept?", example="55 degC")
    daily_demand: t.Volume = fact(
        "How much hot water is needed in a day?",
        "Counted as it leaves the cylinder.",
        example="180 L",
    )
    peak_demand: t.Volume = fact(
        "How much hot water is needed at once?",
        "Counted at the taps, mixed to 40 degC: a shower takes 40 to 60 L, a bath 120 to 150 L.",
        example="120 L",
    )
    cold_temperature: t.Temperature = fact(
        "How cold is the mains water?",
        "Measured at a tap in winter, after it has run a while.",
        who="surveyor",
        example="10 degC",
    )
    reheat_time: t.Duration = fact("In what time must the cylinder be hot again?", example="2 h")
    tap_temperature: t.Temperature = fact("How hot may it come from a tap?", example="48 degC")
    mixing_valve: t.Truth = fact("Does a valve limit the temperature at the taps?")
    bath_in_new_home: t.Truth = fact(
        "Does it feed a bath in a new home, or in one made by a change of use?",
        "Ask the customer.",
        who="customer",
        label="bath in a new home",
        example="false",
    )
    longest_dead_leg: t.Length = fact(
        "How long is the longest pipe to a tap without circulation?",
        "From the drawing, or measured along the pipe.",
        example="6 m",
    )
    dead_leg_pipe: t.Pipe = fact(
        "What pipe is the longest one to a tap without circulation?",
        "Printed on the pipe.",
        label="pipe without circulation",
        example="copper 15 x 0.7",
    )
    hygiene: t.OrNone[Hygiene] = fact(
        "How is the water kept free of germs?", label="heating against germs"
    )
    circulation: t.OrNone[Circulation] = fact(
        "Does hot water circulate?", label="circulation of hot water"
    )
    relief: t.OrNone[HotWaterRelief] = fact(
        "What relieves the pressure?", label="hot water relief valve"
    )
    temperature_relief: t.OrNone[TemperatureRelief] = fact(
        "What valve on the cylinder opens when the water gets far too hot?",
        label="temperature relief valve",
    )
    expansion_vessel: t.OrNone[ExpansionVessel] = fact(
        "What takes up the expansion of hot water?", label="hot water expansion vessel"
    )
    mains_pressure: t.Pressure = fact(
        "What pressure has the mains?",
        "With a gauge at a tap, the other taps shut.",
        who="surveyor",
        example="3 bar",
    )
    inlet_pressure: t.Pressure = fact(
        "To what pressure is the mains reduced before the cylinder?",
        "The setting of the pressure reducing valve; leave it out where there is none.",
        label="pressure at the inlet of the cylinder",
        example="3 bar",
    )
    people_at_risk: t.Truth = fact(
        "Does anyone here get ill easily?",
        "Ask the customer, such as for the old, the very young and the ill.",
        who="customer",
        example="false",
    )
