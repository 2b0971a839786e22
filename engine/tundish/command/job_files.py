"""Finding the jobs that are named on the command line: files, folders, standard input."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from tundish.groundwork.dataclass import dataclass
from tundish.job.job import Job
from tundish.text.bounds import LARGEST_FILE
from tundish.text.problem import Problem, Refused, refusal
from tundish.text.toml_file import read_toml

STANDARD_INPUT = "-"
_NAME = "standard input"


@dataclass(frozen=True, slots=True)
class JobFile:
    """Where one job is.

    Attributes:
        path: Its path, or "-" for standard input.
    """

    path: str

    @property
    def name(self) -> str:
        """Return what it is called in reports."""
        return _NAME if self.path == STANDARD_INPUT else self.path

    def read(self) -> Job:
        """Return the job.

        Raises:
            Refused: If it cannot be read.
        """
        if self.path != STANDARD_INPUT:
            return Job.from_file(self.path)
        # A sheet that it names is looked for from where the command was started.
        return Job.from_toml(_standard_input(), _NAME, Path())


def job_files(named: list[str]) -> tuple[list[JobFile], list[Problem]]:
    """Find the jobs behind what was named, each once.

    Args:
        named: Files, folders and "-", as they stand on the command line.

    Returns:
        The jobs in the order they were named, those of a folder sorted, and what is wrong.
    """
    found: dict[object, JobFile] = {}
    problems: list[Problem] = []
    for name in named:
        paths = [name]
        if name != STANDARD_INPUT and _is_folder(name):
            paths = [str(path) for path in _jobs_in(Path(name))]
            if not paths:
                problems.append(Problem(name, None, None, "There is no job in this folder."))
        for path in paths:
            found.setdefault(_identity(path), JobFile(path))
    return list(found.values()), problems


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


def _standard_input() -> str:
    content = sys.stdin.buffer.read(LARGEST_FILE + 1)
    if len(content) > LARGEST_FILE:
        raise refusal(_NAME, f"It is longer than {LARGEST_FILE} bytes, the most that is read.")
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise refusal(_NAME, "This is not UTF-8; save it as UTF-8.", line) from None
