"""The schema of a job: every fact about an installation that can be asked for."""

from tundish.job.job import Job
from tundish.job.model.schema import Record, schema_of


def job_schema() -> Record:
    """Return the schema of a whole job, a record whose path is empty."""
    return schema_of(Job)
