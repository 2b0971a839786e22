"""The order list: what has been ordered for the job, part by part."""

from typing import Literal

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Ordered(Part, answered_by="installer", found_in="From the order or the delivery note."):
    """One part that was ordered; its amount is a number, a length, a volume or a mass."""

    name: t.Text = fact(
        "Which part was ordered?", "As `tundish order` names it.", label="part", example="isolator"
    )
    number: t.Count = fact("How many were ordered?", label="number ordered", example="1")
    length: t.Length = fact("What length was ordered?", label="length ordered", example="18 m")
    volume: t.Volume = fact("What volume was ordered?", label="volume ordered", example="20 L")
    mass: t.Mass = fact("What mass was ordered?", label="mass ordered", example="5 kg")
    supplied_by: t.Choice[
        Literal[
            "maker of the unit",
            "heating supplier",
            "electrical supplier",
            "customer",
            "hire firm",
            "stock",
        ]
    ] = fact("Who supplies it?", label="supplier", example="heating supplier")
