"""Tolerances: how far off a figure of the job may be, as a gauge or a drawing has it."""

from tundish.job.model import types as t
from tundish.job.model.part import Part, fact


class Tolerance(Part, answered_by="installer", found_in="From the data sheet of the gauge."):
    """How far off one fact may be, either way: a share of it, or an amount in its own unit."""

    of: t.Text = fact(
        "Of which fact is the tolerance?",
        "Its path, such as readings.air_temperature.",
        example="readings.air_temperature",
    )
    share: t.Fraction = fact(
        "By what share of it may it be off?",
        "From the data sheet of the gauge; of a drawing, by how exactly it was measured.",
        label="tolerance as a share",
        example="5 %",
    )
    amount: t.Text = fact(
        "By what amount may it be off?",
        "With a unit, such as 5 mm.",
        label="tolerance",
        example="0.5 K",
    )
