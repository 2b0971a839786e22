"""Vessels, valves and fittings of the water circuit."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact
from tundish.job.parts.common import FlowOrReturn, Surroundings


class _Fitted(
    Part,
    answered_by="installer",
    found_in="From the drawing, the plate of the part, or seen on the spot.",
):
    """What an installer fits into the circuit."""


class VolumeVessel(_Fitted):
    """A vessel that adds water to the circuit."""

    volume: t.Volume = fact(
        "How large is the volume vessel?", label="volume of the volume vessel", example="50 L"
    )
    connection: t.Choice[
        Literal["in series, flow", "in series, return", "in parallel", "hydraulic separator"]
    ] = fact(
        "How is the volume vessel connected?",
        label="connection of the volume vessel",
        example="in series, return",
    )
    place: t.Choice[Surroundings] = fact("Where is the volume vessel?", example="heated room")
    serves_cylinder: t.Truth = fact(
        "Does water on its way to or from the cylinder pass through the volume vessel?",
        label="use of the volume vessel for hot water",
        example="false",
    )
    insulated: t.Truth = fact(
        "Is the volume vessel insulated?", label="insulation of the volume vessel"
    )


class ExpansionVessel(_Fitted):
    """The vessel that takes up the expansion of the water."""

    volume: t.Volume = fact(
        "How large is the expansion vessel?", label="expansion vessel volume", example="18 L"
    )
    precharge: t.Pressure = fact(
        "To what pressure is it charged with gas?", label="precharge pressure", example="1 bar"
    )
    highest_pressure: t.Pressure = fact(
        "For what pressure is the expansion vessel made?",
        label="highest pressure of the expansion vessel",
        example="6 bar",
    )
    place: t.Choice[FlowOrReturn] = fact("Is it on the flow or the return?", example="return")
    isolating: t.Choice[Literal["none", "cap valve", "valve with loose handle", "hand valve"]] = (
        fact(
            "What valve is between vessel and circuit?",
            label="valve at the expansion vessel",
            example="cap valve",
        )
    )
    suits_glycol: t.Truth = fact("Does its membrane suit glycol?", label="fitness for glycol")


class Bypass(_Fitted):
    """A way for water past shut emitters."""

    kind: t.Choice[Literal["automatic", "fixed", "open emitter"]] = fact(
        "What kind of bypass is it?", label="kind of bypass", example="automatic"
    )
    opens_at: t.Pressure = fact(
        "At what difference of pressure does it open?",
        example="30 kPa",
        label="opening pressure difference",
    )
    place: t.Text = fact("Where is the bypass?", example="airing cupboard")
    pipe: t.Pipe = fact("What pipe is the bypass?", example="copper 22 x 0.9")


class Outlet(_Fitted):
    """Where a relief valve discharges."""

    to: t.Choice[Literal["drain", "outdoors", "tray", "container", "soakaway", "nowhere"]] = fact(
        "Where does it discharge?", label="destination of the discharge", example="drain"
    )
    pipe: t.Pipe = fact(
        "What pipe takes it there?", label="discharge pipe", example="copper 22 x 0.9"
    )
    air_gap: t.Truth = fact("Is there a visible air gap?", label="visible air gap")
    length: t.Length = fact(
        "How long is the discharge pipe?",
        "Measured from the air gap on, where there is one.",
        example="2 m",
    )
    bends: t.Count = fact(
        "How many bends has the discharge pipe?",
        "Counted from the air gap on, where there is one.",
        example="2",
    )
    fall: t.Fraction = fact(
        "With what fall is the discharge pipe laid?",
        label="fall of the discharge pipe",
        example="2 %",
    )
    safe: t.Truth = fact(
        "Does it end where hot water or steam hurts nobody?", label="safe end of the discharge"
    )
    can_freeze: t.Truth = fact(
        "Can water stand and freeze in it?", label="freezing of the discharge pipe", example="false"
    )


class Relief(_Fitted):
    """A valve against too high a pressure."""

    set_pressure: t.Pressure = fact(
        "At what pressure does it open?", label="relief pressure", example="3 bar"
    )
    bore: t.Text = fact(
        "What size is the relief valve?", label="size of the relief valve", example="G 1/2"
    )
    isolable: t.Truth = fact(
        "Can a valve shut it off from what it protects?",
        label="valve before the relief valve",
        example="false",
    )
    place: t.Text = fact("Where is the relief valve?", example="airing cupboard")
    outlet: t.OrNone[Outlet] = fact(
        "Where does it discharge?", label="discharge of the relief valve"
    )


class Filter(_Fitted):
    """A filter or strainer."""

    kind: t.Choice[Literal["mesh", "magnetic", "magnetic with mesh"]] = fact(
        "What kind of filter is it?", label="kind of filter", example="magnetic with mesh"
    )
    on: t.Choice[FlowOrReturn] = fact(
        "Is the filter on the flow or the return?", label="pipe of the filter", example="return"
    )
    mesh: t.Length = fact("How wide is the mesh?", label="width of the mesh", example="0.5 mm")
    meshes_per_inch: t.Number = fact(
        "How many meshes to the inch has it, where no width is stated?",
        label="meshes to the inch of the filter",
        example="50",
    )
    isolable: t.Truth = fact(
        "Can it be shut off on both sides for cleaning?", label="shutting off of the filter"
    )
    pressure_loss: t.Pressure = fact(
        "What pressure is lost in the clean filter at the design flow?",
        label="pressure loss in the filter",
        example="4 kPa",
    )
    kv: t.Flow = fact(
        "What flow passes the clean filter at a pressure loss of 1 bar (Kv)?",
        label="Kv of the filter",
        example="9 m3/h",
    )
    before_unit: t.Truth = fact(
        "Is it the last thing before the inlet of the unit?", label="filter right before the unit"
    )
    cleaned: t.Day = fact(
        "When was it last cleaned?",
        "From the log, or ask whoever did it.",
        label="last cleaning of the filter",
        example="2026-12-11",
    )


class Fitting(_Fitted):
    """One valve or fitting."""

    name: t.Text = fact(
        "What is the fitting called?",
        "Any name that tells it from others.",
        example="isolation valve on the flow",
    )
    kind: t.Choice[
        Literal[
            "isolation valve",
            "check valve",
            "drain valve",
            "air vent",
            "air separator",
            "three-way valve",
            "mixing valve",
            "balancing valve",
            "zone valve",
            "flow switch",
            "flow meter",
            "pressure gauge",
            "flexible hose",
            "thermometer",
        ]
    ] = fact("What kind of fitting is it?", label="kind of fitting", example="isolation valve")
    on: t.Choice[FlowOrReturn] = fact("Is it on the flow or the return?", example="flow")
    place: t.Choice[Surroundings] = fact("Where is it?", example="heated room")
    at_unit: t.Truth = fact(
        "Is it between the unit and the first branch?", label="place next to the unit"
    )
    lowest_point: t.Truth = fact("Is it at the lowest point?", example="false")
    highest_point: t.Truth = fact("Is it at the highest point?", example="false")
    shut_in_service: t.Truth = fact(
        "Can it be shut while the unit runs?",
        label="can be shut while the unit runs",
        example="false",
    )
    feeds: t.Texts = fact(
        "Which emitters does it feed, by their names?",
        'Write ["all"] where the whole flow passes it.',
        label="emitters that it feeds",
        example='["living room", "hall"]',
    )
    pressure_loss: t.Pressure = fact(
        "What pressure is lost in it at the design flow?",
        label="pressure loss in the fitting",
        example="1 kPa",
    )
    kv: t.Flow = fact(
        "What flow passes it at a pressure loss of 1 bar (Kv)?",
        label="Kv of the fitting",
        example="12 m3/h",
    )
