"""Finding the jobs that are named: files, and folders with jobs in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from tundish.job.job import Job
from tundish.text.problem import Problem, Refused
from tundish.text.toml_file import read_toml

STANDARD_INPUT = "-"
"""What names the standard input in place of a file."""


def find_jobs(names: Iterable[str]) -> tuple[list[str], list[Problem]]:
    """Find the jobs behind what was named, each once.

    Args:
        names: Files, folders and `STANDARD_INPUT`.

    Returns:
        The paths of the jobs in the order they were named, those of a folder sorted; and what is
        wrong.
    """
    jobs: dict[object, str] = {}
    problems: list[Problem] = []
    for name in names:
        paths = [name]
        if name != STANDARD_INPUT and _is_folder(name):
            paths = [str(path) for path in _jobs_in(Path(name))]
            if not paths:
                problems.append(Problem(name, None, None, "There is no job in this folder."))
        for path in paths:
            jobs.setdefault(_identity(path), path)
    return list(jobs.values()), problems


def holds_job(path: Path) -> bool:
    """Say whether a TOML file is a job, rather than a unit sheet or something else.

    A file that is not TOML counts as a job, so that its writer gets to hear of it.
    """
    try:
        keys = set(read_toml(path).data)
    except Refused:
        return True
    return not keys or bool(keys & set(Job.members) - {"unit"})


def _jobs_in(folder: Path) -> Iterator[Path]:
    for path in sorted(folder.rglob("*.toml")):
        hidden = any(part.startswith(".") for part in path.relative_to(folder).parts)
        if path.is_file() and not hidden and holds_job(path):
            yield path


def _is_folder(name: str) -> bool:
    try:
        return Path(name).is_dir()
    except (OSError, ValueError):  # a name that no file can have; reading it says so
        return False


def _identity(path: str) -> object:
    """Return the same for every way of naming one file."""
    if path == STANDARD_INPUT:
        return path
    try:
        return Path(path).resolve()
    except (OSError, ValueError, RuntimeError):
        return path
