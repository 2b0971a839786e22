"""`tundish compare`: two jobs, or one job under two rulebooks."""

from __future__ import annotations

import argparse

from tundish.command.output import put_out, put_out_data
from tundish.command.parser import (
    Subcommands,
    add_command,
    add_data_or_plain,
    add_region,
    add_rules,
    add_stage,
)


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "compare",
        "Say what differs between two jobs, or for one job between two rulebooks.",
        "Findings that are new, gone or otherwise, and the facts and figures that differ.\n\n"
        "Ends with 0 if nothing is newly breached, and 1 if something is.",
        """
        tundish compare job.toml mended.toml
        tundish compare job.toml --after-rules our-rules/
        """,
    )
    parser.add_argument("jobs", metavar="JOB", nargs="+", help="one job, or the two to compare")
    add_rules(parser)
    parser.add_argument(
        "--after-rules",
        metavar="FOLDER",
        action="append",
        default=[],
        help="a folder of further rules for the second alone; may be given again",
    )
    add_stage(parser, "judge both as at this stage")
    add_region(parser, "judge both for this region")
    add_data_or_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Compare; return what the command ends with."""
    from tundish.command.job_input import read_job
    from tundish.compare.compare import compare
    from tundish.report.tell.comparison import comparison_lines
    from tundish.results.as_data import comparison_as_data
    from tundish.rulebook.rulebook import Rulebook

    names = arguments.jobs
    if len(names) > 2 or (len(names) == 1 and not arguments.after_rules):
        arguments.parser.error("Name two jobs, or one job and --after-rules.")
    before = read_job(names[0])
    after = read_job(names[-1]) if len(names) == 2 else before
    rules = Rulebook.load(*arguments.rules)
    other = Rulebook.load(*arguments.rules, *arguments.after_rules)
    comparison = compare(
        before, after, rules, other, stage=arguments.stage, region=arguments.region
    )
    if arguments.json:
        put_out_data(comparison_as_data(comparison))
    else:
        put_out(comparison_lines(comparison), arguments.plain)
    return int(bool(comparison.new))
