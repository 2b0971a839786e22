"""A new job and its unit sheet: what the starters are made of, from a few words on the job."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import flatten, is_stated
from tundish.job.job import Job
from tundish.report.forms.starter_job import FirstJob, starter_job
from tundish.report.forms.starter_sheet import starter_sheet
from tundish.report.schemas.schema_files import schema_line
from tundish.rulebook.forms.starters import (
    facts_of_first_job,
    facts_of_first_sheet,
    facts_of_packs,
)
from tundish.rulebook.rulebook import Rulebook
from tundish.text.file import path_from
from tundish.text.inline_toml import toml_string


@dataclass(frozen=True, slots=True)
class BaseJob:
    """A job that another is to be based on.

    Attributes:
        path: Its path, as from the folder of the other.
        job: What the other is while it states nothing itself.
    """

    path: str
    job: Job

    @classmethod
    def at(cls, base: str, new: Path) -> BaseJob:
        """Return the job in one file as the base of a new one.

        Args:
            base: The file of the base.
            new: The file of the new job, which is not there yet.

        Raises:
            Refused: If no job in that folder can be based on it.
        """
        path = path_from(new.parent, base)
        return cls(path, Job.from_toml(f"based_on = {toml_string(path)}", str(new), new.parent))

    @property
    def stated(self) -> dict[str, str]:
        """Return region and stage, as far as they are stated."""
        heading = {"region": self.job.region, "stage": self.job.stage}
        return {key: text for key, text in heading.items() if text is not None}

    def leaves_open(self, path: str) -> bool:
        """Say whether a fact is left to be stated."""
        return not is_stated(flatten(self.job), path)


def new_job(
    file: Path,
    heading: Mapping[str, str],
    rulebook: Rulebook,
    *,
    unit_sheet: str = "",
    base: BaseJob | None = None,
    every_fact: bool = False,
    command: str = "tundish check",
) -> str:
    """Write the text of a new job file.

    Args:
        file: The file, which is not there yet.
        heading: Its title, region and stage, as far as they are known; the stage always is.
        rulebook: The rules whose facts it asks for.
        unit_sheet: Path of its unit sheet from its folder; "" if it names none.
        base: The job that it is based on.
        every_fact: Whether to ask for every fact, and not only for those that decide most.
        command: What to run next.
    """
    region = heading.get("region")
    keys = {f"job.{key}": text for key, text in heading.items()}
    if unit_sheet:
        keys = {"unit_sheet": unit_sheet} | keys
    if base is not None:
        stated = {f"job.{key}": text for key, text in base.stated.items()}
        own = {key: text for key, text in keys.items() if stated.get(key) != text}
        keys = {"based_on": base.path} | own
    return starter_job(
        FirstJob(
            keys,
            None if every_fact else facts_of_first_job(rulebook, heading["stage"], region),
            facts_of_packs(rulebook, region),
            base.leaves_open if base else lambda _: True,
            command,
            schema_line("job", file, file.parent),
        )
    )


def new_unit_sheet(file: Path, job: Path, every_fact: bool = False) -> str:
    """Write the text of a new unit sheet.

    Args:
        file: The file, which is not there yet.
        job: The file of the job that names it.
        every_fact: Whether to ask for every fact, and not only for those that decide most.
    """
    paths = None if every_fact else facts_of_first_sheet()
    return starter_sheet(paths, schema_line("unit", file, job.parent))
