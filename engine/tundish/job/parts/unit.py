"""The outdoor unit's own figures, as its maker's data sheet states them."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import fact
from tundish.job.parts.unit_electricity import UnitElectricity
from tundish.job.parts.unit_parts import (
    Refrigerant,
    Size,
    SoundPower,
    UnitClearance,
    UnitPart,
    UnitPlacing,
)
from tundish.job.parts.unit_water import UnitWater


class Rating(UnitPart):
    """Heat output and electrical input at one pair of temperatures."""

    air: t.Temperature = fact(
        "At what outdoor air was it measured?", label="air temperature", example="-7 degC"
    )
    flow: t.Temperature = fact(
        "At what flow temperature was it measured?", label="flow temperature", example="35 degC"
    )
    output: t.Power = fact("What heat does it give?", label="heat output", example="7.4 kW")
    input: t.Power = fact(
        "What electricity does it take?", label="electrical input", example="2.7 kW"
    )


class Defrost(UnitPart):
    """What one defrost takes."""

    energy: t.Energy = fact(
        "What heat does one defrost take from the water?",
        label="heat of a defrost",
        example="1.2 kWh",
    )
    duration: t.Duration = fact(
        "How long does a defrost last?", label="duration of a defrost", example="5 min"
    )
    power: t.Power = fact("What power does a defrost take from the water?", example="9 kW")
    frost_mass: t.Mass = fact(
        "How much frost can the coil hold?", label="mass of frost", example="2.5 kg"
    )
    lowest_water_temperature: t.Temperature = fact(
        "How cold may the water get in a defrost?",
        label="lowest water temperature in a defrost",
        example="15 degC",
    )
    interval: t.Duration = fact(
        "How long is it between two defrosts at worst?",
        label="time between two defrosts",
        example="45 min",
    )
    method: t.Choice[Literal["reversed cycle", "hot gas", "electric"]] = fact(
        "How does it defrost?", example="reversed cycle"
    )


class OutdoorUnit(UnitPart):
    """The outdoor unit."""

    model: t.Text = fact(
        "Which model is it?", "From its plate.", example="Invented 8 kW outdoor unit"
    )
    made: t.Day = fact(
        "When was it made?", "From its plate.", label="day of making", example="2026-03-12"
    )
    heat_source: t.Choice[Literal["outdoor air", "ground", "water", "exhaust air"]] = fact(
        "Where does it take its heat from?", example="outdoor air"
    )
    form: t.Choice[Literal["monobloc", "refrigerant split"]] = fact(
        "Does refrigerant stay in the outdoor unit, or run into the house?",
        label="form of the unit",
        example="monobloc",
    )
    compressor: t.Choice[Literal["variable speed", "fixed speed"]] = fact(
        "How does it set its power?", example="variable speed"
    )
    refrigerant: Refrigerant | None = fact("What refrigerant does it hold?")
    mass: t.Mass = fact("What does it weigh?", label="mass of the unit", example="124 kg")
    size: Size | None = fact("How large is it?", label="size of the unit")
    sound_power: SoundPower | None = fact("How loud is it?")
    tonal_addition: t.LevelDifference = fact(
        "What addition for tones does its maker state?", label="addition for tones", example="0 dB"
    )
    rating: t.Items[Rating] = fact("What does it give and take at which temperatures?")
    heat_from_air: t.Power = fact(
        "What heat does it draw from air near 2 degC at full power?",
        label="heat drawn from the air",
        example="5.4 kW",
    )
    air_cooling: t.TemperatureDifference = fact(
        "By how much does it cool the air near 2 degC?",
        label="cooling of the air in the coil",
        example="5 K",
    )
    least_output: t.Power = fact("What is the least heat it gives while it runs?", example="2.9 kW")
    highest_flow_temperature: t.Temperature = fact(
        "How hot can it make the water?", example="65 degC"
    )
    lowest_air_temperature: t.Temperature = fact(
        "Down to what outdoor air does it run?", example="-20 degC"
    )
    water: UnitWater | None = fact("What does it ask of the water?")
    defrost: Defrost | None = fact("What does a defrost take?")
    electricity: UnitElectricity | None = fact("What does it ask of the electricity?")
    clearance: UnitClearance | None = fact("What space does it ask for?")
    placing: UnitPlacing | None = fact("How does it ask to be placed?")
    air_flow: t.Flow = fact("How much air does it move?", example="3200 m3/h")
