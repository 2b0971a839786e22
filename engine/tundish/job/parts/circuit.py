"""One electrical circuit: device, residual current device, isolator and contactor."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.cable import Cable
from tundish.job.parts.common import Load, SwitchedBy


class _Wired(
    Part, answered_by="electrician", found_in="From the circuit schedule, or seen on the spot."
):
    """What an electrician sees on a circuit."""


class Device(_Wired):
    """The device against overload and short circuit."""

    kind: t.Choice[
        Literal[
            "circuit-breaker", "circuit-breaker with residual current", "fuse", "rewirable fuse"
        ]
    ] = fact(
        "What kind of device protects the circuit?",
        label="kind of device",
        example="circuit-breaker",
    )
    type: t.Choice[Literal["B", "C", "D", "K", "Z", "gG", "gM", "aM"]] = fact(
        "Of what type is the device?", label="type of the device", example="C"
    )
    rating: t.Current = fact("What is the device rated?", label="device rating", example="25 A")
    breaking_capacity: t.Current = fact("What fault current can the device break?", example="6 kA")
    poles: t.Count = fact(
        "How many poles does the device switch?", label="poles of the device", example="2"
    )
    tripping_current: t.Current = fact(
        "What current surely trips it within the time allowed?",
        "From the curve of its maker.",
        example="250 A",
    )
    let_through: t.LetThrough = fact(
        "How much energy does it let through at a short circuit?",
        "From the let-through energy (I2t) of its maker.",
        label="let-through energy of the device",
        example="15000 A2.s",
    )
    backed_up: t.Truth = fact(
        "Does a device ahead of it break what it cannot?",
        "From the back-up tables of its maker.",
        label="back-up by a device ahead",
    )


class ResidualCurrent(_Wired):
    """The residual current device."""

    type: t.Choice[Literal["AC", "A", "F", "B"]] = fact(
        "Of what type is the residual current device?", label="residual current type", example="B"
    )
    sensitivity: t.Current = fact(
        "At what residual current does it trip?",
        label="residual current sensitivity",
        example="30 mA",
    )
    delayed: t.Truth = fact(
        "Does it trip with a delay?", label="delay of the residual current device", example="false"
    )
    shared: t.Truth = fact(
        "Does it serve other circuits as well?",
        label="sharing of the residual current device",
        example="false",
    )
    upstream_type: t.Choice[Literal["AC", "A", "F", "B", "none"]] = fact(
        "Of what type is a residual current device upstream?",
        label="type of the residual current device upstream",
        example="none",
    )
    upstream_sensitivity: t.Current = fact(
        "At what residual current does the device upstream trip?",
        label="sensitivity of the residual current device upstream",
        example="100 mA",
    )
    upstream_delayed: t.Truth = fact(
        "Does the device upstream trip with a delay?",
        label="delay of the residual current device upstream",
    )


class Isolator(_Wired):
    """The means to isolate a load for work on it."""

    place: t.Text = fact(
        "Where is the isolator?", label="place of the isolator", example="beside the unit"
    )
    poles: t.Choice[Literal["all", "line only"]] = fact(
        "Which poles does the isolator switch?", label="poles of the isolator", example="all"
    )
    rating: t.Current = fact("What is the isolator rated?", label="isolator rating", example="32 A")
    lockable: t.Truth = fact("Can it be locked off?", label="locking of the isolator")
    enclosure: t.Text = fact(
        "What IP code has its enclosure?", label="enclosure of the isolator", example="IP65"
    )
    in_sight: t.Truth = fact("Can it be seen from what it serves?", label="isolator in sight")
    distance: t.Length = fact(
        "How far from the unit is it?", label="distance of the isolator", example="1.2 m"
    )
    indoors: t.Truth = fact("Is it indoors?", label="isolator indoors", example="false")
    reachable: t.Truth = fact(
        "Can it be reached without leaning over the unit, behind it or into its fan?",
        label="reach of the isolator",
    )
    for_isolation: t.Truth = fact(
        "Is it marked as fit for isolation?",
        "By the symbol of a disconnector on it, or from its data sheet.",
        label="mark for isolation",
    )
    category: t.Choice[Literal["AC-20", "AC-21", "AC-22", "AC-23"]] = fact(
        "For what utilisation category is it rated?",
        "Printed on it or in its data sheet; without the letter A or B at the end.",
        label="utilisation category of the isolator",
        example="AC-22",
    )


class Contactor(_Wired):
    """A contactor that switches the circuit, and is not part of the unit."""

    category: t.Choice[Literal["AC-1", "AC-3", "AC-5a", "AC-5b", "AC-7a", "AC-7b", "AC-15"]] = fact(
        "For what utilisation category is it rated?",
        label="utilisation category of the contactor",
        example="AC-1",
    )
    rating: t.Current = fact(
        "What is it rated in that category?",
        "From its data sheet, at the temperature in its enclosure.",
        label="contactor rating",
        example="25 A",
    )
    lines: t.Count = fact(
        "How many line conductors does it break?", label="lines that it breaks", example="1"
    )


class Circuit(_Wired):
    """One circuit."""

    name: t.Text = fact("What is the circuit called?", example="outdoor unit")
    serves: t.Choices[Load] = fact(
        "What does the circuit feed?", label="loads served", example='["outdoor unit"]'
    )
    phases: t.Phases = fact(
        "How many phases has the circuit?", label="phases of the circuit", example="1"
    )
    line: t.Choice[Literal["L1", "L2", "L3"]] = fact(
        "To which line of a three-phase supply is a single-phase circuit connected?",
        label="line of the circuit",
        example="L1",
    )
    power: t.Power = fact(
        "What power does it feed?",
        "From the data sheet of the load.",
        label="power of the circuit",
        example="4.2 kW",
    )
    power_factor: t.PowerFactor = fact(
        "What power factor has the load?", "From the data sheet of the load.", example="0.98"
    )
    design_current: t.Current = fact("For what current is the circuit designed?", example="19 A")
    device: t.OrNone[Device] = fact("What device protects it?")
    residual_current: t.OrNone[ResidualCurrent] = fact(
        "What residual current device protects it?", label="residual current device"
    )
    cable: Cable | None = fact("What cable is it run in?")
    fed_from: t.Text = fact(
        "From which other circuit does it branch off?",
        "The name of that circuit; 'origin' where it starts at the main distribution board.",
        label="feeder of the circuit",
        example="origin",
    )
    terminal_temperature: t.Temperature = fact(
        "For what conductor temperature are all its terminals made?",
        "From the data of the device, the isolator and the load; 70 degC where they say nothing.",
        label="rated temperature of its terminals",
        example="70 degC",
    )
    isolator: t.OrNone[Isolator] = fact("What isolates the load?")
    switched_by: t.Choice[SwitchedBy] = fact(
        "What switches the load?", "From the wiring diagram.", label="switching", example="unit"
    )
    contactor: t.OrNone[Contactor] = fact(
        "What contactor outside the unit switches it?", label="contactor of the circuit"
    )
    loop_impedance: t.Resistance = fact(
        "What earth loop impedance was measured on the circuit?",
        "Measured at its far end.",
        label="measured earth loop impedance",
        example="0.45 ohm",
    )
    disconnection_time: t.Duration = fact(
        "For what disconnection time is it designed?",
        "From the design of the circuit.",
        label="designed disconnection time",
        example="0.4 s",
    )
    sockets: t.Truth = fact(
        "Does it feed a socket outlet?", label="socket outlet on the circuit", example="false"
    )
    bathroom: t.Truth = fact(
        "Does it feed or cross a room with a bath or shower?",
        label="circuit in a bathroom",
        example="false",
    )
    existing: t.Truth = fact(
        "Was the circuit there before?", example="false", label="circuit from before"
    )
