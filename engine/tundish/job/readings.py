"""Readings that are taken at commissioning."""

from typing import ClassVar

from tundish.job.part import (
    PH,
    Concentration,
    Current,
    Day,
    Duration,
    ElectricalConductivity,
    Flow,
    Fraction,
    Hardness,
    Part,
    Power,
    Pressure,
    Resistance,
    SoundLevel,
    Temperature,
    Truth,
    Voltage,
    Who,
    fact,
)
from tundish.job.water import FlowByMode


class WaterReadings(Part):
    """Readings on the water side."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "Measured at commissioning."

    flow: FlowByMode | None = fact("What flow was measured?", label="measured flow")
    flow_temperature: Temperature = fact(
        "How warm was the flow?", label="measured flow temperature"
    )
    return_temperature: Temperature = fact(
        "How warm was the return?", label="measured return temperature"
    )
    cold_pressure: Pressure = fact(
        "What pressure had the cold circuit?", label="measured cold pressure"
    )
    hot_pressure: Pressure = fact(
        "What pressure had the hot circuit?", label="measured hot pressure"
    )
    precharge: Pressure = fact(
        "What precharge had the expansion vessel, empty of water?", label="measured precharge"
    )
    test_pressure: Pressure = fact(
        "At what pressure was the circuit tested?", label="test pressure"
    )
    test_duration: Duration = fact("How long was the circuit tested?")
    tight: Truth = fact("Did the circuit hold the test pressure?", label="tightness")
    glycol_fraction: Fraction = fact(
        "What fraction of glycol did the refractometer show?", label="measured glycol fraction"
    )
    glycol_protects_to: Temperature = fact(
        "Down to what did the refractometer show protection?",
        label="measured protection by the glycol",
    )
    glycol_ph: PH = fact("What pH had the glycol mixture?", label="pH of the glycol mixture")
    ph: PH = fact("What pH had the water?", label="measured pH")
    hardness: Hardness = fact("How hard was the water?", label="measured hardness")
    conductivity: ElectricalConductivity = fact(
        "What conductivity had the water?", label="measured conductivity"
    )
    oxygen: Concentration = fact(
        "How much oxygen was in the water, some weeks after filling?", label="measured oxygen"
    )
    hot_water_temperature: Temperature = fact(
        "How hot was the water in the cylinder?",
        "At the end of its first heating by the unit.",
        label="measured temperature of the hot water",
    )
    germ_run_temperature: Temperature = fact(
        "How hot did the cylinder get in its first heating against germs?",
        label="temperature in the first heating against germs",
    )
    flow_when_shut: Flow = fact(
        "What flow was there with every zone and room valve shut?",
        label="measured flow with every control valve shut",
    )
    flushed_conductivity: ElectricalConductivity = fact(
        "What conductivity had the water that came out at the end of flushing?",
        label="conductivity at the end of flushing",
    )


class ElectricalReadings(Part):
    """Readings on the electrical side."""

    answered_by: ClassVar[Who] = "electrician"
    found_in: ClassVar[str] = "Measured at commissioning."

    voltage: Voltage = fact("What voltage was there under load?", label="measured voltage")
    current: Current = fact("What current did the unit take?", label="measured current")
    power: Power = fact("What power did the unit take?", label="measured power")
    loop_impedance: Resistance = fact("What earth loop impedance was measured?")
    insulation_resistance: Resistance = fact("What insulation resistance was measured?")
    insulation_test_voltage: Voltage = fact(
        "At what direct voltage was the insulation measured?",
        label="voltage of the insulation test",
    )
    protective_continuity: Resistance = fact(
        "What resistance had the protective conductor of the unit's circuit, end to end?",
        label="measured resistance of the protective conductor",
    )
    trip_time: Duration = fact(
        "In what time did the residual current device trip at its rated residual current?",
        "The longest of the readings.",
        label="trip time at the rated residual current",
    )
    fast_trip_time: Duration = fact(
        "In what time did it trip at five times its rated residual current?",
        "The longest of the readings.",
        label="trip time at five times the rated residual current",
    )
    trip_current: Current = fact(
        "At what rising current did the residual current device of the unit trip?",
        "With sinusoidal current and the load disconnected.",
        label="measured trip current",
    )
    polarity: Truth = fact("Was the polarity right?", label="right polarity")
    phase_sequence: Truth = fact(
        "Was the sequence of the three phases right?", label="right sequence of phases"
    )
    functions_tried: Truth = fact(
        "Were switches, isolators and the test buttons of residual current devices tried?",
        label="trial of the switches",
    )


class Readings(Part):
    """Readings of the commissioning."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "Measured at commissioning."

    day: Day = fact("When were the readings taken?", label="day of the readings")
    air_temperature: Temperature = fact("How cold was the outdoor air?", label="measured air")
    air_in: Temperature = fact(
        "How warm was the air just before the coil of the unit?", label="measured air into the coil"
    )
    air_out: Temperature = fact(
        "How warm was the air that left the fan of the unit?", label="measured air out of the fan"
    )
    at_full_power: Truth = fact(
        "Did the unit run steadily at full power while it was read?",
        "No defrost in the ten minutes before; a unit with variable speed shows its speed.",
        label="running at full power during the readings",
    )
    water: WaterReadings | None = fact("What was read on the water side?")
    electricity: ElectricalReadings | None = fact("What was read on the electrical side?")
    heat_output: Power = fact("What heat did the unit give?", label="measured heat output")
    sound_level: SoundLevel = fact("What sound level was measured?", label="measured sound level")
    defrost_seen: Truth = fact("Was a defrost watched?", label="watched defrost")
    antifreeze_valves_tested: Truth = fact(
        "Were the antifreeze valves tried?", label="trial of the antifreeze valves"
    )
    relief_valves_tried: Truth = fact(
        "Was every relief valve lifted by hand, and did it shut tight again?",
        label="trial of the relief valves",
    )
    heater_tried: Truth = fact(
        "Was the electric heater switched on by the controls for a trial?",
        label="trial of the electric heater",
    )
    second_source_tried: Truth = fact(
        "Was the second heat source called by the controls for a trial?",
        "Called, seen to take over, and seen to let go again.",
        label="trial of the second heat source",
    )
    filter_cleaned: Truth = fact("Was the filter cleaned after the first days?")
    refrigerant_leak_found: Truth = fact("Was a leak of refrigerant found?")
    condensate_runs: Truth = fact("Does poured water run off through the drain?")
