"""Domestic hot water: cylinder, heaters, pipework and hygiene."""

from typing import ClassVar, Literal

from tundish.job.common import Surroundings, SwitchedBy
from tundish.job.part import (
    Area,
    Choice,
    Choices,
    Current,
    Duration,
    Flow,
    HeatLossPerDegree,
    Items,
    Length,
    OrNone,
    Part,
    Phases,
    Pipe,
    Power,
    Pressure,
    Temperature,
    Text,
    Truth,
    Volume,
    Who,
    fact,
)
from tundish.job.run import Run
from tundish.job.vessels import ExpansionVessel, Outlet, Relief


class _HotWaterPart(Part):
    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "From the plate or the data sheet of the cylinder."


class Heater(_HotWaterPart):
    """An electric heater for hot water."""

    power: Power = fact("What power has the heater?", label="power of the heater")
    phases: Phases = fact("On how many phases does it run?", label="phases of the heater")
    device_rating: Current = fact(
        "What device does its maker ask for?", label="asked device rating"
    )
    switched_by: Choice[SwitchedBy] = fact("What switches the heater?", label="switching")
    thermal_cut_out: Truth = fact("Has it a thermal cut-out of its own?")
    cut_out_reset_by_hand: Truth = fact(
        "Does the thermal cut-out stay open until someone resets it?",
        label="reset of the thermal cut-out by hand",
    )
    cut_out_bypassed: Truth = fact(
        "Can current reach the heater past its thermal cut-out?",
        "From the wiring diagram: the cut-out must break the feed of the heater itself.",
        label="bypass of the thermal cut-out",
    )


class Cylinder(_HotWaterPart):
    """The hot water cylinder."""

    volume: Volume = fact("How large is the cylinder?", label="cylinder volume")
    coil_area: Area = fact("What area has the coil?", label="coil area")
    coil_volume: Volume = fact("How much water is in the coil?", label="water in the coil")
    coil_pressure_loss: Pressure = fact(
        "What pressure is lost in the coil at the flow for hot water?",
        label="pressure loss in the coil",
    )
    coil_wall: Choice[Literal["single", "double"]] = fact(
        "Is the wall between heating and drinking water single or double?", label="coil wall"
    )
    matched: Truth = fact("Is it made for this heat pump?", label="matching of the cylinder")
    vented: Truth = fact("Is it open to the air above?", label="venting of the cylinder")
    vent_free: Truth = fact(
        "Does the vent pipe rise to the open without a valve, and out of reach of frost?",
        "Follow the pipe from the top of the cylinder to its end above the cistern.",
        label="free vent of the cylinder",
    )
    has: Choices[
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
    ] = fact("What has the cylinder?", label="equipment of the cylinder")
    cut_out_reset_by_hand: Truth = fact(
        "Does the cylinder's own thermal cut-out stay open until someone resets it?",
        label="reset of the cylinder's thermal cut-out by hand",
    )
    sensor_height: Length = fact("How high is the sensor pocket?")
    height: Length = fact("How high is the cylinder?", label="cylinder height")
    heat_loss: HeatLossPerDegree = fact("What heat does it lose for each degree?")
    highest_pressure: Pressure = fact("What pressure does it bear?", label="cylinder pressure")
    highest_temperature: Temperature = fact("How hot may it get?")
    lining: Choice[Literal["stainless steel", "enamel", "copper", "plastic"]] = fact(
        "What is the cylinder made of inside?"
    )
    place: Choice[Surroundings] = fact("Where is the cylinder?", label="place of the cylinder")
    base_bears: Truth = fact(
        "Does the floor bear the full cylinder?", label="floor under the cylinder"
    )


class PriorityValve(_HotWaterPart):
    """The valve that sends the flow to the cylinder."""

    place: Text = fact("Where is the valve?", label="place of the priority valve")
    run_by_unit: Truth = fact("Does the unit switch the valve?")
    rest_position: Choice[Literal["heating", "hot water"]] = fact(
        "Where does it rest without power?"
    )
    running_time: Duration = fact("How long does it take to turn?")
    pressure_loss: Pressure = fact(
        "What pressure is lost in it at the design flow?",
        label="pressure loss in the priority valve",
    )
    kv: Flow = fact(
        "What flow passes it at a pressure loss of 1 bar (Kv)?", label="Kv of the priority valve"
    )


