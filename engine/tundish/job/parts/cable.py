"""The cable of an electrical circuit, and how it is laid."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Cable(
    Part, answered_by="electrician", found_in="From the circuit schedule, or seen on the spot."
):
    """The cable of the circuit."""

    conductor: t.CrossSection = fact(
        "What cross-section have the live conductors?", example="4 mm2"
    )
    neutral: t.CrossSection = fact(
        "What cross-section has the neutral, where it differs from the line conductors?",
        example="4 mm2",
    )
    protective: t.CrossSection = fact(
        "What cross-section has the protective conductor?", example="4 mm2"
    )
    conductor_material: t.Choice[Literal["copper", "aluminium"]] = fact(
        "What are conductors made of?", example="copper"
    )
    insulation: t.Choice[Literal["PVC", "XLPE", "EPR", "rubber"]] = fact(
        "What insulates the conductors?", label="cable insulation", example="PVC"
    )
    form: t.Choice[
        Literal["twin and earth", "armoured", "single cores", "sheathed round", "flexible cord"]
    ] = fact("What form has the cable?", label="form of the cable", example="armoured")
    method: t.Choice[
        Literal[
            "A",
            "A1",
            "A2",
            "B",
            "B1",
            "B2",
            "C",
            "D1",
            "D2",
            "E",
            "F",
            "G",
            "100",
            "101",
            "102",
            "103",
        ]
    ] = fact(
        "By which reference method is it installed?",
        "From the design of the circuit, or by how it is laid.",
        label="installation method",
        example="C",
    )
    length: t.Length = fact("How long is the cable?", label="cable length", example="18 m")
    ambient: t.Temperature = fact(
        "How warm can it get along the cable?",
        "At its warmest stretch on the hottest day, such as a loft or a sunny wall.",
        label="ambient temperature",
        example="30 degC",
    )
    grouped_with: t.Count = fact(
        "How many loaded circuits run together, this one included?",
        "Along the whole route, where they are closest; 1 where it runs alone.",
        label="circuits in the group",
        example="1",
    )
    grouping: t.Choice[Literal["bunched", "touching on a surface", "spaced by a diameter"]] = fact(
        "How do the circuits of the group lie to each other?",
        label="arrangement of the group",
        example="bunched",
    )
    cores: t.Count = fact("How many cores has the cable?", label="cores of the cable", example="3")
    sun_resistant: t.Truth = fact(
        "Does the cable withstand sun?",
        "Printed on its sheath, or from its data sheet.",
        label="sun resistance of the cable",
    )
    outdoors: t.Truth = fact("Does part of it run outdoors?", label="cable outdoors")
    buried: t.Truth = fact(
        "Does part of it run underground?", label="cable underground", example="false"
    )
    burial_depth: t.Length = fact("How deep is it buried?", example="600 mm")
    in_thermal_insulation: t.Length = fact(
        "Over what length does thermal insulation surround it?",
        "The longest stretch; 0 mm where it passes through none.",
        label="length in thermal insulation",
        example="0 mm",
    )
    armoured: t.Truth = fact("Is it armoured?", label="armour of the cable")
    armour_protects: t.Truth = fact(
        "Is the armour its protective conductor?",
        label="armour as protective conductor",
        example="false",
    )
    armour: t.CrossSection = fact(
        "What cross-section has the steel of the armour?",
        "From the data sheet of the cable.",
        label="cross-section of the armour",
        example="18 mm2",
    )
    concealed: t.Truth = fact(
        "Does part of it run hidden in a wall, less than 50 mm deep, without earthed metal around?",
        label="cable hidden in a wall",
        example="false",
    )
    in_conduit: t.Truth = fact(
        "Does it run in conduit or duct?", example="false", label="run in conduit or duct"
    )
    drip_loop: t.Truth = fact("Does it hang in a loop before it enters, so that rain drips off?")
    guarded: t.Truth = fact(
        "Is it out of the way of feet, spades, mowers and ladders?", label="cable out of harm's way"
    )
    marker_tape: t.Truth = fact(
        "Does marker tape lie above it in the ground?", label="marker tape above the cable"
    )
    glands_sealed: t.Truth = fact(
        "Does a tight gland of its size seal each entry, and is every spare hole plugged?",
        label="sealing of the cable entries",
    )
    on_pipe: t.Truth = fact(
        "Is it tied to a water or refrigerant pipe?", label="cable on a pipe", example="false"
    )
    protective_doubled: t.Truth = fact(
        "Has it a second protective conductor as large as the first?",
        label="second protective conductor",
        example="false",
    )
    soil_temperature: t.Temperature = fact(
        "How warm is the soil at the cable?",
        "From a soil survey, or the wiring rules of the country.",
        example="20 degC",
    )
    soil_resistivity: t.ThermalResistivity = fact(
        "What thermal resistivity has the soil?",
        "From a soil survey; dry sand and made ground resist most.",
        label="thermal resistivity of the soil",
        example="2.5 K.m/W",
    )
