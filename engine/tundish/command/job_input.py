"""The job that an argument names: a file, or the standard input."""

from __future__ import annotations

import sys
from pathlib import Path

from tundish.job.job import Job
from tundish.job.job_files import STANDARD_INPUT
from tundish.text.bounds import LARGEST_FILE
from tundish.text.file import decoded
from tundish.text.problem import refusal


def job_name(path: str) -> str:
    """Return what a job is called in reports."""
    return "standard input" if path == STANDARD_INPUT else path


def read_job(path: str) -> Job:
    """Return the job at a path, or the one on the standard input.

    Raises:
        Refused: If it cannot be read.
    """
    if path != STANDARD_INPUT:
        return Job.from_file(path)
    name = job_name(path)
    content = sys.stdin.buffer.read(LARGEST_FILE + 1)
    if len(content) > LARGEST_FILE:
        raise refusal(name, f"It is longer than {LARGEST_FILE} bytes, the most that is read.")
    # A sheet that it names is looked for from where the command was started.
    return Job.from_toml(decoded(content, name), name, Path())
