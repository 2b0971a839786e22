"""Controls: sensors, room controllers, other heat sources."""

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
    emitter_open: Truth = fact(
        "Are the emitters in its room without thermostatic valves?",
        label="emitters without valves in the controller's room",
    )


class OutdoorSensor(_Controlled):
    """The sensor of outdoor air."""

    faces: Choice[CompassPoint] = fact("Where does the sensor face?", label="side of the sensor")
    sunlit: Truth = fact("Can the sun reach it?", label="sun on the sensor")
    near_opening: Truth = fact(
        "Is it above a window, vent or the unit?", label="warm or cold air at the sensor"
    )
    built_in: Truth = fact("Is it built into the unit?", label="built-in sensor")


class Compensation(_Controlled):
    """How the flow temperature follows the outdoor air."""

    slope: Number = fact("What slope is set?", label="slope of the curve")
    highest_flow: Temperature = fact(
        "To what flow temperature is it limited?", label="highest flow temperature of the curve"
    )
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
    changes_over_at: Temperature = fact(
        "At what outdoor air does it take over?",
        label="air temperature at which the second heat source takes over",
    )
    called_by_unit: Truth = fact(
        "Does the unit call it?", label="call of the second heat source by the unit"
    )
    connection: Choice[
        Literal["in series", "in parallel", "separated", "hot water only", "heats a room alone"]
    ] = fact(
        "How is it connected to the circuit?",
        "Separated: by a store or a heat exchanger between its water and the unit's.",
        label="connection of the second heat source",
    )
    keeps_off_hot_return: Truth = fact(
        "Is the unit kept safe from its hot water?",
        "By a valve that closes or a mixer that cools, above what the unit bears.",
        label="guard of the unit against hot water",
    )
    hottest_return: Temperature = fact(
        "How hot can the water get that comes back to the unit while it runs?",
        label="hottest water that comes back to the unit",
    )
    interface: Choice[
        Literal["interface board", "relay", "mains output", "own controls", "none"]
    ] = fact(
        "By what is it called when heat is wanted from it?",
        "Own controls: one control for both heat sources decides which of them heats.",
        label="way of calling the second heat source",
    )
    call_input: Choice[Literal["volt-free contact", "mains voltage", "bus"]] = fact(
        "What do its terminals for the call take?",
        "From its wiring diagram.",
        label="input for the call of the second heat source",
    )
    running: Choice[Literal["one at a time", "both at once"]] = fact(
        "Do unit and other source run one at a time, or both at once?",
        "As designed, below the air temperature at which it comes in.",
        who="designer",
        label="running of the two heat sources",
    )
    interlocked: Truth = fact(
        "Does something keep the two from heating at the same time?",
        label="interlock of the two heat sources",
    )
    own_relief: Truth = fact(
        "Has it a relief valve of its own, or an open vent, that nothing can shut off from it?",
        label="relief of the second heat source",
    )
    heat_gets_away: Truth = fact(
        "Does its heat get away by itself when the electricity fails?",
        "By a thermal discharge valve with mains water, or by circulation without a pump.",
        label="way for the heat without electricity",
    )


class Controls(_Controlled):
    """The controls."""

    room_controller: OrNone[RoomController] = fact("What controller hangs in a room?")
    outdoor_sensor: OrNone[OutdoorSensor] = fact("What measures the outdoor air?")
    weather_compensation: OrNone[Compensation] = fact("Does the flow follow the outdoor air?")
    second_heat_source: OrNone[SecondHeatSource] = fact("What other source of heat is there?")
    zones: Count = fact("How many zones are controlled apart?", label="number of zones")
    smallest_zone: Power = fact(
        "What heat does the smallest zone take at the design temperature?",
        "The outputs of its emitters together.",
        who="designer",
        label="heat that the smallest zone takes",
    )
    external_thermostats: Count = fact(
        "How many thermostats of other makers switch zones?",
        label="number of thermostats of other makers",
    )
    external_call: Choice[Literal["volt-free contact", "mains voltage"]] = fact(
        "What do thermostats of other makers put on the unit's input?",
        "From their wiring diagram.",
        label="call of the thermostats of other makers",
    )
    call_input: Choice[Literal["volt-free contact", "mains voltage"]] = fact(
        "What does the unit's input for a thermostat of another maker take?",
        "From the unit's wiring diagram.",
        who="maker",
        label="input of the unit for a thermostat",
    )
    hot_water_timed: Truth = fact("Is hot water made at set times?")
    quiet_hours: Truth = fact("Is a quiet mode set for the night?", label="quiet mode at night")
    frost_mode: Truth = fact(
        "Is frost protection on when heating is off?", label="frost protection by the controls"
    )
    heater_locked_above: Temperature = fact(
        "Above what outdoor air is the electric heater locked?",
        label="air temperature above which the electric heater is locked",
    )
    floor_limiter: Truth = fact(
        "Does a limiter guard the heated floor?", label="limiter of the heated floor"
    )
    explained: Truth = fact(
        "Were the controls explained to the customer?",
        who="installer",
        label="explanation of the controls",
    )
