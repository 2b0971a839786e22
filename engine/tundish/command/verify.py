"""`tundish verify`: whether a job still comes to the findings that a file states."""

from __future__ import annotations

import argparse

from tundish.command.output import put_out, put_out_data
from tundish.command.parser import Subcommands, add_command, add_data_or_plain, add_rules


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "verify",
        "Judge a job anew and say whether a result that someone sent is what comes out.",
        "The result is what 'tundish check --json' put out. The job is judged at the stage and "
        "for the region that the result states; job and rulebook are the same where their "
        "digests are. Where files and lines lay is left aside.\n\n"
        "Ends with 0 if everything is the same, 1 if something differs, and 2 if something could "
        "not be read.",
        """
        tundish check job.toml --json > findings.json
        tundish verify findings.json job.toml
        """,
    )
    parser.add_argument("result", metavar="RESULT", help="a file of findings, as JSON")
    parser.add_argument("job", metavar="JOB", help="the job's file, or '-' for standard input")
    add_rules(parser)
    add_data_or_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Verify; return what the command ends with."""
    from tundish.command.job_input import job_name, read_job
    from tundish.report.tell.verification import verification_lines
    from tundish.results.stated_result import read_result
    from tundish.results.verify import verification_as_data, verify
    from tundish.rulebook.rulebook import Rulebook

    stated = read_result(arguments.result, job_name(arguments.job))
    verification = verify(stated, read_job(arguments.job), Rulebook.load(*arguments.rules))
    if arguments.json:
        put_out_data(verification_as_data(verification))
    else:
        put_out(verification_lines(verification), arguments.plain)
    return int(not verification.holds)
