"""`tundish impact`: what a change of rules would alter in the findings of jobs."""

from __future__ import annotations

import argparse

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.output import complain, put_out, put_out_data
from tundish.command.parser import (
    Subcommands,
    add_command,
    add_data_or_plain,
    add_region,
    add_stage,
)
from tundish.command.progress import with_progress


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "impact",
        "Say which jobs' findings a change of rules would alter.",
        "Each job is judged twice: by the built-in rules with the folders before, and with the "
        "folders after.\n\n"
        "Ends with 0 if nothing is newly breached in any job, and 1 if something is.",
        """
        tundish impact --after our-rules/ jobs/
        tundish impact --before our-rules/ --after new-rules/ jobs/ --json
        """,
    )
    parser.add_argument("jobs", metavar="JOB", nargs="+", help="a file or a folder")
    for side, about in (("before", "as they are now"), ("after", "as they would be")):
        parser.add_argument(
            f"--{side}",
            metavar="PACK",
            action="append",
            default=[],
            help=f"a folder of rules {about}; may be given again",
        )
    add_stage(parser, "judge as at this stage")
    add_region(parser, "judge for this region, whatever a job says")
    add_data_or_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Compare the jobs; return what the command ends with."""
    from tundish.command.job_input import job_name, read_job
    from tundish.compare.compare import compare
    from tundish.job.job_files import find_jobs
    from tundish.report.tell.impact import impact_lines
    from tundish.results.as_data import impact_as_data
    from tundish.rulebook.rulebook import Rulebook
    from tundish.text.problem import Refused

    before, after = Rulebook.load(*arguments.before), Rulebook.load(*arguments.after)
    paths, problems = find_jobs(arguments.jobs)
    complain(problems)
    comparisons = []
    for path in with_progress(paths, "Comparing"):
        try:
            job = read_job(path)
            how = {"stage": arguments.stage, "region": arguments.region}
            comparisons.append((job_name(path), compare(job, job, before, after, **how)))
        except Refused as refused:
            complain(refused.problems)
            problems.extend(refused.problems)
    if arguments.json:
        put_out_data(impact_as_data(comparisons))
    else:
        put_out(impact_lines(comparisons), arguments.plain)
    if problems:
        return CANNOT_READ
    return int(any(comparison.new for _, comparison in comparisons))
