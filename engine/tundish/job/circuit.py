"""One electrical circuit: device, residual current device, cable and isolator."""

from typing import ClassVar, Literal

from tundish.job.common import Load, SwitchedBy
from tundish.job.part import (
    Choice,
    Choices,
    Count,
    CrossSection,
    Current,
    Duration,
    Length,
    LetThrough,
    OrNone,
    Part,
    Phases,
    Power,
    PowerFactor,
    Resistance,
    Temperature,
    Text,
    ThermalResistivity,
    Truth,
    Who,
    fact,
)


class _Wired(Part):
    """What an electrician sees on a circuit."""

    answered_by: ClassVar[Who] = "electrician"
    found_in: ClassVar[str] = "From the circuit schedule, or seen on the spot."


class Device(_Wired):
    """The device against overload and short circuit."""

    kind: Choice[
        Literal[
            "circuit-breaker", "circuit-breaker with residual current", "fuse", "rewirable fuse"
        ]
    ] = fact("What kind of device protects the circuit?", label="kind of device")
    type: Choice[Literal["B", "C", "D", "K", "Z", "gG", "gM", "aM"]] = fact(
        "Of what type is the device?", label="type of the device"
    )
    rating: Current = fact("What is the device rated?", label="device rating")
    breaking_capacity: Current = fact("What fault current can the device break?")
    poles: Count = fact("How many poles does the device switch?", label="poles of the device")
    tripping_current: Current = fact(
        "What current surely trips it within the time allowed?", "From the curve of its maker."
    )
    let_through: LetThrough = fact(
        "How much energy does it let through at a short circuit?",
        "From the let-through energy (I2t) of its maker.",
        label="let-through energy of the device",
    )
    backed_up: Truth = fact(
        "Does a device ahead of it break what it cannot?",
        "From the back-up tables of its maker.",
        label="back-up by a device ahead",
    )


class ResidualCurrent(_Wired):
    """The residual current device."""

    type: Choice[Literal["AC", "A", "F", "B"]] = fact(
        "Of what type is the residual current device?", label="residual current type"
    )
    sensitivity: Current = fact(
        "At what residual current does it trip?", label="residual current sensitivity"
    )
    delayed: Truth = fact(
        "Does it trip with a delay?", label="delay of the residual current device"
    )
    shared: Truth = fact(
        "Does it serve other circuits as well?", label="sharing of the residual current device"
    )
    upstream_type: Choice[Literal["AC", "A", "F", "B", "none"]] = fact(
        "Of what type is a residual current device upstream?",
        label="type of the residual current device upstream",
    )
    upstream_sensitivity: Current = fact(
        "At what residual current does the device upstream trip?",
        label="sensitivity of the residual current device upstream",
    )
    upstream_delayed: Truth = fact(
        "Does the device upstream trip with a delay?",
        label="delay of the residual current device upstream",
    )


class Cable(_Wired):
    """The cable of the circuit."""

    conductor: CrossSection = fact("What cross-section have the live conductors?")
    neutral: CrossSection = fact(
        "What cross-section has the neutral, where it differs from the line conductors?"
    )
    protective: CrossSection = fact("What cross-section has the protective conductor?")
    conductor_material: Choice[Literal["copper", "aluminium"]] = fact(
        "What are conductors made of?"
    )
    insulation: Choice[Literal["PVC", "XLPE", "EPR", "rubber"]] = fact(
        "What insulates the conductors?", label="cable insulation"
    )
    form: Choice[
        Literal["twin and earth", "armoured", "single cores", "sheathed round", "flexible cord"]
    ] = fact("What form has the cable?", label="form of the cable")
    method: Choice[
        Literal[
            "A",
            "A1",
            "A2",
            "B",
            "B1",
            "B2",
            "C",
            "D1",
            "D2",
            "E",
            "F",
            "G",
            "100",
            "101",
            "102",
            "103",
        ]
    ] = fact("By which reference method is it installed?", label="installation method")
    length: Length = fact("How long is the cable?", label="cable length")
    ambient: Temperature = fact("How warm can it get along the cable?", label="ambient temperature")
    grouped_with: Count = fact(
        "How many loaded circuits run together, this one included?",
        "Along the whole route, where they are closest; 1 where it runs alone.",
        label="circuits in the group",
    )
    grouping: Choice[Literal["bunched", "touching on a surface", "spaced by a diameter"]] = fact(
        "How do the circuits of the group lie to each other?", label="arrangement of the group"
    )
    cores: Count = fact("How many cores has the cable?", label="cores of the cable")
    sun_resistant: Truth = fact(
        "Does the cable withstand sun?", label="sun resistance of the cable"
    )
    outdoors: Truth = fact("Does part of it run outdoors?", label="cable outdoors")
    buried: Truth = fact("Does part of it run underground?", label="cable underground")
    burial_depth: Length = fact("How deep is it buried?")
    in_thermal_insulation: Length = fact(
        "Over what length does thermal insulation surround it?",
        "The longest stretch; 0 mm where it passes through none.",
        label="length in thermal insulation",
    )
    armoured: Truth = fact("Is it armoured?", label="armour of the cable")
    armour_protects: Truth = fact(
        "Is the armour its protective conductor?", label="armour as protective conductor"
    )
    armour: CrossSection = fact(
        "What cross-section has the steel of the armour?",
        "From the data sheet of the cable.",
        label="cross-section of the armour",
    )
    concealed: Truth = fact(
        "Does part of it run hidden in a wall, less than 50 mm deep, without earthed metal around?",
        label="cable hidden in a wall",
    )
    in_conduit: Truth = fact("Does it run in conduit or duct?")
    drip_loop: Truth = fact("Does it hang in a loop before it enters, so that rain drips off?")
    guarded: Truth = fact(
        "Is it out of the way of feet, spades, mowers and ladders?", label="cable out of harm's way"
    )
    marker_tape: Truth = fact(
        "Does marker tape lie above it in the ground?", label="marker tape above the cable"
    )
    glands_sealed: Truth = fact(
        "Does a tight gland of its size seal each entry, and is every spare hole plugged?",
        label="sealing of the cable entries",
    )
    on_pipe: Truth = fact("Is it tied to a water or refrigerant pipe?", label="cable on a pipe")
    protective_doubled: Truth = fact(
        "Has it a second protective conductor as large as the first?",
        label="second protective conductor",
    )
    soil_temperature: Temperature = fact("How warm is the soil at the cable?")
    soil_resistivity: ThermalResistivity = fact(
        "What thermal resistivity has the soil?",
        "From a soil survey; dry sand and made ground resist most.",
        label="thermal resistivity of the soil",
    )


