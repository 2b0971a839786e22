"""`tundish join`: a job, what it is based on and the sheet merged over it, as one file."""

from __future__ import annotations

import argparse
from pathlib import Path

from tundish.command.parser import Subcommands, add_command


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "join",
        "Put a filled form or sheet and the job it names into one new job file.",
        "What was filled in stands over what was known before; lines left empty say nothing. "
        "What the job is based on is written out, so that the new file needs it no more. "
        "Comments stay in the old files, and neither is written over.",
        """
        tundish join visit.toml --to job-after-visit.toml
        """,
    )
    parser.add_argument("sheet", metavar="SHEET", help="a filled form or sheet")
    parser.add_argument("--to", metavar="FILE", required=True, help="write the joined job there")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the joined job; return what the command ends with."""
    import tomli_w

    from tundish.command.output import put_in_file
    from tundish.job.job import Job

    source = Job.from_file(arguments.sheet).source
    assert source is not None
    to = Path(arguments.to)
    return put_in_file(to, tomli_w.dumps(source.as_one_file(to.parent)))
