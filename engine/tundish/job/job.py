"""The job: all parts of one installation, in the order a job file has them."""

import datetime
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any, Self

from tundish.job.facts import Facts, flatten
from tundish.job.model import types as t
from tundish.job.model.field_types import MoreType
from tundish.job.model.part import Part, fact
from tundish.job.parts.building import Building
from tundish.job.parts.controls import Controls
from tundish.job.parts.documents import Documents
from tundish.job.parts.electricity import Electricity
from tundish.job.parts.handling import Handling
from tundish.job.parts.heading import Heading, Stage
from tundish.job.parts.hot_water import HotWater
from tundish.job.parts.maintenance import Maintenance
from tundish.job.parts.order import Ordered
from tundish.job.parts.placement import Placement
from tundish.job.parts.readings import Readings
from tundish.job.parts.refrigerant_care import RefrigerantCare
from tundish.job.parts.site import Site
from tundish.job.parts.sound import Sound
from tundish.job.parts.tolerance import Tolerance
from tundish.job.parts.unit import OutdoorUnit
from tundish.job.parts.waiver import Waiver
from tundish.job.parts.water import Water
from tundish.job.provenance import Provenance
from tundish.job.reader import job_from_data, parse_job, read_job
from tundish.job.sides import with_sides

MORE = "more"
"""The table of a job for facts that packs of rules declare."""


class Job(Part):
    """One installation at any stage; what is left out is not known yet.

    Example:
        >>> str(Job(site=Site(snow_depth="120 mm")).site.snow_depth)
        '120 mm'
    """

    unit_sheet: t.Text = fact(
        "Which file holds the data sheet of the unit?",
        "Its path, as seen from the folder of this file.",
        example="unit_sheets/invented-8-kw.toml",
    )
    based_on: t.Text = fact(
        "Which job, such as a house type, is laid under this one?",
        "A path from the folder of this file, without leading out of it.",
        label="job that it is based on",
        example="house_types/invented-semi.toml",
    )
    of_job: t.Text = fact(
        "Over which job file is this sheet laid?",
        "Its path, as seen from the folder of this file.",
        label="job of the sheet",
        example="invented-lane.toml",
    )
    job: Heading | None = fact("What job is it?", label="heading of the job")
    site: Site | None = fact("What is the site like?")
    building: Building | None = fact("What is the building like?")
    unit: OutdoorUnit | None = fact("What does the data sheet of the unit say?")
    placement: Placement | None = fact("Where does the unit stand?")
    water: Water | None = fact("What is the water circuit like?", label="water circuit")
    hot_water: HotWater | None = fact("How is hot water made?")
    electricity: Electricity | None = fact("What is the electrical supply like?")
    controls: Controls | None = fact("How is it controlled?")
    sound: Sound | None = fact("What is known about sound?")
    handling: Handling | None = fact("How does the unit get to its place?")
    refrigerant_care: RefrigerantCare | None = fact(
        "What is done about refrigerant that leaks?", label="care for the refrigerant"
    )
    readings: Readings | None = fact("What was read at commissioning?")
    order: t.Items[Ordered] = fact("What has been ordered?", label="order list")
    documents: Documents | None = fact("Which documents are there?")
    maintenance: Maintenance | None = fact("How will it be looked after?")
    tolerance: t.Items[Tolerance] = fact(
        "Which figures are known only roughly, and by how much may each be off?",
        label="tolerances",
    )
    more: Annotated[dict[str, Any] | None, MoreType()] = fact(
        "Which facts are stated that packs of rules declare?", label="facts of packs"
    )
    waiver: t.Items[Waiver] = fact("Which rules are set aside, and why?", label="waivers")

    __slots__ = ("_facts", "_facts_with_sides", "_source")  # beside the facts

    @property
    def title(self) -> str | None:
        """Return the title, or None while it is not known."""
        return self.job.title if self.job else None

    @property
    def region(self) -> str | None:
        """Return the ISO 3166-1 code of the region, or None while it is not known."""
        return self.job.region if self.job else None

    @property
    def stage(self) -> Stage | None:
        """Return the stage, or None while it is not known."""
        return self.job.stage if self.job else None

    @property
    def date(self) -> datetime.date | None:
        """Return the day the job was described, or None while it is not known."""
        return self.job.date if self.job else None

    @property
    def facts(self) -> Facts:
        """Return the facts in SI units by path; worked out once, so not for changing.

        Example:
            >>> Job.from_data({"site.snow_depth": "120 mm"}).facts.values["site.snow_depth"]
            0.12
        """
        if not hasattr(self, "_facts"):
            self._facts = flatten(self)
        facts: Facts = self._facts
        return facts

    @property
    def facts_with_sides(self) -> Facts:
        """Return the facts and the list of the unit's sides; made once, so not for changing."""
        if not hasattr(self, "_facts_with_sides"):
            self._facts_with_sides = with_sides(self.facts)
        facts: Facts = self._facts_with_sides
        return facts

    @property
    def source(self) -> Provenance | None:
        """Return where the facts were written, or None if they were not read from a text."""
        return getattr(self, "_source", None)

    @classmethod
    def from_file(cls, path: str | Path) -> Self:
        """Return the job in a TOML file, with the facts of its unit sheet and of its bases.

        Args:
            path: Where the file is.

        Raises:
            Refused: If one of the files cannot be read; carries all problems of all of them.
        """
        return cls._with_source(*read_job(cls, path))

    @classmethod
    def from_toml(cls, text: str, name: str = "<text>", folder: str | Path | None = None) -> Self:
        """Return the job in a TOML text.

        Args:
            text: The TOML text.
            name: Name to show for it in problems.
            folder: The folder that paths of a unit sheet and of a base start from; None if there is
                none.

        Raises:
            Refused: If one of the files cannot be read; carries all problems of all of them.
        """
        return cls._with_source(*parse_job(cls, text, name, folder))

    @classmethod
    def from_data(cls, data: Mapping[str, Any], name: str = "<data>") -> Self:
        """Return the job in nested dictionaries, whose keys may be dotted paths.

        Args:
            data: The facts; `{"site.altitude": "40 m"}` is `{"site": {"altitude": "40 m"}}`.
            name: Name to show for it in problems.

        Raises:
            Refused: If a fact cannot be read; carries all problems.
        """
        return job_from_data(cls, data, name)

    @classmethod
    def _with_source(cls, job: Self, source: Provenance) -> Self:
        job._source = source
        return job