class Isolator(_Wired):
    """The means to isolate a load for work on it."""

    place: Text = fact("Where is the isolator?", label="place of the isolator")
    poles: Choice[Literal["all", "line only"]] = fact(
        "Which poles does the isolator switch?", label="poles of the isolator"
    )
    rating: Current = fact("What is the isolator rated?", label="isolator rating")
    lockable: Truth = fact("Can it be locked off?", label="locking of the isolator")
    enclosure: Text = fact("What IP code has its enclosure?", label="enclosure of the isolator")
    in_sight: Truth = fact("Can it be seen from what it serves?", label="isolator in sight")
    distance: Length = fact("How far from the unit is it?", label="distance of the isolator")
    indoors: Truth = fact("Is it indoors?", label="isolator indoors")
    reachable: Truth = fact(
        "Can it be reached without leaning over the unit, behind it or into its fan?",
        label="reach of the isolator",
    )
    for_isolation: Truth = fact(
        "Is it marked as fit for isolation?",
        "By the symbol of a disconnector on it, or from its data sheet.",
        label="mark for isolation",
    )
    category: Choice[Literal["AC-20", "AC-21", "AC-22", "AC-23"]] = fact(
        "For what utilisation category is it rated?",
        "Printed on it or in its data sheet; without the letter A or B at the end.",
        label="utilisation category of the isolator",
    )


class Contactor(_Wired):
    """A contactor that switches the circuit, and is not part of the unit."""

    category: Choice[Literal["AC-1", "AC-3", "AC-5a", "AC-5b", "AC-7a", "AC-7b", "AC-15"]] = fact(
        "For what utilisation category is it rated?", label="utilisation category of the contactor"
    )
    rating: Current = fact(
        "What is it rated in that category?",
        "From its data sheet, at the temperature in its enclosure.",
        label="contactor rating",
    )
    lines: Count = fact("How many line conductors does it break?", label="lines that it breaks")


class Circuit(_Wired):
    """One circuit."""

    name: Text = fact("What is the circuit called?")
    serves: Choices[Load] = fact("What does the circuit feed?", label="loads served")
    phases: Phases = fact("How many phases has the circuit?", label="phases of the circuit")
    line: Choice[Literal["L1", "L2", "L3"]] = fact(
        "To which line of a three-phase supply is a single-phase circuit connected?",
        label="line of the circuit",
    )
    power: Power = fact("What power does it feed?", label="power of the circuit")
    power_factor: PowerFactor = fact("What power factor has the load?")
    design_current: Current = fact("For what current is the circuit designed?")
    device: OrNone[Device] = fact("What device protects it?", label="device")
    residual_current: OrNone[ResidualCurrent] = fact(
        "What residual current device protects it?", label="residual current device"
    )
    cable: Cable | None = fact("What cable is it run in?")
    fed_from: Text = fact(
        "From which other circuit does it branch off?",
        "The name of that circuit; 'origin' where it starts at the main distribution board.",
        label="feeder of the circuit",
    )
    terminal_temperature: Temperature = fact(
        "For what conductor temperature are all its terminals made?",
        "From the data of the device, the isolator and the load; 70 degC where they say nothing.",
        label="rated temperature of its terminals",
    )
    isolator: OrNone[Isolator] = fact("What isolates the load?")
    switched_by: Choice[SwitchedBy] = fact("What switches the load?", label="switching")
    contactor: OrNone[Contactor] = fact(
        "What contactor outside the unit switches it?", label="contactor of the circuit"
    )
    loop_impedance: Resistance = fact(
        "What earth loop impedance was measured on the circuit?",
        "Measured at its far end.",
        label="measured earth loop impedance",
    )
    disconnection_time: Duration = fact(
        "For what disconnection time is it designed?", label="designed disconnection time"
    )
    sockets: Truth = fact("Does it feed a socket outlet?", label="socket outlet on the circuit")
    bathroom: Truth = fact(
        "Does it feed or cross a room with a bath or shower?", label="circuit in a bathroom"
    )
    existing: Truth = fact("Was the circuit there before?")
