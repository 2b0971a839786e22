"""`tundish samples`: the invented jobs that travel with the program."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.page import put_out
from tundish.command.parser import Subcommands, add_command, add_plain

if TYPE_CHECKING:
    from tundish.report.line import Line


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "samples",
        "List the sample jobs that travel with the program, with their paths.",
        "They are invented. Copy one to begin a job of your own. A house type is what jobs are "
        "based on: copy it beside your jobs or into a folder below them, with its unit sheet.",
        "tundish samples",
    )
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """List the samples; return what the command ends with."""
    from tundish.command.job_files import job_files
    from tundish.reading.home import travelling_folder
    from tundish.report.line import Line

    folder = travelling_folder("sample_jobs")
    files, _ = job_files([str(folder)])
    paths = [file.path for file in files]
    samples = [path for path in paths if Path(path).parent == folder]
    lines = [Line("words", "Sample jobs, all invented:"), *_listed(samples), Line("gap")]
    lines += [Line("words", "House types to base a job on, invented too:")]
    lines += _listed(path for path in paths if path not in samples)
    put_out(lines, arguments.plain)
    return 0


def _listed(paths: Iterable[str]) -> Iterator[Line]:
    from tundish.report.line import Line

    for path in paths:
        yield from (Line("gap"), Line("question", _title(path)), Line("verbatim", path))


def _title(path: str) -> str:
    from tundish.job.reader import read_job

    return read_job(path).title or path
