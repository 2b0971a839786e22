"""The water circuit between the unit and what it heats."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.emitter import Emitter
from tundish.job.parts.frost import Frost
from tundish.job.parts.run import Run
from tundish.job.parts.vessels import Bypass, ExpansionVessel, Filter, Fitting, Relief, VolumeVessel


class FlowByMode(Part, found_in="From the design, or read at the flow meter."):
    """The flow in each way of running."""

    heating: t.Flow = fact(
        "What flow is there in heating?", label="flow in heating", example="22 L/min"
    )
    defrost: t.Flow = fact(
        "What flow is there in a defrost?", label="flow in a defrost", example="24 L/min"
    )
    hot_water: t.Flow = fact(
        "What flow is there in making hot water?", label="flow for hot water", example="23 L/min"
    )
    cooling: t.Flow = fact(
        "What flow is there in cooling?", label="flow in cooling", example="22 L/min"
    )


class Filling(Part, answered_by="installer", found_in="From the water supplier, or a test strip."):
    """The water that is filled in."""

    hardness: t.Hardness = fact(
        "How hard is the water that goes into the circuit, softened or not?",
        label="hardness of the filling water",
        example="1.2 mmol/L",
    )
    conductivity: t.ElectricalConductivity = fact(
        "What electrical conductivity has it?",
        "From the water supplier, or with a meter.",
        label="conductivity of the filling water",
        example="280 uS/cm",
    )
    ph: t.PH = fact("What pH has it?", label="pH of the filling water", example="7.8")
    chloride: t.Concentration = fact(
        "How much chloride is in it?", label="chloride in the filling water", example="30 mg/L"
    )
    iron: t.Concentration = fact(
        "How much iron is in it?", label="iron in the filling water", example="0.05 mg/L"
    )
    pressure: t.Pressure = fact(
        "To what pressure is the cold circuit filled?",
        "Read at the gauge.",
        label="filling pressure",
        example="1.5 bar",
    )
    source: t.Choice[Literal["mains", "softened", "demineralised", "rain", "well"]] = fact(
        "What water is filled in?",
        "Ask whoever fills the circuit.",
        label="source of the filling water",
        example="mains",
    )
    backflow_protection: t.Choice[
        Literal[
            "never connected",
            "air gap",
            "break tank",
            "reduced pressure zone",
            "disconnector",
            "check valves",
            "none",
        ]
    ] = fact(
        "What keeps circuit water out of the mains?",
        "Seen at the filling point.",
        example="disconnector",
    )
    loop_removed: t.Truth = fact(
        "Is the filling hose taken off after filling?",
        "Seen at the filling point.",
        label="taking off of the filling hose",
    )
    automatic: t.Truth = fact(
        "Does a valve top the circuit up from the mains by itself?",
        "Seen at the filling point.",
        label="automatic topping up",
        example="false",
    )
    flushed: t.Truth = fact(
        "Was the circuit flushed before filling?",
        "From the record of the filling, or ask whoever did it.",
        label="flushing",
    )
    cleaned: t.Truth = fact(
        "Was the old circuit cleaned by chemicals or power flushing?",
        "From the record of the filling, or ask whoever did it.",
        label="cleaning of the old circuit",
    )
    purged: t.Truth = fact(
        "Was the air let out?",
        "From the record of the filling, or ask whoever did it.",
        label="removal of air",
    )


class ExternalPump(
    Part, answered_by="installer", found_in="From the plate or the data sheet of the pump."
):
    """A pump besides the one in the unit."""

    head: t.Pressure = fact(
        "What pressure does it give at the design flow?", label="pump head", example="40 kPa"
    )
    place: t.Text = fact(
        "Where is the pump?", "From the drawing, or seen on the spot.", example="plant room"
    )
    run_by_unit: t.Truth = fact(
        "Does the unit switch the pump?", "From the wiring diagram.", label="switching by the unit"
    )


class Water(Part, found_in="From the design."):
    """The water circuit."""

    fluid: t.Choice[Literal["water", "propylene glycol", "ethylene glycol"]] = fact(
        "What fluid is in the circuit: water, or water with which glycol?", example="water"
    )
    treatment: t.Choices[
        Literal["inhibitor", "biocide", "softening", "demineralisation", "pH adjustment"]
    ] = fact("How is the water treated?", label="treatment of the water", example='["inhibitor"]')
    existing_circuit: t.Truth = fact(
        "Were pipes and emitters in use before?",
        "By looking, or ask the customer.",
        who="surveyor",
        example="false",
        label="pipes and emitters from before",
    )
    metals: t.Choices[
        Literal["copper", "steel", "galvanised steel", "stainless steel", "aluminium", "brass"]
    ] = fact(
        "Which metals does the water touch?",
        "By looking at pipes, emitters and heat exchangers.",
        who="installer",
        label="metals of the circuit",
        example='["copper", "steel", "brass"]',
    )
    flow_temperature: t.Temperature = fact(
        "How warm is the flow at the design temperature?", example="45 degC"
    )
    highest_temperature: t.Temperature = fact(
        "How hot can the circuit get, whatever heats it?",
        "The highest that the limiter of any heater in it allows.",
        label="highest temperature of the circuit",
        example="65 degC",
    )
    temperature_difference: t.TemperatureDifference = fact(
        "How much does the water cool between flow and return?",
        label="difference between flow and return",
        example="5 K",
    )
    cools: t.Truth = fact(
        "Does the unit cool the building in summer?", label="cooling", example="false"
    )
    cooling_temperature: t.Temperature = fact(
        "How cold does the flow get in cooling?",
        label="flow temperature in cooling",
        example="18 degC",
    )
    flow: FlowByMode | None = fact("What flow is there in each way of running?")
    pressure_loss: t.Pressure = fact(
        "What pressure is lost in the circuit at the design flow?", example="30 kPa"
    )
    volume: t.Volume = fact(
        "How much water is in the whole circuit?", label="water in the circuit", example="110 L"
    )
    static_height: t.Length = fact(
        "How high does the circuit rise above the expansion vessel?",
        label="height of the circuit above the expansion vessel",
        example="3 m",
    )
    open_zones: t.Truth = fact("Is one zone always open?", label="zone that is always open")
    filling: Filling | None = fact("What water is filled in?")
    run: t.Items[Run] = fact("Which runs of pipe are there?", label="runs of pipe")
    emitter: t.Items[Emitter] = fact("Which emitters are there?", label="emitters")
    volume_vessel: t.OrNone[VolumeVessel] = fact("What vessel adds water to the circuit?")
    expansion_vessel: t.OrNone[ExpansionVessel] = fact("What takes up the expansion of the water?")
    bypass: t.OrNone[Bypass] = fact("What bypass is there?")
    relief: t.OrNone[Relief] = fact("What relieves too high a pressure?", label="relief valve")
    unit_discharge_in_place: t.Truth = fact(
        "Is the discharge hose of the unit's own relief valve in its place after transport?",
        "Seen with the cover of the unit off.",
        who="installer",
        label="discharge hose of the unit in its place",
    )
    filter: t.OrNone[Filter] = fact("What filter is there?")
    fittings: t.Items[Fitting] = fact("Which other valves and fittings are there?")
    frost: Frost | None = fact("What protects against frost?", label="frost protection")
    pressure_gauge: t.Truth = fact("Can the pressure be read on a gauge?", "By looking.")
    external_pump: t.OrNone[ExternalPump] = fact("What pump is there besides the unit's own?")
