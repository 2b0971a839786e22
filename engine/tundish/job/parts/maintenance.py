"""Maintenance: what will be looked after, and how often."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class CoilRinse(Part, found_in="From the maintenance plan."):
    """Rinsing of the outdoor coil."""

    interval: t.Duration = fact(
        "How often is the coil rinsed?", label="interval of rinsing", example="12 month"
    )
    water: t.Choice[Literal["mains", "demineralised", "rain", "softened", "well"]] = fact(
        "With what water is it rinsed?", label="water of rinsing", example="mains"
    )
    tap_distance: t.Length = fact(
        "How far is the nearest tap?",
        "Measured on the spot.",
        label="distance of a tap",
        example="12 m",
    )
    by: t.Choice[Literal["customer", "service firm"]] = fact(
        "Who rinses it?", label="who rinses", example="customer"
    )


class Maintenance(Part, answered_by="installer", found_in="From the maintenance plan."):
    """Maintenance."""

    contract: t.Truth = fact(
        "Is there a maintenance contract?", "Ask the customer.", who="customer"
    )
    service_interval: t.Duration = fact("How often is the unit serviced?", example="12 month")
    coil_rinse: t.OrNone[CoilRinse] = fact("Is the coil rinsed?", label="rinsing of the coil")
    corrosion_check_interval: t.Duration = fact(
        "How often is it looked over for corrosion?",
        example="12 month",
        label="interval of the corrosion checks",
    )
    filter_interval: t.Duration = fact(
        "How often is the filter cleaned?",
        label="interval of cleaning the filter",
        example="12 month",
    )
    glycol_check_interval: t.Duration = fact(
        "How often is the glycol checked?",
        label="interval of the glycol checks",
        example="12 month",
    )
    antifreeze_valve_interval: t.Duration = fact(
        "How often are the antifreeze valves checked?",
        example="12 month",
        label="interval of checking the antifreeze valves",
    )
    water_check_interval: t.Duration = fact(
        "How often is the water tested?", label="interval of testing the water", example="12 month"
    )
    inhibitor_interval: t.Duration = fact(
        "How often is inhibitor dosed again, or the water tested in a laboratory?",
        label="interval of dosing inhibitor again",
        example="24 month",
    )
    relief_valve_interval: t.Duration = fact(
        "How often is the relief valve tried?",
        example="12 month",
        label="interval of trying the relief valve",
    )
    leaf_clearing: t.Truth = fact(
        "Will leaves and snow be cleared from the unit?",
        "Ask the customer.",
        who="customer",
        label="clearing of leaves and snow",
    )
    records_kept: t.Truth = fact("Is a log kept?", label="keeping of a log")
