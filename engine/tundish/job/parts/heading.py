"""The heading of a job: what it is, where in the world, and how far it has got."""

from typing import Annotated, Literal, TypeAlias

from tundish.groundwork.dataclass import dataclass
from tundish.job.model import types as t
from tundish.job.model.field_types import FactType
from tundish.job.model.kinds import FactKind
from tundish.job.model.part import Part, fact
from tundish.job.model.regions import read_region
from tundish.text.quoted import quoted

Stage: TypeAlias = Literal["enquiry", "survey", "design", "order", "installation", "commissioning"]
"""How far a job has got, in order."""


@dataclass(frozen=True)
class RegionKind(FactKind):
    """The two capital letters that ISO 3166-1 gives a country."""

    def read(self, value: object) -> str:
        """Return the code."""
        if isinstance(value, str):
            return read_region(value)
        raise ValueError(f"Write a country by its two letters such as 'GB', not {quoted(value)}.")


class Heading(Part, found_in="From the job's folder."):
    """The heading."""

    title: t.Text = fact(
        "What is the job called?",
        "Any name that tells it from your other jobs.",
        example="House in an invented lane",
    )
    region: Annotated[str | None, FactType(RegionKind())] = fact(
        "In which country is it, by its ISO 3166-1 code?", "From the address.", example="GB"
    )
    stage: t.Choice[Stage] = fact(
        "How far has the job got?", "By what has been done so far.", example="design"
    )
    date: t.Day = fact(
        "On which day was the job described?",
        "The day on which this file was written.",
        label="day of the description",
        example="2026-11-02",
    )
