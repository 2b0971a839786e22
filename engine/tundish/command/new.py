"""`tundish new`: a commented starter job and unit sheet."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Mapping
from pathlib import Path

from tundish.command.page import CANNOT_READ
from tundish.command.parser import Subcommands, add_command, add_region, add_rules, add_stage
from tundish.command.words import STAGES


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
        tundish new cottage.toml --based-on house_types/semi.toml
        """,
    )
    parser.add_argument("job", metavar="FILE", help="the job file to write")
    parser.add_argument("--title", metavar="TEXT", help="what the job is called")
    add_region(parser, "its region")
    add_stage(parser, "how far it has got")
    parser.add_argument(
        "--sheet", metavar="FILE", help="the unit sheet; unit.toml beside the job if left out"
    )
    parser.add_argument(
        "--based-on", metavar="OTHER", help="the job, such as a house type, that it is laid over"
    )
    add_rules(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the files; return what the command ends with."""
    from tundish.command.base_job import base_job
    from tundish.command.files import put_in_file
    from tundish.report.starter import starter_job, starter_sheet

    job = Path(arguments.job)
    base = base_job(arguments.based_on, job) if arguments.based_on else None
    sheet = Path(arguments.sheet) if arguments.sheet else job.parent / "unit.toml"
    heading = _heading(arguments, base.stated if base else {})
    if heading is None:
        return CANNOT_READ
    asked = _asked_for(arguments, heading)
    beside = Path(os.path.relpath(sheet, job.parent)).as_posix()
    wanted, based_on = asked, ""
    if base is not None:
        wanted, based_on = [path for path in asked if base.leaves_open(path)], base.path
        heading = {key: text for key, text in heading.items() if text != base.stated.get(key)}
        if base.job.unit_sheet and not arguments.sheet:
            beside = ""
    text = starter_job(heading, beside, wanted, based_on)
    code = put_in_file(job, text, f" Next: tundish check {job}")
    if code or not beside or sheet.exists():
        return code
    return put_in_file(sheet, starter_sheet(asked))


def _heading(arguments: argparse.Namespace, stated: Mapping[str, str]) -> dict[str, str] | None:
    """Return title, region and stage, asked for where neither options nor a base state them."""
    from tundish.job.heading import Heading
    from tundish.job.making import Unreadable
    from tundish.job.refusing import refused

    heading = {
        "title": arguments.title or _answer("What is the job called?", Path(arguments.job).stem),
        "region": arguments.region
        or stated.get("region")
        or _answer("In which country, by its ISO 3166-1 code?", "GB"),
        "stage": arguments.stage
        or stated.get("stage")
        or _answer(f"How far is it ({', '.join(STAGES)})?", "enquiry"),
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


def _asked_for(arguments: argparse.Namespace, heading: dict[str, str]) -> list[str]:
    """Return the facts that rules ask of a job of which nothing is known, lists gone into."""
    from tundish.rulebook.reads import facts_read
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    stage = STAGES.index(heading["stage"])
    due = [
        rule
        for rule in rulebook.rules.values()
        if STAGES.index(rule.stage) <= max(stage, STAGES.index("design"))
        and (not rule.regions or heading["region"] in rule.regions)
    ]
    return sorted({path for rule in due for path in facts_read(rule, rulebook)})
