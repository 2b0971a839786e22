"""The condensate: where the melted frost goes, and by what pipe."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Condensate(
    Part, answered_by="surveyor", found_in="Seen or measured at the place of the unit."
):
    """Where the melted frost goes."""

    to: t.Choice[Literal["soakaway", "drain", "gutter", "ground", "roof"]] = fact(
        "Where does the melted frost (condensate) go?",
        label="destination of the condensate",
        example="soakaway",
    )
    collected: t.Truth = fact(
        "Is the water led into a pipe or bed, and not left to drip where it will?",
        label="collecting of the condensate",
    )
    piped: t.Truth = fact(
        "Is the water led away in a pipe, and not dropped straight into its bed?",
        label="condensate led in a pipe",
    )
    drain: t.Choice[Literal["foul", "combined", "rainwater"]] = fact(
        "Which kind of drain takes it?", label="kind of drain", example="rainwater"
    )
    pipe: t.Pipe = fact(
        "What pipe takes it away?", label="condensate pipe", example="polypropylene 40 x 1.8"
    )
    length_outdoors: t.Length = fact(
        "What length of the condensate pipe is outdoors above ground?",
        label="condensate pipe outdoors",
        example="0.5 m",
    )
    fall: t.Fraction = fact(
        "With what fall is the pipe laid?", label="fall of the condensate pipe", example="2 %"
    )
    heated: t.Truth = fact(
        "Is the drain heated against freezing?", label="heating of the drain", example="false"
    )
    heated_to_frost_free: t.Truth = fact(
        "Does the heating reach to where it never freezes?",
        "Into the house, or down into the ground below the depth of frost.",
        label="drain heating as far as frost reaches",
    )
    heater_power: t.Power = fact(
        "What power has the drain heater?", "From the plate of the heater.", example="40 W"
    )
    pan_heater: t.Truth = fact(
        "Is the heater that the maker offers for the drain pan fitted or ordered?",
        "From the order or the delivery note.",
        who="installer",
        label="heater of the drain pan",
    )
    insulated: t.Truth = fact(
        "Is the condensate pipe insulated outdoors?", label="insulation of the condensate pipe"
    )
    trapped: t.Truth = fact("Has the drain a trap against foul air?", label="trap in the drain")
    soakaway_depth: t.Length = fact("How deep is the soakaway?", example="600 mm")
    soakaway_volume: t.Volume = fact(
        "What volume of stone has the soakaway?", label="volume of the soakaway", example="0.2 m3"
    )
    soakaway_to_foundation: t.Length = fact(
        "How far is the soakaway from the nearest foundation?",
        label="distance of the soakaway from the foundation",
        example="1 m",
    )
    over_path: t.Truth = fact(
        "Can the water run over a path and freeze?", label="condensate over a path", example="false"
    )
