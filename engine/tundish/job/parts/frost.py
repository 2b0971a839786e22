"""Frost protection of the water outdoors."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import FlowOrReturn, Surroundings


class AntifreezeValve(Part, answered_by="installer", found_in="By looking at the valve."):
    """A valve that lets the water out before it freezes."""

    name: t.Text = fact(
        "What is the valve called?",
        "Any name that tells it from others.",
        example="valve on the flow",
    )
    on: t.Choice[FlowOrReturn] = fact(
        "Is it on the flow or the return?", label="side of the valve", example="flow"
    )
    place: t.Choice[Surroundings] = fact(
        "Where is it?", label="place of the valve", example="outdoors"
    )
    lowest_point: t.Truth = fact("Is it at the lowest point of the pipe outdoors?")
    upright: t.Truth = fact("Is it mounted upright, outlet down?", label="upright mounting")
    free_outlet: t.Truth = fact("Can water leave it freely, with nothing put below?")
    height_above_ground: t.Length = fact(
        "How high above ground or snow is its outlet?",
        "With a tape; where snow lies, from the deepest snow up.",
        example="200 mm",
    )
    isolated: t.Truth = fact(
        "Can a shut valve keep the water from it?", label="isolation of the valve", example="false"
    )
    insulated: t.Truth = fact(
        "Is it covered by insulation?", label="insulation over the valve", example="false"
    )
    opens_at: t.Temperature = fact(
        "At what water does it open?",
        "Printed on the valve, or from its data sheet.",
        label="opening temperature",
        example="3 degC",
    )
    stops_syphon: t.Truth = fact(
        "Does something let air in, so that pipes indoors do not drain?",
        label="stop against syphoning",
    )


class Glycol(
    Part, answered_by="installer", found_in="From the label of the canister, or by refractometer."
):
    """Glycol in the water; the kind stands in `water.fluid`."""

    fraction: t.Fraction = fact(
        "How much glycol is in the water?", label="glycol fraction", example="30 %"
    )
    by: t.Choice[Literal["mass", "volume"]] = fact(
        "Is the fraction by mass or by volume?",
        label="basis of the glycol fraction",
        example="volume",
    )
    inhibited: t.Truth = fact(
        "Is it inhibited against corrosion?", label="inhibition of the glycol"
    )
    protects_to: t.Temperature = fact(
        "Down to what temperature does its maker say it protects?",
        example="-15 degC",
        label="lowest temperature of protection",
    )
    premixed: t.Truth = fact("Did it come ready mixed?", label="mixing by the maker")
    filled: t.Day = fact(
        "When was it filled in?",
        "From the label at the filling point, or the record of the water.",
        label="day of the glycol filling",
        example="2026-11-16",
    )
    label_at_filling_point: t.Truth = fact(
        "Does a label at the filling point name it and its strength?",
        "Seen at the filling point.",
        label="label at the filling point",
    )
    collected_when_drained: t.Truth = fact(
        "Is it settled that the mixture is collected whenever the circuit is drained?",
        "From the maintenance plan, or agreed with the customer.",
        label="collecting of the drained mixture",
    )


class TraceHeating(
    Part, answered_by="electrician", found_in="From the plate of the trace heating."
):
    """Electric heating along a pipe."""

    power: t.Power = fact("What power has the trace heating?", example="80 W")
    own_supply: t.Truth = fact(
        "Does it keep its supply when the unit is switched off?", "From the wiring diagram."
    )
    thermostat: t.Truth = fact("Has it a thermostat?")


class Frost(Part, answered_by="designer", found_in="From the design."):
    """Frost protection."""

    strategy: t.Choices[
        Literal[
            "glycol",
            "antifreeze valves",
            "circulation by the unit",
            "trace heating",
            "separating heat exchanger",
            "drained by hand",
        ]
    ] = fact(
        "How is the water outdoors kept from freezing?",
        label="frost protection",
        example='["antifreeze valves", "circulation by the unit"]',
    )
    antifreeze_valves: t.Items[AntifreezeValve] = fact("Which antifreeze valves are fitted?")
    glycol: t.OrNone[Glycol] = fact("What glycol is in the water?")
    trace_heating: t.OrNone[TraceHeating] = fact("What trace heating is there?")
    connections_insulated: t.Truth = fact(
        "Are hoses, unions and valves at the unit insulated up to its casing?",
        "Seen at the unit.",
        who="installer",
        label="insulation of the connections at the unit",
    )
    flow_switch: t.Truth = fact("Is there a flow switch?")
    longest_outage: t.Duration = fact(
        "How long did the electricity ever fail?",
        "Ask the customer.",
        who="customer",
        example="4 h",
    )
    backup_supply: t.Truth = fact(
        "Does something feed the pump when the electricity fails?", example="false"
    )
    switched_off_in_winter: t.Truth = fact(
        "Will anyone switch the unit off at the mains in winter?",
        "Ask the customer.",
        who="customer",
        example="false",
        label="switching off in winter",
    )
