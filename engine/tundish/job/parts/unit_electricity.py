"""What the data sheet states about the electrical side of the unit."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import fact
from tundish.job.parts.common import Entries, SwitchedBy
from tundish.job.parts.unit_parts import UnitPart


class BackupHeater(UnitPart):
    """The electric heater that the maker offers in the unit."""

    fitted: t.Truth = fact(
        "Is the heater fitted in this unit?", label="fitting of the backup heater"
    )
    power: t.Power = fact(
        "What power has the heater?", label="power of the backup heater", example="3 kW"
    )
    phases: t.Phases = fact(
        "On how many phases does it run?", label="phases of the backup heater", example="1"
    )
    device_rating: t.Current = fact(
        "What device does the maker ask for the heater?",
        label="asked device rating of the backup heater",
        example="16 A",
    )
    switched_by: t.Choice[SwitchedBy] = fact(
        "What switches the heater?", label="switching of the backup heater", example="unit"
    )


class ControlCable(UnitPart):
    """What the maker asks of the cables for control."""

    longest: t.Length = fact(
        "How long may the control cable be at most?",
        label="longest control cable allowed",
        example="50 m",
    )
    conductor: t.CrossSection = fact(
        "What cross-section does the maker ask for its cores?",
        label="asked control conductor",
        example="0.75 mm2",
    )
    screened: t.Truth = fact(
        "Does the maker ask for a screened cable?", label="asked screen of the control cable"
    )
    screen_earthed: t.Choice[Literal["one end", "both ends"]] = fact(
        "Where does the maker want the screen earthed?",
        label="asked earthing of the screen",
        example="one end",
    )
    longest_sensor: t.Length = fact(
        "How long may the cable of a sensor be at most?",
        label="longest sensor cable allowed",
        example="30 m",
    )
    room_controller_cores: t.Count = fact(
        "How many cores does the room controller need?",
        label="cores that the controller needs",
        example="2",
    )
    room_controller_conductor: t.CrossSection = fact(
        "What cross-section does the maker ask for the room controller's cable?",
        label="asked cross-section of the room controller's cable",
        example="0.75 mm2",
    )
    room_controller_longest: t.Length = fact(
        "How long may the cable of the room controller be at most?",
        label="longest cable of a room controller allowed",
        example="50 m",
    )


class UnitElectricity(UnitPart):
    """The electrical side of the unit."""

    phases: t.Phases = fact(
        "On how many phases does the unit run?", label="phases of the unit", example="1"
    )
    highest_current: t.Current = fact("What current does it take at most?", example="19 A")
    starting_current: t.Current = fact("What current does it take at a start?", example="6 A")
    highest_power: t.Power = fact(
        "What power does it take at most?", label="highest electrical input", example="4.2 kW"
    )
    power_factor: t.PowerFactor = fact("What power factor has it?", example="0.98")
    device_rating: t.Current = fact(
        "What device does the maker ask for?", label="asked device rating", example="25 A"
    )
    device_type: t.Choice[Literal["B", "C", "D", "K", "gG"]] = fact(
        "Of what type must the device be?", label="asked device type", example="C"
    )
    residual_current_type: t.Choice[Literal["AC", "A", "F", "B"]] = fact(
        "Which type of residual current device does the maker ask for?",
        label="asked residual current type",
        example="B",
    )
    residual_current_sensitivity: t.Current = fact(
        "At what residual current does the maker want the device to trip?",
        label="asked residual current sensitivity",
        example="30 mA",
    )
    leakage_current: t.Current = fact("What current leaks to earth in service?", example="4 mA")
    conductor: t.CrossSection = fact(
        "What conductor does the maker ask for?", label="asked conductor", example="4 mm2"
    )
    highest_supply_impedance: t.Resistance = fact(
        "What impedance may the supply have at most?", example="0.3 ohm"
    )
    voltage_change_standard: t.Choice[Literal["IEC 61000-3-3", "IEC 61000-3-11", "none"]] = fact(
        "By which standard does the maker declare voltage changes and flicker?",
        label="standard for voltage changes",
        example="IEC 61000-3-11",
    )
    harmonics_standard: t.Choice[Literal["IEC 61000-3-2", "IEC 61000-3-12", "none"]] = fact(
        "By which standard does the maker declare harmonic currents?",
        label="standard for harmonic currents",
        example="IEC 61000-3-12",
    )
    lowest_service_capacity: t.Current = fact(
        "For what service capacity of a phase, at least, is it meant?",
        "Where the maker declares so, such as 100 A.",
        label="least service capacity for the unit",
        example="100 A",
    )
    lowest_short_circuit_power: t.Power = fact(
        "What short-circuit power must the supply have at least (Ssc)?",
        "Where the maker declares one.",
        label="least short-circuit power for the unit",
        example="1500 kVA",
    )
    backup_heater: t.OrNone[BackupHeater] = fact("What backup heater is there?")
    booster_contactor: t.Choice[Literal["in the unit", "outside the unit", "none"]] = fact(
        "Where is the contactor for a booster heater?", example="in the unit"
    )
    glands: Entries | None = fact("How many cable glands has the unit?")
    supplies_needed: t.Count = fact(
        "How many supplies of its own does the unit need?", example="2", label="number of supplies"
    )
    equalisation: t.Truth = fact(
        "Does the maker ask for a local equipotential bond?", example="false"
    )
    earth_electrode: t.Truth = fact(
        "Does the maker ask for an earth electrode at the unit?",
        label="asked earth electrode",
        example="false",
    )
    booster_contactor_rating: t.Current = fact(
        "What current may the unit's contactor for a booster heater switch?",
        label="rating of the unit's contactor",
        example="20 A",
    )
    control_cable: ControlCable | None = fact("What control cables does the maker ask for?")
    terminals: t.CrossSection = fact(
        "What conductor do the terminals take at most?",
        label="largest conductor that the terminals take",
        example="6 mm2",
    )
