"""Controls: sensors, room controllers, other heat sources."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import CompassPoint


class _Controlled(
    Part, answered_by="installer", found_in="Seen on the spot, or from the settings."
):
    pass


class RoomController(_Controlled):
    """The controller in a room."""

    place: t.Text = fact(
        "Where is the room controller?", label="place of the room controller", example="living room"
    )
    indoors: t.Truth = fact("Is the room controller indoors?", label="room controller indoors")
    cores: t.Count = fact(
        "How many cores has its cable?", label="cores of the room controller's cable", example="2"
    )
    conductor: t.CrossSection = fact(
        "What cross-section have the cores of its cable?",
        label="cross-section of the room controller's cable",
        example="0.75 mm2",
    )
    cable_length: t.Length = fact(
        "How long is its cable?", label="length of the room controller's cable", example="15 m"
    )
    height: t.Length = fact(
        "How high does it hang?", label="height of the room controller", example="1.5 m"
    )
    undisturbed: t.Truth = fact(
        "Is it free of sun, draught and heat from nearby?", label="spot free of sun and draught"
    )
    emitter_open: t.Truth = fact(
        "Are the emitters in its room without thermostatic valves?",
        label="emitters without valves in the controller's room",
    )


class OutdoorSensor(_Controlled):
    """The sensor of outdoor air."""

    faces: t.Choice[CompassPoint] = fact(
        "Where does the sensor face?", label="side of the sensor", example="north"
    )
    sunlit: t.Truth = fact("Can the sun reach it?", label="sun on the sensor", example="false")
    near_opening: t.Truth = fact(
        "Is it above a window, vent or the unit?",
        label="warm or cold air at the sensor",
        example="false",
    )
    built_in: t.Truth = fact("Is it built into the unit?", label="built-in sensor")


class Compensation(_Controlled):
    """How the flow temperature follows the outdoor air."""

    slope: t.Number = fact("What slope is set?", label="slope of the curve", example="0.8")
    highest_flow: t.Temperature = fact(
        "To what flow temperature is it limited?",
        label="highest flow temperature of the curve",
        example="50 degC",
    )
    lowest_flow: t.Temperature = fact(
        "Down to what flow temperature does it go?", example="28 degC"
    )
    hysteresis: t.TemperatureDifference = fact(
        "With what difference does it switch?", example="5 K"
    )


class SecondHeatSource(_Controlled):
    """Another source of heat."""

    kind: t.Choice[
        Literal[
            "gas boiler", "oil boiler", "wood stove", "electric boiler", "solar", "district heat"
        ]
    ] = fact(
        "What other source of heat is it?", label="kind of second heat source", example="gas boiler"
    )
    power: t.Power = fact(
        "What heat does it give?",
        "From its plate.",
        label="power of the second heat source",
        example="18 kW",
    )
    changes_over_at: t.Temperature = fact(
        "At what outdoor air does it take over?",
        label="air temperature at which the second heat source takes over",
        example="-5 degC",
    )
    called_by_unit: t.Truth = fact(
        "Does the unit call it?",
        "From the wiring diagram.",
        label="call of the second heat source by the unit",
    )
    connection: t.Choice[
        Literal["in series", "in parallel", "separated", "hot water only", "heats a room alone"]
    ] = fact(
        "How is it connected to the circuit?",
        "Separated: by a store or a heat exchanger between its water and the unit's.",
        label="connection of the second heat source",
        example="separated",
    )
    keeps_off_hot_return: t.Truth = fact(
        "Is the unit kept safe from its hot water?",
        "By a valve that closes or a mixer that cools, above what the unit bears.",
        label="guard of the unit against hot water",
    )
    hottest_return: t.Temperature = fact(
        "How hot can the water get that comes back to the unit while it runs?",
        "From the setting of its limiter or mixer.",
        label="hottest water that comes back to the unit",
        example="50 degC",
    )
    interface: t.Choice[
        Literal["interface board", "relay", "mains output", "own controls", "none"]
    ] = fact(
        "By what is it called when heat is wanted from it?",
        "Own controls: one control for both heat sources decides which of them heats.",
        label="way of calling the second heat source",
        example="relay",
    )
    call_input: t.Choice[Literal["volt-free contact", "mains voltage", "bus"]] = fact(
        "What do its terminals for the call take?",
        "From its wiring diagram.",
        label="input for the call of the second heat source",
        example="volt-free contact",
    )
    running: t.Choice[Literal["one at a time", "both at once"]] = fact(
        "Do unit and other source run one at a time, or both at once?",
        "As designed, below the air temperature at which it comes in.",
        who="designer",
        label="running of the two heat sources",
        example="one at a time",
    )
    interlocked: t.Truth = fact(
        "Does something keep the two from heating at the same time?",
        "From the wiring diagram or the settings.",
        label="interlock of the two heat sources",
    )
    own_relief: t.Truth = fact(
        "Has it a relief valve of its own, or an open vent, that nothing can shut off from it?",
        label="relief of the second heat source",
    )
    heat_gets_away: t.Truth = fact(
        "Does its heat get away by itself when the electricity fails?",
        "By a thermal discharge valve with mains water, or by circulation without a pump.",
        label="way for the heat without electricity",
    )


class Controls(_Controlled):
    """The controls."""

    room_controller: t.OrNone[RoomController] = fact("What controller hangs in a room?")
    outdoor_sensor: t.OrNone[OutdoorSensor] = fact("What measures the outdoor air?")
    weather_compensation: t.OrNone[Compensation] = fact("Does the flow follow the outdoor air?")
    second_heat_source: t.OrNone[SecondHeatSource] = fact("What other source of heat is there?")
    zones: t.Count = fact(
        "How many zones are controlled apart?", label="number of zones", example="2"
    )
    smallest_zone: t.Power = fact(
        "What heat does the smallest zone take at the design temperature?",
        "The outputs of its emitters together.",
        who="designer",
        label="heat that the smallest zone takes",
        example="1.5 kW",
    )
    external_thermostats: t.Count = fact(
        "How many thermostats of other makers switch zones?",
        label="number of thermostats of other makers",
        example="1",
    )
    external_call: t.Choice[Literal["volt-free contact", "mains voltage"]] = fact(
        "What do thermostats of other makers put on the unit's input?",
        "From their wiring diagram.",
        label="call of the thermostats of other makers",
        example="volt-free contact",
    )
    call_input: t.Choice[Literal["volt-free contact", "mains voltage"]] = fact(
        "What does the unit's input for a thermostat of another maker take?",
        "From the unit's wiring diagram.",
        who="maker",
        label="input of the unit for a thermostat",
        example="volt-free contact",
    )
    quiet_hours: t.Truth = fact("Is a quiet mode set for the night?", label="quiet mode at night")
    frost_mode: t.Truth = fact(
        "Is frost protection on when heating is off?", label="frost protection by the controls"
    )
    heater_locked_above: t.Temperature = fact(
        "Above what outdoor air is the electric heater locked?",
        label="air temperature above which the electric heater is locked",
        example="0 degC",
    )
    floor_limiter: t.Truth = fact(
        "Does a limiter guard the heated floor?", label="limiter of the heated floor"
    )
    explained: t.Truth = fact(
        "Were the controls explained to the customer?",
        "Ask the customer, or from the record of the handover.",
        label="explanation of the controls",
    )
