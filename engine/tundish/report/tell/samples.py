"""What is said of the sample jobs that travel with the program."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from tundish.job.job import Job
from tundish.job.job_files import find_jobs
from tundish.report.page.line import GAP, Line

_COPY = "Copy one together with the unit sheet below it, into folders that lie as they do here:"


def sample_lines(folder: Path) -> Iterator[Line]:
    """Give the sample jobs, and the house types below them.

    Args:
        folder: The folder of the sample jobs.
    """
    paths, _ = find_jobs([str(folder)])
    samples = [path for path in paths if Path(path).parent == folder]
    yield Line("words", f"Sample jobs, all invented. {_COPY}")
    yield from _listed(samples)
    yield GAP
    yield Line("words", f"House types to base a job on, invented too. {_COPY}")
    yield from _listed(path for path in paths if path not in samples)


def _listed(paths: Iterable[str]) -> Iterator[Line]:
    """Give the title of each job, its path and that of its unit sheet."""
    for path in paths:
        job = Job.from_file(path)
        yield from (GAP, Line("question", job.title or path), Line("verbatim", path))
        if job.unit_sheet:
            beside = os.path.join(os.path.dirname(path), job.unit_sheet)
            yield Line("verbatim", os.path.normpath(beside))
