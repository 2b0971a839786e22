"""The electrical supply of the installation."""

from __future__ import annotations

from typing import ClassVar, Literal

from tundish.job.circuit import Circuit
from tundish.job.common import Entries
from tundish.job.part import (
    Choice,
    Count,
    Current,
    Items,
    Length,
    OrNone,
    Part,
    Phases,
    Power,
    Resistance,
    Text,
    Truth,
    Voltage,
    Who,
    fact,
)


class ControlWiring(Part):
    """The low-voltage and signal wiring."""

    answered_by: ClassVar[Who] = "electrician"
    found_in: ClassVar[str] = "By looking along the cable route."

    separated: Truth = fact(
        "Do control cables run apart from power cables?",
        label="separation of control and power cables",
    )
    separation: Length = fact("How far apart are control and power cables?")
    screened: Truth = fact("Are the control cables screened?")
    screen_earthed: Choice[Literal["one end", "both ends", "not"]] = fact(
        "Where is the screen earthed?"
    )
    length: Length = fact("How long is the control cable?", label="length of the control cable")
    sun_resistant: Truth = fact("Does the control cable withstand sun?")


class SurgeProtection(Part):
    """Protection against surges."""

    answered_by: ClassVar[Who] = "electrician"
    found_in: ClassVar[str] = "Seen at the distribution board."

    type: Choice[Literal["1", "2", "3", "1+2"]] = fact("Of what type is the surge protection?")
    place: Text = fact("Where is the surge protection?")


class Electricity(Part):
    """Supply, circuits and wiring."""

    answered_by: ClassVar[Who] = "electrician"
    found_in: ClassVar[str] = "Seen or measured at the distribution board."

    earthing: Choice[Literal["TN-S", "TN-C-S", "TN-C", "TT", "IT"]] = fact(
        "How is the supply earthed?", label="earthing of the supply"
    )
    phases: Phases = fact("How many phases come into the building?", label="phases of the supply")
    voltage: Voltage = fact("What voltage comes in?", label="supply voltage")
    private_supply: Truth = fact(
        "Does the supply come from a transformer or generator of the customer's own?",
        label="supply from a private source",
    )
    supplies: Count = fact("How many separate supplies can be had?", label="supplies available")
    service_fuse: Current = fact("What is the fuse of the distribution company rated?")
    agreed_power: Power = fact("What power is agreed with the distribution company?")
    existing_demand: Current = fact("What current does the building already need at most?")
    spare_ways: Count = fact("How many ways are free in the distribution board?")
    board_condition: Choice[Literal["sound", "to be repaired", "to be replaced"]] = fact(
        "In what condition is the distribution board?"
    )
    external_loop_impedance: Resistance = fact("What is the earth loop impedance outside?")
    fault_current: Current = fact("What fault current can flow at the origin?")
    earth_electrode: Resistance = fact("What resistance has the earth electrode?")
    bonding: Truth = fact("Are water, gas and metal structure bonded?", label="main bonding")
    outdoor_tap_earthed_apart: Truth = fact("Is there a separate earth for parts outdoors?")
    entries: Entries | None = fact("How many cable entries are used at the unit?")
    control_wiring: ControlWiring | None = fact("How is the control wiring laid?")
    surge_protection: OrNone[SurgeProtection] = fact("What protects against surges?")
    generator_or_battery: Truth = fact("Can the building be fed from a generator or battery?")
    load_control: Choice[Literal["none", "ripple control", "smart meter", "contact"]] = fact(
        "Can the distribution company switch the heat pump off?"
    )
    circuit: Items[Circuit] = fact("Which circuits feed the installation?")
