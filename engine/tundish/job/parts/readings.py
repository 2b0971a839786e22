"""Readings that are taken at commissioning."""

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.water import FlowByMode


class MeasuredFlow(
    FlowByMode,
    answered_by="installer",
    found_in="Read at the flow meter or the controller while it runs that way.",
):
    """The flow as it was measured in each way of running."""


class WaterReadings(Part, answered_by="installer", found_in="Measured at commissioning."):
    """Readings on the water side."""

    flow: MeasuredFlow | None = fact("What flow was measured?", label="measured flow")
    flow_temperature: t.Temperature = fact(
        "How warm was the flow?", label="measured flow temperature", example="42 degC"
    )
    return_temperature: t.Temperature = fact(
        "How warm was the return?", label="measured return temperature", example="37 degC"
    )
    cold_pressure: t.Pressure = fact(
        "What pressure had the cold circuit?", label="measured cold pressure", example="1.5 bar"
    )
    hot_pressure: t.Pressure = fact(
        "What pressure had the hot circuit?", label="measured hot pressure", example="1.9 bar"
    )
    precharge: t.Pressure = fact(
        "What precharge had the expansion vessel, empty of water?",
        label="measured precharge",
        example="1 bar",
    )
    test_pressure: t.Pressure = fact("At what pressure was the circuit tested?", example="4.5 bar")
    tight: t.Truth = fact("Did the circuit hold the test pressure?", label="tightness")
    glycol_fraction: t.Fraction = fact(
        "What fraction of glycol did the refractometer show?",
        label="measured glycol fraction",
        example="30 %",
    )
    glycol_protects_to: t.Temperature = fact(
        "Down to what did the refractometer show protection?",
        label="measured protection by the glycol",
        example="-15 degC",
    )
    glycol_ph: t.PH = fact(
        "What pH had the glycol mixture?", label="pH of the glycol mixture", example="8.2"
    )
    ph: t.PH = fact("What pH had the water?", label="measured pH", example="8.4")
    hardness: t.Hardness = fact(
        "How hard was the water?", label="measured hardness", example="1.2 mmol/L"
    )
    conductivity: t.ElectricalConductivity = fact(
        "What conductivity had the water?", label="measured conductivity", example="280 uS/cm"
    )
    oxygen: t.Concentration = fact(
        "How much oxygen was in the water, some weeks after filling?",
        label="measured oxygen",
        example="0.05 mg/L",
    )
    hot_water_temperature: t.Temperature = fact(
        "How hot was the water in the cylinder?",
        "At the end of its first heating by the unit.",
        label="measured temperature of the hot water",
        example="50 degC",
    )
    germ_run_temperature: t.Temperature = fact(
        "How hot did the cylinder get in its first heating against germs?",
        label="temperature in the first heating against germs",
        example="61 degC",
    )
    flow_when_shut: t.Flow = fact(
        "What flow was there with every zone and room valve shut?",
        label="measured flow with every control valve shut",
        example="14 L/min",
    )
    flushed_conductivity: t.ElectricalConductivity = fact(
        "What conductivity had the water that came out at the end of flushing?",
        label="conductivity at the end of flushing",
        example="360 uS/cm",
    )


class ElectricalReadings(
    Part, answered_by="electrician", found_in="Measured, tried or seen at commissioning."
):
    """Readings on the electrical side."""

    voltage: t.Voltage = fact(
        "What voltage was there under load?",
        "Between line and neutral; of a supply with three phases, between two lines.",
        label="measured voltage",
        example="232 V",
    )
    current: t.Current = fact(
        "What current did the unit take?", label="measured current", example="12 A"
    )
    power: t.Power = fact("What power did the unit take?", label="measured power", example="2.6 kW")
    loop_impedance: t.Resistance = fact(
        "What earth loop impedance was measured?", example="0.45 ohm"
    )
    insulation_resistance: t.Resistance = fact(
        "What insulation resistance was measured?", example="200 Mohm"
    )
    insulation_test_voltage: t.Voltage = fact(
        "At what direct voltage was the insulation measured?",
        label="voltage of the insulation test",
        example="500 V",
    )
    protective_continuity: t.Resistance = fact(
        "What resistance had the protective conductor of the unit's circuit, end to end?",
        label="measured resistance of the protective conductor",
        example="0.12 ohm",
    )
    trip_time: t.Duration = fact(
        "In what time did the residual current device trip at its rated residual current?",
        "The longest of the readings.",
        label="trip time at the rated residual current",
        example="28 ms",
    )
    fast_trip_time: t.Duration = fact(
        "In what time did it trip at five times its rated residual current?",
        "The longest of the readings.",
        label="trip time at five times the rated residual current",
        example="18 ms",
    )
    trip_current: t.Current = fact(
        "At what rising current did the residual current device of the unit trip?",
        "With sinusoidal current and the load disconnected.",
        label="measured trip current",
        example="22 mA",
    )
    polarity: t.Truth = fact("Was the polarity right?", label="right polarity")
    phase_sequence: t.Truth = fact(
        "Was the sequence of the three phases right?", label="right sequence of phases"
    )
    functions_tried: t.Truth = fact(
        "Were switches, isolators and the test buttons of residual current devices tried?",
        label="trial of the switches",
    )


class Readings(Part, answered_by="installer", found_in="Measured, tried or seen at commissioning."):
    """Readings of the commissioning."""

    day: t.Day = fact(
        "When were the readings taken?", label="day of the readings", example="2026-12-04"
    )
    air_temperature: t.Temperature = fact(
        "How cold was the outdoor air?", label="measured air", example="4 degC"
    )
    air_in: t.Temperature = fact(
        "How warm was the air just before the coil of the unit?",
        label="measured air into the coil",
        example="4 degC",
    )
    air_out: t.Temperature = fact(
        "How warm was the air that left the fan of the unit?",
        label="measured air out of the fan",
        example="-1 degC",
    )
    at_full_power: t.Truth = fact(
        "Did the unit run steadily at full power while it was read?",
        "No defrost in the ten minutes before; a unit with variable speed shows its speed.",
        label="running at full power during the readings",
    )
    water: WaterReadings | None = fact("What was read on the water side?")
    electricity: ElectricalReadings | None = fact("What was read on the electrical side?")
    heat_output: t.Power = fact(
        "What heat did the unit give?", label="measured heat output", example="7.6 kW"
    )
    sound_level: t.SoundLevel = fact(
        "What sound level was measured?", label="measured sound level", example="45 dB"
    )
    defrost_seen: t.Truth = fact("Was a defrost watched?", label="watched defrost")
    antifreeze_valves_tested: t.Truth = fact(
        "Were the antifreeze valves tried?", label="trial of the antifreeze valves"
    )
    relief_valves_tried: t.Truth = fact(
        "Was every relief valve lifted by hand, and did it shut tight again?",
        label="trial of the relief valves",
    )
    heater_tried: t.Truth = fact(
        "Was the electric heater switched on by the controls for a trial?",
        label="trial of the electric heater",
    )
    second_source_tried: t.Truth = fact(
        "Was the second heat source called by the controls for a trial?",
        "Called, seen to take over, and seen to let go again.",
        label="trial of the second heat source",
    )
    filter_cleaned: t.Truth = fact(
        "Was the filter cleaned after the first days?", label="cleaning of the filter"
    )
    refrigerant_leak_found: t.Truth = fact(
        "Was a leak of refrigerant found?",
        "With a leak detector for this refrigerant.",
        example="false",
        label="leak of refrigerant",
    )
    condensate_runs: t.Truth = fact(
        "Does poured water run off through the drain?", label="run-off through the drain"
    )
