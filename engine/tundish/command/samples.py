"""`tundish samples`: the invented jobs that travel with the program."""

from __future__ import annotations

import argparse

from tundish.command.page import put_out
from tundish.command.parser import Subcommands, add_command, add_plain


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "samples",
        "List the sample jobs that travel with the program, with their paths.",
        "They are invented. Copy one to begin a job of your own.",
        "tundish samples",
    )
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """List the samples; return what the command ends with."""
    from tundish.command.job_files import job_files
    from tundish.reading.home import travelling_folder
    from tundish.report.line import Line

    files, _ = job_files([str(travelling_folder("sample_jobs"))])
    lines = [Line("words", "Sample jobs, all invented:")]
    for file in files:
        lines += [Line("gap"), Line("question", _title(file.path)), Line("verbatim", file.path)]
    put_out(lines, arguments.plain)
    return 0


def _title(path: str) -> str:
    from tundish.job.reader import read_job

    return read_job(path).title or path
