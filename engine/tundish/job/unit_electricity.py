"""What the data sheet states about the electrical side of the unit."""

from typing import Literal

from tundish.job.common import Entries, Load, SwitchedBy
from tundish.job.part import (
    Choice,
    Choices,
    Count,
    CrossSection,
    Current,
    Length,
    OrNone,
    Phases,
    Power,
    PowerFactor,
    Resistance,
    Truth,
    Voltage,
    fact,
)
from tundish.job.unit_parts import UnitPart


class BackupHeater(UnitPart):
    """The electric heater that the maker offers in the unit."""

    fitted: Truth = fact("Is the heater fitted in this unit?", label="fitting of the backup heater")
    power: Power = fact("What power has the heater?", label="power of the backup heater")
    phases: Phases = fact("On how many phases does it run?", label="phases of the backup heater")
    device_rating: Current = fact(
        "What device does the maker ask for the heater?",
        label="asked device rating of the backup heater",
    )
    switched_by: Choice[SwitchedBy] = fact(
        "What switches the heater?", label="switching of the backup heater"
    )


class ControlCable(UnitPart):
    """What the maker asks of the cables for control."""

    longest: Length = fact(
        "How long may the control cable be at most?", label="longest control cable allowed"
    )
    conductor: CrossSection = fact(
        "What cross-section does the maker ask for its cores?", label="asked control conductor"
    )
    screened: Truth = fact(
        "Does the maker ask for a screened cable?", label="asked screen of the control cable"
    )
    screen_earthed: Choice[Literal["one end", "both ends"]] = fact(
        "Where does the maker want the screen earthed?", label="asked earthing of the screen"
    )
    longest_sensor: Length = fact(
        "How long may the cable of a sensor be at most?", label="longest sensor cable allowed"
    )
    room_controller_cores: Count = fact(
        "How many cores does the room controller need?", label="cores that the controller needs"
    )
    room_controller_conductor: CrossSection = fact(
        "What cross-section does the maker ask for the room controller's cable?",
        label="asked cross-section of the room controller's cable",
    )
    room_controller_longest: Length = fact(
        "How long may the cable of the room controller be at most?",
        label="longest cable of a room controller allowed",
    )


class UnitElectricity(UnitPart):
    """The electrical side of the unit."""

    phases: Phases = fact("On how many phases does the unit run?", label="phases of the unit")
    voltage: Voltage = fact("For what voltage is it made?", label="rated voltage")
    highest_current: Current = fact("What current does it take at most?")
    starting_current: Current = fact("What current does it take at a start?")
    highest_power: Power = fact(
        "What power does it take at most?", label="highest electrical input"
    )
    power_factor: PowerFactor = fact("What power factor has it?")
    device_rating: Current = fact(
        "What device does the maker ask for?", label="asked device rating"
    )
    device_type: Choice[Literal["B", "C", "D", "K", "gG"]] = fact(
        "Of what type must the device be?", label="asked device type"
    )
    residual_current_type: Choice[Literal["AC", "A", "F", "B"]] = fact(
        "Which type of residual current device does the maker ask for?",
        label="asked residual current type",
    )
    residual_current_sensitivity: Current = fact(
        "At what residual current does the maker want the device to trip?",
        label="asked residual current sensitivity",
    )
    leakage_current: Current = fact("What current leaks to earth in service?")
    conductor: CrossSection = fact(
        "What conductor does the maker ask for?", label="asked conductor"
    )
    highest_supply_impedance: Resistance = fact("What impedance may the supply have at most?")
    voltage_change_standard: Choice[Literal["IEC 61000-3-3", "IEC 61000-3-11", "none"]] = fact(
        "By which standard does the maker declare voltage changes and flicker?",
        label="standard for voltage changes",
    )
    harmonics_standard: Choice[Literal["IEC 61000-3-2", "IEC 61000-3-12", "none"]] = fact(
        "By which standard does the maker declare harmonic currents?",
        label="standard for harmonic currents",
    )
    lowest_service_capacity: Current = fact(
        "For what service capacity of a phase, at least, is it meant?",
        "Where the maker declares so, such as 100 A.",
        label="least service capacity for the unit",
    )
    lowest_short_circuit_power: Power = fact(
        "What short-circuit power must the supply have at least (Ssc)?",
        "Where the maker declares one.",
        label="least short-circuit power for the unit",
    )
    backup_heater: OrNone[BackupHeater] = fact("What backup heater is there?")
    booster_contactor: Choice[Literal["in the unit", "outside the unit", "none"]] = fact(
        "Where is the contactor for a booster heater?"
    )
    glands: Entries | None = fact("How many cable glands has the unit?")
    supplies_needed: Count = fact("How many supplies of its own does the unit need?")
    separate_supplies: Choices[Load] = fact("Which loads need a supply of their own?")
    equalisation: Truth = fact("Does the maker ask for a local equipotential bond?")
    earth_electrode: Truth = fact(
        "Does the maker ask for an earth electrode at the unit?", label="asked earth electrode"
    )
    booster_contactor_rating: Current = fact(
        "What current may the unit's contactor for a booster heater switch?",
        label="rating of the unit's contactor",
    )
    control_cable: ControlCable | None = fact("What control cables does the maker ask for?")
    terminals: CrossSection = fact(
        "What conductor do the terminals take at most?",
        label="largest conductor that the terminals take",
    )
