"""`tundish mend`: as few changes as can be found that clear what is breached."""

from __future__ import annotations

import argparse
from pathlib import Path

from tundish.command.output import put_out
from tundish.command.parser import Subcommands, add_command, add_plain, add_region, add_rules


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "mend",
        "Find the few changes of a job that clear its breaches, and write the changed job.",
        "Each breached rule names the facts that mending may change; for each the value is sought "
        "that is nearest to the present one and mends it, and of all these the ones that leave "
        "the least breached. The changed job goes to a new file, without the comments of the "
        "old one, which is never written over; what a job is based on, or a sheet merged over, is "
        "written out in it.\n\n"
        "What comes out is arithmetic: whether it can be built, a competent person says.\n\n"
        "Ends with 0 if no breach is left, and 1 if one is.",
        """
        tundish mend job.toml
        tundish mend job.toml --to mended.toml
        """,
    )
    parser.add_argument("job", metavar="JOB", help="a file")
    parser.add_argument("--to", metavar="FILE", help="write the changed job there")
    add_region(parser, "judge for this region")
    add_rules(parser)
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Look for the changes; return what the command ends with."""
    from tundish.command.output import put_in_file
    from tundish.job.job import Job
    from tundish.remedy.mend import mend, mended_file
    from tundish.report.tell.mending import mending_lines
    from tundish.rulebook.rulebook import Rulebook

    job = Job.from_file(arguments.job)
    mending = mend(job, Rulebook.load(*arguments.rules), arguments.region)
    put_out(mending_lines(mending), arguments.plain)
    if arguments.to and mending.made:
        to = Path(arguments.to)
        code = put_in_file(to, mended_file(job, mending, to.parent))
        if code:
            return code
    return int(bool(mending.left))
