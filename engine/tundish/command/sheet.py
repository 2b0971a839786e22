"""`tundish sheet`: a blank commissioning sheet of a job, to be filled in on site."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from tundish.command.parser import Subcommands, add_command, add_rules


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "sheet",
        "Write a blank commissioning sheet of a job: what to read, try and record on site.",
        "Each line tells what it will be held against. The filled sheet names its job, and "
        "`tundish check` reads both as one; a line left empty stays unknown.\n\n"
        "A file that is there already is never written over.",
        """
        tundish sheet job.toml --to job-sheet.toml
        tundish check job-sheet.toml
        """,
    )
    parser.add_argument("job", metavar="JOB", help="a file")
    parser.add_argument(
        "--to", metavar="FILE", help="write it there; on standard output if left out"
    )
    add_rules(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the sheet; return what the command ends with."""
    from tundish.command.output import put_in_file
    from tundish.findings.assess import assess
    from tundish.job.facts import own_names
    from tundish.job.job import Job
    from tundish.report.forms.commissioning_sheet import commissioning_sheet
    from tundish.report.tell.command_text import typed
    from tundish.rulebook.evaluate.judge import Verdict
    from tundish.rulebook.rulebook import Rulebook
    from tundish.text.file import path_from

    job = Job.from_file(arguments.job)
    rulebook = Rulebook.load(*arguments.rules)
    assessment = assess(job, rulebook, stage="commissioning", verdicts=(Verdict.UNDECIDED,))
    of_job = path_from(Path(arguments.to or arguments.job).parent, arguments.job)
    text = commissioning_sheet(assessment, of_job, own_names(job.facts), rulebook)
    if text is None:
        sys.stderr.write("Nothing is left to be read: every requirement is decided.\n")
        return 0
    if not arguments.to:
        sys.stdout.write(text)
        return 0
    then = typed("check", arguments.to, rules=arguments.rules)
    return put_in_file(Path(arguments.to), text, f" Fill it in, then: {then}")