class Hygiene(_HotWaterPart):
    """What keeps the hot water free of germs."""

    answered_by: ClassVar[Who] = "designer"
    found_in: ClassVar[str] = "From the settings of the controller."

    temperature: Temperature = fact(
        "To what temperature is it heated against germs?", label="temperature against germs"
    )
    interval: Duration = fact(
        "How often is it heated against germs?", label="interval of heating against germs"
    )
    hold: Duration = fact("How long is it held hot?", label="holding time")
    heated_by: Choice[Literal["unit", "immersion heater", "booster heater"]] = fact(
        "What heats it against germs?"
    )
    reaches_bottom: Truth = fact(
        "Does it heat the water at the bottom of the cylinder as well?",
        "From where the coil or the heater sits: water below it stays cold.",
        label="heating of the bottom against germs",
    )


class Circulation(_HotWaterPart):
    """Circulation of hot water to the taps."""

    length: Length = fact("How long is the circulation loop?")
    return_temperature: Temperature = fact(
        "How warm does the water come back?", label="return of the circulation"
    )
    timed: Truth = fact("Does a clock run the circulation?")
    flow: Flow = fact("What flow circulates?")


class HotOutlet(Outlet):
    """Where a relief valve of the cylinder discharges: one pipe to an air gap, one behind it."""

    first_pipe: Pipe = fact(
        "What pipe leads from the relief valve to the air gap?",
        label="discharge pipe before the air gap",
    )
    first_length: Length = fact(
        "How long is the pipe from the relief valve to the air gap?",
        label="length of the discharge pipe before the air gap",
    )
    drop: Length = fact(
        "How far does the pipe run straight down below the air gap, up to its first bend?",
        label="drop below the air gap",
    )


class HotWaterRelief(Relief):
    """The valve against too high a pressure in the cylinder."""

    outlet: OrNone[HotOutlet] = fact(
        "Where does it discharge?", label="discharge of the relief valve"
    )


class TemperatureRelief(_HotWaterPart):
    """The valve on the cylinder that opens when the water gets far too hot."""

    into_tundish: Truth = fact(
        "Does it discharge into a tundish?", label="discharge of the temperature relief valve"
    )


class HotWater(_HotWaterPart):
    """Domestic hot water."""

    answered_by: ClassVar[Who] = "designer"
    found_in: ClassVar[str] = "From the design."

    cylinder: OrNone[Cylinder] = fact("What cylinder is there?")
    distance_from_unit: Length = fact(
        "How long is the pipe from the unit to the cylinder?", label="distance to the cylinder"
    )
    booster: OrNone[Heater] = fact("What booster heater is there?", label="booster heater")
    immersion: OrNone[Heater] = fact("What immersion heater is there?", label="immersion heater")
    priority_valve: OrNone[PriorityValve] = fact("What valve sends the flow to the cylinder?")
    run: Items[Run] = fact("Which runs of pipe lead only to the cylinder?", label="cylinder pipes")
    storage_temperature: Temperature = fact("How hot is the water kept?")
    daily_demand: Volume = fact(
        "How much hot water is needed in a day?", "Counted as it leaves the cylinder."
    )
    peak_demand: Volume = fact(
        "How much hot water is needed at once?",
        "Counted at the taps, mixed to 40 degC: a shower takes 40 to 60 L, a bath 120 to 150 L.",
    )
    cold_temperature: Temperature = fact("How cold is the mains water?")
    reheat_time: Duration = fact("In what time must the cylinder be hot again?")
    tap_temperature: Temperature = fact("How hot may it come from a tap?")
    mixing_valve: Truth = fact("Does a valve limit the temperature at the taps?")
    bath_in_new_home: Truth = fact(
        "Does it feed a bath in a new home, or in one made by a change of use?",
        label="bath in a new home",
    )
    longest_dead_leg: Length = fact("How long is the longest pipe to a tap without circulation?")
    dead_leg_pipe: Pipe = fact("What pipe is that?", label="pipe without circulation")
    hygiene: OrNone[Hygiene] = fact(
        "How is the water kept free of germs?", label="heating against germs"
    )
    circulation: OrNone[Circulation] = fact(
        "Does hot water circulate?", label="circulation of hot water"
    )
    relief: OrNone[HotWaterRelief] = fact(
        "What relieves the pressure?", label="hot water relief valve"
    )
    temperature_relief: OrNone[TemperatureRelief] = fact(
        "What valve on the cylinder opens when the water gets far too hot?",
        label="temperature relief valve",
    )
    expansion_vessel: OrNone[ExpansionVessel] = fact(
        "What takes up the expansion of hot water?", label="hot water expansion vessel"
    )
    mains_pressure: Pressure = fact("What pressure has the mains?")
    inlet_pressure: Pressure = fact(
        "To what pressure is the mains reduced before the cylinder?",
        "The setting of the pressure reducing valve; leave it out where there is none.",
        label="pressure at the inlet of the cylinder",
    )
    mains_flow: Flow = fact("What flow does the mains give?")
    people_at_risk: Truth = fact("Does anyone here get ill easily?", "Ask.", who="customer")
