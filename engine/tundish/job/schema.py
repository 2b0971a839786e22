"""The schema of a job: every fact about an installation that can be asked for."""

from functools import lru_cache

from tundish.job.job import Job
from tundish.job.model.schema import Entry, Record, schema_of


def job_schema() -> Record:
    """Return the schema of a whole job, a record whose path is empty."""
    return schema_of(Job)


@lru_cache(maxsize=4096)
def entry_at(path: str) -> Entry | None:
    """Return the fact, record or list at a path of a job, as `Record.find` does; None if none is.

    Args:
        path: A dotted path; list positions are passed over.
    """
    return job_schema().find(path)
