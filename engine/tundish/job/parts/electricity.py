"""The electrical supply of the installation."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.circuit import Circuit
from tundish.job.parts.common import Entries, Load
from tundish.job.parts.control_wiring import ControlWiring


class SurgeProtection(Part, answered_by="electrician", found_in="Seen at the distribution board."):
    """Protection against surges."""

    type: t.Choice[Literal["1", "2", "3", "1+2"]] = fact(
        "Of what type is the surge protection?", example="2"
    )
    place: t.Text = fact("Where is the surge protection?", example="distribution board")
    lead_length: t.Length = fact(
        "How long are its leads, from the line to the device and on to the earth bar?",
        "Both stretches together, with a tape.",
        label="length of the surge protection's leads",
        example="400 mm",
    )
    protection_level: t.Voltage = fact(
        "To what voltage does it limit a surge?",
        "Up on the device, or in its data sheet.",
        label="protection level of the surge protection",
        example="1.5 kV",
    )


class ExistingLoad(
    Part,
    answered_by="electrician",
    found_in="Counted in the building, with the currents on the plates.",
):
    """What the building already feeds, heat pump and its heaters left out."""

    kind: t.Choice[
        Literal[
            "lighting",
            "sockets",
            "cooker",
            "instantaneous water heater",
            "water heater with thermostat",
            "storage or floor heating",
            "other heating",
            "vehicle charger",
            "other",
        ]
    ] = fact("What kind of load is it?", label="kind of load", example="cooker")
    current: t.Current = fact(
        "What current does it take with all of it on?",
        "From the plates; for sockets the rating of their protective device.",
        label="full current of the load",
        example="32 A",
    )
    socket_outlet: t.Truth = fact(
        "Has the control of the cooker a socket outlet?",
        label="socket outlet at the cooker",
        example="false",
    )


class Electricity(
    Part, answered_by="electrician", found_in="Seen or measured at the distribution board."
):
    """Supply, circuits and wiring."""

    earthing: t.Choice[Literal["TN-S", "TN-C-S", "TN-C", "TT", "IT"]] = fact(
        "How is the supply earthed?", label="earthing of the supply", example="TN-C-S"
    )
    phases: t.Phases = fact(
        "How many phases come into the building?", label="phases of the supply", example="1"
    )
    voltage: t.Voltage = fact("What voltage comes in?", label="supply voltage", example="230 V")
    private_supply: t.Truth = fact(
        "Does the supply come from a transformer or generator of the customer's own?",
        "Ask the customer or the distribution company.",
        label="supply from a private source",
        example="false",
    )
    supplies: t.Count = fact(
        "How many separate supplies can be had?",
        "Ask the distribution company.",
        label="supplies available",
        example="1",
    )
    service_fuse: t.Current = fact(
        "What is the main fuse, that of the distribution company, rated?", example="100 A"
    )
    agreed_power: t.Power = fact(
        "What power is agreed with the distribution company?",
        "From the contract with the distribution company.",
        example="18 kVA",
    )
    existing_demand: t.Current = fact(
        "What current does the building need at most, without the heat pump and its heaters?",
        "Recorded at the board over a winter week, in the phase loaded most.",
        label="demand of the building so far",
        example="32 A",
    )
    existing_load: t.Items[ExistingLoad] = fact(
        "What does the building already feed?", "Counted in the building.", label="existing loads"
    )
    interlock: t.Choices[Load] = fact(
        "Which loads are kept from running together, so that only one of them runs at a time?",
        "From the wiring diagram or the settings; [] where nothing holds them apart.",
        label="loads that take turns",
        example='["outdoor unit", "booster heater"]',
    )
    interlock_by: t.Choice[
        Literal["switching contacts", "controls of the unit", "load limiter", "timer", "the user"]
    ] = fact(
        "What keeps them from running together?",
        "From the wiring diagram or the settings.",
        label="what holds the loads apart",
        example="controls of the unit",
    )
    interlock_tested: t.Truth = fact(
        "Was it tried that these loads do not run together?",
        "By calling for all of them at once and reading the current.",
        label="trial of the interlock",
    )
    supply_impedance: t.Resistance = fact(
        "What impedance has the supply, line and neutral together?",
        "Ask the distribution company, or measure at the board.",
        label="impedance of line and neutral of the supply",
        example="0.25 ohm",
    )
    line_impedance: t.Resistance = fact(
        "What impedance has one line of the supply?",
        "Ask the distribution company; half of what is measured between two lines.",
        label="impedance of a line of the supply",
        example="0.12 ohm",
    )
    short_circuit_power: t.Power = fact(
        "What three-phase short-circuit power has the network where the service begins?",
        "Ask the distribution company.",
        label="short-circuit power of the supply",
        example="3000 kVA",
    )
    cut_out_rating_read: t.Truth = fact(
        "Can the rating of the service fuse or cut-out be read or found out?",
        "Seen at the service head, seal left whole; or from the distribution company.",
        label="readable rating of the cut-out",
    )
    looped_service: t.Truth = fact(
        "Does the service also feed a neighbour, or come through one?",
        "Two cables in one service head; or from the distribution company.",
        example="false",
    )
    service_sound: t.Truth = fact(
        "Are service head, meter and tails safe and large enough?",
        "By looking for heat, cracks, compound run out and thin tails.",
        label="soundness of the service",
    )
    spare_ways: t.Count = fact("How many ways are free in the distribution board?", example="2")
    board_condition: t.Choice[Literal["sound", "to be repaired", "to be replaced"]] = fact(
        "In what condition is the distribution board?", example="sound"
    )
    external_loop_impedance: t.Resistance = fact(
        "What is the earth loop impedance outside?", example="0.28 ohm"
    )
    fault_current: t.Current = fact("What fault current can flow at the origin?", example="1.8 kA")
    earth_electrode: t.Resistance = fact(
        "What resistance has the earth electrode?", "Measured at the electrode.", example="60 ohm"
    )
    bonding: t.Truth = fact(
        "Are water, gas and metal structure bonded?",
        "Seen where each comes into the building.",
        label="main bonding",
    )
    outdoor_tap_earthed_apart: t.Truth = fact(
        "Is there a separate earth for parts outdoors?",
        "From the wiring diagram, or seen at the unit.",
        label="separate earth outdoors",
        example="false",
    )
    entries: Entries | None = fact(
        "How many cable entries are used at the unit?", "Counted at the unit."
    )
    control_wiring: ControlWiring | None = fact(
        "How is the control wiring laid?", "By looking along the cable route."
    )
    surge_protection: t.OrNone[SurgeProtection] = fact("What protects against surges?")
    surge_risk_tolerable: t.Truth = fact(
        "Does a written risk assessment show that surge protection is not needed?",
        "From the assessment itself.",
        label="surge risk assessed as tolerable",
        example="false",
    )
    surge_protection_declined: t.Truth = fact(
        "Has the owner declined surge protection in writing?",
        "From the owner's letter.",
        example="false",
        label="refusal of surge protection",
    )
    supplies_notice: t.Truth = fact(
        "Does a notice at the unit name every supply that must be isolated?",
        "Seen at the unit.",
        label="notice of several supplies",
    )
    unit_earthed: t.Truth = fact(
        "Is the metal case of the unit joined to the protective conductor of its circuit?",
        "Seen or measured at the unit.",
        label="earthing of the unit's case",
    )
    local_bond: t.Truth = fact(
        "Is there a local equipotential bond at the unit?",
        "Seen at the unit.",
        label="local equipotential bond",
        example="false",
    )
    broken_neutral_considered: t.Truth = fact(
        "Was it considered what a broken neutral of the supply does at the unit?",
        "Ask whoever designed the circuit.",
        label="thought given to a broken neutral",
    )
    pipes_to_earth: t.Resistance = fact(
        "What resistance to the main earth bar have the metal pipes that come in, unconnected?",
        "Measured where they enter, before bonding and with the unit apart from them.",
        label="resistance of the metal pipes to earth",
        example="0.4 ohm",
    )
    pipes_bonded: t.Truth = fact(
        "Are metal pipes bonded where they enter the building?",
        "Seen where they enter.",
        label="bonding of the metal pipes",
    )
    generator_or_battery: t.Truth = fact(
        "Can the building be fed from a generator or battery?",
        "Ask the customer; seen by a change-over switch at the board.",
        example="false",
    )
    standby_power: t.Power = fact(
        "What power can the generator or battery give by itself?",
        "From its plate, in continuous service.",
        label="power of the generator or battery",
        example="5 kW",
    )
    standby_feeds: t.Choices[Load] = fact(
        "Which of these loads stay connected while it feeds?",
        "From the wiring diagram; [] where none does.",
        label="loads fed by the generator or battery",
        example="[]",
    )
    circuit: t.Items[Circuit] = fact(
        "Which circuits feed the installation?",
        "From the circuit schedule, or seen on the spot.",
        label="circuits",
    )
