"""Controls: sensors, room controllers, other heat sources."""

from __future__ import annotations

from typing import ClassVar, Literal

from tundish.job.common import CompassPoint
from tundish.job.part import (
    Choice,
    Count,
    CrossSection,
    Length,
    Number,
    OrNone,
    Part,
    Power,
    Temperature,
    TemperatureDifference,
    Text,
    Truth,
    Who,
    fact,
)


class _Controlled(Part):
    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "Seen on the spot, or from the settings."


class RoomController(_Controlled):
    """The controller in a room."""

    place: Text = fact("Where is the room controller?", label="place of the room controller")
    indoors: Truth = fact("Is it indoors?", label="room controller indoors")
    cores: Count = fact(
        "How many cores has its cable?", label="cores of the room controller's cable"
    )
    conductor: CrossSection = fact(
        "What cross-section have the cores of its cable?",
        label="cross-section of the room controller's cable",
    )
    cable_length: Length = fact(
        "How long is its cable?", label="length of the room controller's cable"
    )
    height: Length = fact("How high does it hang?", label="height of the room controller")
    undisturbed: Truth = fact("Is it free of sun, draught and heat from nearby?")
    emitter_open: Truth = fact("Are the emitters in its room without thermostatic valves?")


class OutdoorSensor(_Controlled):
    """The sensor of outdoor air."""

    faces: Choice[CompassPoint] = fact("Where does the sensor face?", label="side of the sensor")
    sunlit: Truth = fact("Can the sun reach it?", label="sun on the sensor")
    near_opening: Truth = fact("Is it above a window, vent or the unit?")
    built_in: Truth = fact("Is it built into the unit?", label="built-in sensor")


class Compensation(_Controlled):
    """How the flow temperature follows the outdoor air."""

    slope: Number = fact("What slope is set?", label="slope of the curve")
    highest_flow: Temperature = fact("To what flow temperature is it limited?")
    lowest_flow: Temperature = fact("Down to what flow temperature does it go?")
    hysteresis: TemperatureDifference = fact("With what difference does it switch?")


class SecondHeatSource(_Controlled):
    """Another source of heat."""

    kind: Choice[
        Literal[
            "gas boiler", "oil boiler", "wood stove", "electric boiler", "solar", "district heat"
        ]
    ] = fact("What is it?", label="kind of second heat source")
    power: Power = fact("What heat does it give?", label="power of the second heat source")
    changes_over_at: Temperature = fact("At what outdoor air does it take over?")
    called_by_unit: Truth = fact("Does the unit call it?")
    connection: Choice[Literal["in series", "in parallel", "separated", "hot water only"]] = fact(
        "How is it connected to the circuit?"
    )
    keeps_off_hot_return: Truth = fact("Is the unit kept safe from its hot water?")


class Controls(_Controlled):
    """The controls."""

    room_controller: OrNone[RoomController] = fact("What controller hangs in a room?")
    outdoor_sensor: OrNone[OutdoorSensor] = fact("What measures the outdoor air?")
    weather_compensation: OrNone[Compensation] = fact("Does the flow follow the outdoor air?")
    second_heat_source: OrNone[SecondHeatSource] = fact("What other source of heat is there?")
    zones: Count = fact("How many zones are controlled apart?", label="number of zones")
    external_thermostats: Count = fact("How many thermostats of other makers switch zones?")
    hot_water_timed: Truth = fact("Is hot water made at set times?")
    quiet_hours: Truth = fact("Is a quiet mode set for the night?", label="quiet mode at night")
    frost_mode: Truth = fact("Is frost protection on when heating is off?")
    heater_locked_above: Temperature = fact("Above what outdoor air is the electric heater locked?")
    floor_limiter: Truth = fact("Does a limiter guard the heated floor?")
    explained: Truth = fact("Were the controls explained to the customer?", who="installer")
