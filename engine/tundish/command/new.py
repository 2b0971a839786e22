"""`tundish new`: a commented starter job and unit sheet."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.page import CANNOT_READ
from tundish.command.parser import Subcommands, add_command, add_region, add_rules, add_stage
from tundish.command.words import STAGES

if TYPE_CHECKING:
    from tundish.rulebook.rulebook import Rulebook


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "new",
        "Write a commented starter job and unit sheet.",
        "What the options leave open is asked for, where someone is there to answer. Every fact "
        "that a rule would ask for stands in the files as a comment with its question, in the "
        "order of a survey. A file that is there already is never written over; a unit sheet "
        "that is there is named by the job and left as it is.",
        """
        tundish new cottage.toml
        tundish new cottage.toml --title "Cottage" --region GB --stage enquiry --sheet 8-kw.toml
        """,
    )
    parser.add_argument("job", metavar="FILE", help="the job file to write")
    parser.add_argument("--title", metavar="TEXT", help="what the job is called")
    add_region(parser, "its region")
    add_stage(parser, "how far it has got")
    parser.add_argument(
        "--sheet", metavar="FILE", help="the unit sheet; unit.toml beside the job if left out"
    )
    add_rules(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the files; return what the command ends with."""
    from tundish.command.files import put_in_file
    from tundish.report.starter import starter_job, starter_sheet
    from tundish.rulebook.rulebook import Rulebook

    job = Path(arguments.job)
    sheet = Path(arguments.sheet) if arguments.sheet else job.parent / "unit.toml"
    heading = _heading(arguments)
    if heading is None:
        return CANNOT_READ
    rulebook = Rulebook.load(*arguments.rules)
    asked = _asked_for(rulebook, heading)
    declared = [one.fact for one in rulebook.declared.values()]
    beside = Path(os.path.relpath(sheet, job.parent)).as_posix()
    text = starter_job(heading, beside, asked, declared)
    code = put_in_file(job, text, f" Next: tundish check {job}")
    if code or sheet.exists():
        return code
    return put_in_file(sheet, starter_sheet(asked))


def _heading(arguments: argparse.Namespace) -> dict[str, str] | None:
    """Return title, region and stage, asked for where the options leave them open."""
    from tundish.job.heading import Heading
    from tundish.job.making import Unreadable
    from tundish.job.refusing import refused

    heading = {
        "title": arguments.title or _answer("What is the job called?", Path(arguments.job).stem),
        "region": arguments.region or _answer("In which country, by its ISO 3166-1 code?", "GB"),
        "stage": arguments.stage or _answer(f"How far is it ({', '.join(STAGES)})?", "enquiry"),
    }
    heading["region"] = heading["region"].upper()
    try:
        Heading.read(heading)
    except Unreadable as error:
        for problem in refused(error, Heading).problems:
            sys.stderr.write(f"{problem.sentence}\n")
        return None
    return heading


def _answer(question: str, otherwise: str) -> str:
    """Ask, where someone is there to answer; an empty answer takes what is offered."""
    if not sys.stdin.isatty():
        return otherwise
    sys.stderr.write(f"{question} [{otherwise}] ")
    sys.stderr.flush()
    return sys.stdin.readline().strip() or otherwise


def _asked_for(rulebook: Rulebook, heading: dict[str, str]) -> list[str]:
    """Return the facts that rules ask of a job of which nothing is known, lists gone into."""
    from tundish.rulebook.reads import facts_read

    stage = STAGES.index(heading["stage"])
    due = [
        rule
        for rule in rulebook.rules.values()
        if STAGES.index(rule.stage) <= max(stage, STAGES.index("design"))
        and (not rule.regions or heading["region"] in rule.regions)
    ]
    return sorted({path for rule in due for path in facts_read(rule, rulebook)})
