"""`tundish samples`: the invented jobs that travel with the program."""

from __future__ import annotations

import argparse

from tundish.command.output import put_out
from tundish.command.parser import Subcommands, add_command, add_plain


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
    from tundish.report.tell.samples import sample_lines
    from tundish.text.bundled_folders import bundled_folder

    put_out(sample_lines(bundled_folder("sample_jobs")), arguments.plain)
    return 0
