"""What the data sheet states about the electrical side of the unit."""

from __future__ import annotations

from typing import Literal

from tundish.job.common import Entries, Load, SwitchedBy
from tundish.job.part import (
    Choice,
    Choices,
    Count,
    CrossSection,
    Current,
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
    backup_heater: OrNone[BackupHeater] = fact("What backup heater is there?")
    booster_contactor: Choice[Literal["in the unit", "outside the unit", "none"]] = fact(
        "Where is the contactor for a booster heater?"
    )
    glands: Entries | None = fact("How many cable glands has the unit?")
    supplies_needed: Count = fact("How many supplies of its own does the unit need?")
    separate_supplies: Choices[Load] = fact("Which loads need a supply of their own?")
    equalisation: Truth = fact("Does the maker ask for a local equipotential bond?")
    terminals: CrossSection = fact("What conductor do the terminals take at most?")
