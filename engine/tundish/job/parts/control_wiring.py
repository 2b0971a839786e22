"""The wiring of control: low-voltage cables, sensors and volt-free contacts."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Contact(
    Part,
    answered_by="electrician",
    found_in="From the data sheet of the device that has the contact.",
):
    """A volt-free contact that the installation uses."""

    switches: t.Choice[Literal["control input", "contactor coil", "valve", "pump", "heater"]] = (
        fact(
            "What does the contact switch?",
            "From the wiring diagram.",
            label="what the contact switches",
            example="control input",
        )
    )
    voltage: t.Voltage = fact(
        "What voltage does it switch?",
        "From the wiring diagram.",
        label="voltage at the contact",
        example="24 V",
    )
    current: t.Current = fact(
        "What current does it switch?",
        "From the data sheet of what it switches.",
        label="current through the contact",
        example="0.1 A",
    )
    rated_voltage: t.Voltage = fact(
        "For what voltage is the contact rated?",
        label="rated voltage of the contact",
        example="230 V",
    )
    rated_current: t.Current = fact(
        "What current may the contact switch at most?",
        "For the kind of load: a coil or motor wears it more than a resistance.",
        label="rated current of the contact",
        example="3 A",
    )
    least_current: t.Current = fact(
        "What current must it switch at least?",
        label="least current of the contact",
        example="10 mA",
    )


class ControlWiring(Part, answered_by="electrician", found_in="By looking along the cable route."):
    """The low-voltage and signal wiring."""

    separated: t.Truth = fact(
        "Do control cables run apart from power cables?",
        label="separation of control and power cables",
    )
    screened: t.Truth = fact(
        "Are the control cables screened?",
        "Printed on the sheath, or seen at a cut end.",
        label="screening of the control cables",
    )
    screen_earthed: t.Choice[Literal["one end", "both ends", "not"]] = fact(
        "Where is the screen earthed?",
        "Seen at both ends of the cable.",
        example="one end",
        label="earthing of the screen",
    )
    length: t.Length = fact(
        "How long is the control cable?", label="length of the control cable", example="20 m"
    )
    conductor: t.CrossSection = fact(
        "What cross-section have its cores?",
        "Printed on the sheath.",
        label="cross-section of the control cable",
        example="0.75 mm2",
    )
    voltage: t.Voltage = fact(
        "At what voltage does it work?",
        "From the wiring diagram.",
        label="voltage of the control circuit",
        example="24 V",
    )
    current: t.Current = fact(
        "What current flows in it at most?",
        "From the wiring diagram.",
        label="current of the control circuit",
        example="0.5 A",
    )
    mains_core: t.Truth = fact(
        "Does a core of the sensor or bus cable carry mains voltage?",
        "From the wiring diagram.",
        label="mains voltage in the control cable",
        example="false",
    )
    insulated_for_mains: t.Truth = fact(
        "Are all its cores insulated for mains voltage?",
        "Printed on the sheath, such as 300/500 V.",
        label="insulation of the control cable for mains",
    )
    sensor_length: t.Length = fact(
        "How long is the longest cable of a sensor?",
        label="length of the sensor cable",
        example="15 m",
    )
    in_conduit: t.Truth = fact(
        "Does the control cable run in conduit outdoors?", label="conduit of the control cable"
    )
    contact: t.OrNone[Contact] = fact(
        "What volt-free contact is used?", "From the wiring diagram.", label="volt-free contact"
    )
    sun_resistant: t.Truth = fact(
        "Does the control cable withstand sun?",
        "Printed on the sheath, or from its data sheet.",
        label="resistance to sun",
    )
