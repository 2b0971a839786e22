"""`tundish survey`: what is not known yet, ranked by what it would decide."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.output import put_out, put_out_data
from tundish.command.parser import (
    Subcommands,
    add_command,
    add_data_or_plain,
    add_region,
    add_rules,
    add_stage,
)

if TYPE_CHECKING:
    from tundish.findings.finding import Assessment
    from tundish.job.job import Job
    from tundish.rulebook.rulebook import Rulebook
    from tundish.survey.survey import Inquiry


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "survey",
        "Rank what is not known of a job by what it would decide, and write a form to fill in.",
        "Questions are grouped by who can answer. The form is a TOML file with one line for each; "
        "a line left empty stays unknown. `tundish check` reads the filled form together with "
        "the job it names, and `tundish join` puts both into one file.",
        """
        tundish survey job.toml
        tundish survey job.toml --form visit.toml
        tundish survey job.toml --later --plain
        """,
    )
    parser.add_argument("job", metavar="JOB", help="a file, or '-' for standard input")
    add_stage(parser, "ask what is due at this stage")
    add_region(parser, "ask for this region")
    parser.add_argument(
        "--later", action="store_true", help="ask what can wait for a later stage too"
    )
    parser.add_argument("--form", metavar="FILE", help="write a blank form there")
    add_rules(parser)
    add_data_or_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Rank the questions; return what the command ends with."""
    from tundish.command.job_input import read_job
    from tundish.findings.assess import assess
    from tundish.report.tell.survey import survey_lines
    from tundish.results.as_data import survey_as_data
    from tundish.rulebook.evaluate.judge import Verdict
    from tundish.rulebook.rulebook import Rulebook
    from tundish.survey.survey import inquiries

    rulebook = Rulebook.load(*arguments.rules)
    job = read_job(arguments.job)
    stage, region = arguments.stage, arguments.region
    assessment = assess(job, rulebook, stage=stage, region=region, verdicts=(Verdict.UNDECIDED,))
    survey = inquiries(assessment, rulebook, arguments.later)
    if arguments.form:
        return _write_form(arguments, job, assessment, survey, rulebook)
    if arguments.json:
        put_out_data(survey_as_data(assessment, survey))
    else:
        put_out(survey_lines(assessment, survey, rulebook), arguments.plain)
    return 0


def _write_form(
    arguments: argparse.Namespace,
    job: Job,
    assessment: Assessment,
    survey: tuple[Inquiry, ...],
    rulebook: Rulebook,
) -> int:
    from tundish.command.output import put_in_file
    from tundish.job.facts import own_names
    from tundish.report.forms.survey_form import survey_form
    from tundish.report.tell.command_text import typed
    from tundish.text.file import path_from

    if arguments.job == "-":
        arguments.parser.error("A form names the file of its job; name that file, not '-'.")
    if not survey:
        sys.stderr.write("Nothing is left to find out at this stage.\n")
        return 0
    to = Path(arguments.form)
    of_job = path_from(to.parent, arguments.job)
    text = survey_form(assessment, survey, of_job, own_names(job.facts), rulebook)
    then = typed(
        "check", str(to), rules=arguments.rules, stage=arguments.stage, region=arguments.region
    )
    return put_in_file(to, text, f" Fill it in, then: {then}")
