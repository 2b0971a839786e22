"""The water circuit between the unit and what it heats."""

from typing import ClassVar, Literal

from tundish.job.emitter import Emitter
from tundish.job.frost import Frost
from tundish.job.part import (
    PH,
    Choice,
    Choices,
    Concentration,
    Day,
    ElectricalConductivity,
    Flow,
    Hardness,
    Items,
    Length,
    OrNone,
    Part,
    Pressure,
    Temperature,
    TemperatureDifference,
    Text,
    Truth,
    Volume,
    Who,
    fact,
)
from tundish.job.run import Run
from tundish.job.vessels import Bypass, ExpansionVessel, Filter, Fitting, Relief, VolumeVessel


class FlowByMode(Part):
    """The flow in each way of running."""

    found_in: ClassVar[str] = "From the design, or read at the flow meter."

    heating: Flow = fact("What flow is there in heating?", label="flow in heating")
    defrost: Flow = fact("What flow is there in a defrost?", label="flow in a defrost")
    hot_water: Flow = fact("What flow is there in making hot water?", label="flow for hot water")
    cooling: Flow = fact("What flow is there in cooling?", label="flow in cooling")


class Filling(Part):
    """The water that is filled in."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "From the water supplier, or a test strip."

    hardness: Hardness = fact(
        "How hard is the water that goes into the circuit, softened or not?",
        label="hardness of the filling water",
    )
    alkalinity: Hardness = fact("What alkalinity has the filling water?")
    conductivity: ElectricalConductivity = fact(
        "What electrical conductivity has it?", label="conductivity of the filling water"
    )
    ph: PH = fact("What pH has it?", label="pH of the filling water")
    chloride: Concentration = fact(
        "How much chloride is in it?", label="chloride in the filling water"
    )
    sulphate: Concentration = fact("How much sulphate is in it?", label="sulphate in the water")
    iron: Concentration = fact("How much iron is in it?", label="iron in the filling water")
    oxygen: Concentration = fact("How much oxygen is in it?", label="oxygen in the water")
    pressure: Pressure = fact(
        "To what pressure is the cold circuit filled?", label="filling pressure"
    )
    source: Choice[Literal["mains", "softened", "demineralised", "rain", "well"]] = fact(
        "What water is filled in?", label="source of the filling water"
    )
    backflow_protection: Choice[
        Literal[
            "never connected",
            "air gap",
            "break tank",
            "reduced pressure zone",
            "disconnector",
            "check valves",
            "none",
        ]
    ] = fact("What keeps circuit water out of the mains?")
    loop_removed: Truth = fact(
        "Is the filling hose taken off after filling?", label="taking off of the filling hose"
    )
    automatic: Truth = fact(
        "Does a valve top the circuit up from the mains by itself?", label="automatic topping up"
    )
    flushed: Truth = fact("Was the circuit flushed before filling?", label="flushing")
    cleaned: Truth = fact(
        "Was the old circuit cleaned by chemicals or power flushing?",
        label="cleaning of the old circuit",
    )
    purged: Truth = fact("Was the air let out?", label="removal of air")
    day: Day = fact("When was it filled?", label="day of filling")


class ExternalPump(Part):
    """A pump besides the one in the unit."""

    answered_by: ClassVar[Who] = "installer"
    found_in: ClassVar[str] = "From the plate or the data sheet of the pump."

    head: Pressure = fact("What pressure does it give at the design flow?", label="pump head")
    place: Text = fact("Where is the pump?")
    run_by_unit: Truth = fact("Does the unit switch the pump?")


class Water(Part):
    """The water circuit."""

    found_in: ClassVar[str] = "From the design."

    fluid: Choice[Literal["water", "propylene glycol", "ethylene glycol"]] = fact(
        "What fluid is in the circuit: water, or water with which glycol?", label="fluid"
    )
    treatment: Choices[
        Literal["inhibitor", "biocide", "softening", "demineralisation", "pH adjustment"]
    ] = fact("How is the water treated?", label="treatment of the water")
    existing_circuit: Truth = fact("Were pipes and emitters in use before?", who="surveyor")
    metals: Choices[
        Literal["copper", "steel", "galvanised steel", "stainless steel", "aluminium", "brass"]
    ] = fact("Which metals does the water touch?", who="installer", label="metals of the circuit")
    flow_temperature: Temperature = fact("How warm is the flow at the design temperature?")
    highest_temperature: Temperature = fact(
        "How hot can the circuit get, whatever heats it?",
        "The highest that the limiter of any heater in it allows.",
        label="highest temperature of the circuit",
    )
    temperature_difference: TemperatureDifference = fact(
        "How much does the water cool between flow and return?",
        label="difference between flow and return",
    )
    cools: Truth = fact("Does the unit cool the building in summer?", label="cooling")
    cooling_temperature: Temperature = fact(
        "How cold does the flow get in cooling?", label="flow temperature in cooling"
    )
    flow: FlowByMode | None = fact("What flow is there in each way of running?")
    pressure_loss: Pressure = fact("What pressure is lost in the circuit at the design flow?")
    volume: Volume = fact("How much water is in the whole circuit?", label="water in the circuit")
    static_height: Length = fact(
        "How high does the circuit rise above the expansion vessel?",
        label="height of the circuit above the expansion vessel",
    )
    open_zones: Truth = fact("Is one zone always open?", label="zone that is always open")
    filling: Filling | None = fact("What water is filled in?")
    run: Items[Run] = fact("Which runs of pipe are there?", label="runs of pipe")
    emitter: Items[Emitter] = fact("Which emitters are there?", label="emitters")
    volume_vessel: OrNone[VolumeVessel] = fact("What vessel adds water to the circuit?")
    expansion_vessel: OrNone[ExpansionVessel] = fact("What takes up the expansion of the water?")
    bypass: OrNone[Bypass] = fact("What bypass is there?")
    relief: OrNone[Relief] = fact("What relieves too high a pressure?", label="relief valve")
    unit_discharge_in_place: Truth = fact(
        "Is the discharge hose of the unit's own relief valve in its place after transport?",
        "Seen with the cover of the unit off.",
        who="installer",
        label="discharge hose of the unit in its place",
    )
    filter: OrNone[Filter] = fact("What filter is there?")
    fittings: Items[Fitting] = fact("Which other valves and fittings are there?")
    frost: Frost | None = fact("What protects against frost?", label="frost protection")
    pressure_gauge: Truth = fact("Can the pressure be read on a gauge?", label="pressure gauge")
    external_pump: OrNone[ExternalPump] = fact("What pump is there besides the unit's own?")
