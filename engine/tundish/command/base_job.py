"""The job that a new one is to be based on, as `tundish new --based-on` names it."""

from __future__ import annotations

import os
from pathlib import Path

from tundish.groundwork.dataclass import dataclass
from tundish.job.facts import is_stated
from tundish.job.job import Job


@dataclass(frozen=True, slots=True)
class BaseJob:
    """A job that another is to be based on.

    Attributes:
        path: Its path, as from the folder of the other.
        job: What the other is while it states nothing itself.
    """

    path: str
    job: Job

    @property
    def stated(self) -> dict[str, str]:
        """Return region and stage, as far as they are stated."""
        heading = {"region": self.job.region, "stage": self.job.stage}
        return {key: text for key, text in heading.items() if text is not None}

    def leaves_open(self, path: str) -> bool:
        """Say whether a fact is left to be stated."""
        return not is_stated(self.job.facts, path)


def base_job(named: str, new: Path) -> BaseJob:
    """Return the job that a new one is to be based on.

    Args:
        named: Its file, as from where the command was started, or the name of a house type of the
            program's own, which is copied beside the new job.
        new: The file of the new job, which is not there yet.

    Raises:
        Refused: If no job in that folder can be based on it.
    """
    from tundish.command.house_types import beside
    from tundish.text.inline_toml import toml_string

    path = Path(os.path.relpath(beside(named, new), new.parent)).as_posix()
    return BaseJob(path, Job.from_toml(f"based_on = {toml_string(path)}", str(new), new.parent))
