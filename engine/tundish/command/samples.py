"""`tundish samples`: the invented jobs that travel with the program."""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.output import put_out
from tundish.command.parser import Subcommands, add_command, add_plain

if TYPE_CHECKING:
    from tundish.report.page.line import Line


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "samples",
        "List the sample jobs that travel with the program, with their paths.",
        "They are invented. Copy one, with the unit sheet that is listed below it, to begin a job "
        "of your own; the sheet must lie where the job names it. A house type is what jobs are "
        "based on: copy it beside your jobs or into a folder below them.",
        "tundish samples",
    )
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """List the samples; return what the command ends with."""
    from tundish.command.job_files import job_files
    from tundish.report.page.line import Line
    from tundish.text.bundled_folders import bundled_folder

    folder = bundled_folder("sample_jobs")
    files, _ = job_files([str(folder)])
    paths = [file.path for file in files]
    samples = [path for path in paths if Path(path).parent == folder]
    lines = [Line("words", f"Sample jobs, all invented. {_COPY}"), *_listed(samples), Line("gap")]
    lines += [Line("words", f"House types to base a job on, invented too. {_COPY}")]
    lines += _listed(path for path in paths if path not in samples)
    put_out(lines, arguments.plain)
    return 0


_COPY = "Copy one together with the unit sheet below it, into folders that lie as they do here:"


def _listed(paths: Iterable[str]) -> Iterator[Line]:
    """Give the title of each job, its path and that of its unit sheet."""
    from tundish.job.job import Job
    from tundish.report.page.line import Line

    for path in paths:
        job = Job.from_file(path)
        yield from (Line("gap"), Line("question", job.title or path), Line("verbatim", path))
        if job.unit_sheet:
            beside = os.path.join(os.path.dirname(path), job.unit_sheet)
            yield Line("verbatim", os.path.normpath(beside))
