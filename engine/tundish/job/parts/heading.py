"""The heading of a job: what it is, where in the world, and how far it has got."""

from typing import Annotated, Literal, TypeAlias, get_args

from tundish.groundwork.dataclass import dataclass
from tundish.job.model import types as t
from tundish.job.model.field_types import FactType
from tundish.job.model.kinds import FactKind
from tundish.job.model.part import Part, fact
from tundish.job.model.regions import read_region
from tundish.text.quoted import quoted

Stage: TypeAlias = Literal["enquiry", "survey", "design", "order", "installation", "commissioning"]
"""How far a job has got, in order."""


GrowingList: TypeAlias = Literal[
    "building.rooms",
    "placement.other_units",
    "placement.openings",
    "placement.hears",
    "placement.hears.also_hears",
    "water.run",
    "water.emitter",
    "water.fittings",
    "water.frost.antifreeze_valves",
    "hot_water.run",
    "electricity.existing_load",
    "electricity.circuit",
    "all",
]
"""The lists that are written item by item, so that more may follow.

Those of a data sheet are copied whole. "all" stands for every one that is not named itself.
"""

COMPLETE_LISTS, OPEN_LISTS = "job.complete_lists", "job.open_lists"
"""Where a job names the lists to which nothing is to be added, and those to which more may be."""

STILL_WRITTEN = ("enquiry", "survey")
"""The stages at which nobody takes a list for complete."""


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
    complete_lists: t.Choices[GrowingList] = fact(
        "Which lists are complete, with nothing left to add?",
        "Up to the survey a list counts as unfinished until it is named here.",
        label="lists that are complete",
        example='["water.fittings"]',
    )
    open_lists: t.Choices[GrowingList] = fact(
        "To which lists may more still be added?",
        "From design on a list counts as complete unless it is named here.",
        label="lists that are still open",
        example='["electricity.circuit"]',
    )

    def check(self) -> None:
        """Refuse a list that is said to be both complete and open."""
        both = [path for path in self.complete_lists or () if path in (self.open_lists or ())]
        if both:
            raise ValueError(f"{quoted(both[0])} cannot be both complete and open.")

    def leaves_open(self, path: str) -> bool:
        """Say whether more items may still be added to a list.

        Args:
            path: The path of the list, without positions.
        """
        complete, open_lists = self.complete_lists or (), self.open_lists or ()
        if path not in _GROWING or path in complete:
            return False
        if path in open_lists or "all" in open_lists:
            return True
        return self.stage in STILL_WRITTEN and "all" not in complete


_GROWING = frozenset(get_args(GrowingList))
