"""`tundish new`: a commented starter job and unit sheet."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.option_values import STAGES
from tundish.command.parser import Subcommands, add_command, add_region, add_rules, add_stage
from tundish.text.problem import Problem
from tundish.text.quoted import escaped

if TYPE_CHECKING:
    from tundish.report.forms.new_job import BaseJob


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "new",
        "Write a commented starter job and unit sheet.",
        "What the options leave open is asked for, where someone is there to answer. The facts "
        "that decide most at the stage stand in the files as comments with their questions, in "
        "the order in which one walks: the papers, the customer, round the outside, the way in, "
        "the rooms, the plant, the board. A file that is there already is never written over; a "
        "unit sheet that is there is named by the job and left as it is.",
        """
        tundish new cottage.toml
        tundish new cottage.toml --title "Cottage" --region GB --stage survey --sheet 8-kw.toml
        tundish new cottage.toml --based-on thirties-semi
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
        "--based-on",
        metavar="OTHER",
        help="the job that it is merged over: a file, or a house type that 'tundish samples' names",
    )
    parser.add_argument(
        "--all", action="store_true", help="every fact there is, not only what decides most"
    )
    add_rules(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the files; return what the command ends with."""
    from tundish.command.output import put_in_file, put_schema_beside
    from tundish.report.forms.new_job import new_job, new_unit_sheet
    from tundish.report.tell.command_text import typed
    from tundish.rulebook.rulebook import Rulebook
    from tundish.text.file import path_from

    job = Path(arguments.job)
    sheet = Path(arguments.sheet) if arguments.sheet else job.parent / "unit.toml"
    base = _base(arguments.based_on, job) if arguments.based_on else None
    heading = _heading(arguments, base.stated if base else {})
    if heading is None:
        return CANNOT_READ
    has_sheet = base is not None and bool(base.job.unit_sheet) and not arguments.sheet
    check = typed("check", arguments.job, rules=arguments.rules)
    text = new_job(
        job,
        heading,
        Rulebook.load(*arguments.rules),
        unit_sheet="" if has_sheet else path_from(job.parent, sheet),
        base=base,
        every_fact=arguments.all,
        command=check,
    )
    code = put_in_file(job, text)
    if not code and not has_sheet and not sheet.exists():
        code = put_in_file(sheet, new_unit_sheet(sheet, job, arguments.all))
    if not code:
        put_schema_beside("job", job.parent)
        put_schema_beside("unit", job.parent)
        sys.stderr.write(f"Next: {escaped(check)}\n")
    return code


def _base(named: str, job: Path) -> BaseJob:
    """Return the job to base a new one on; a house type is copied beside it first."""
    from tundish.command.output import say_written
    from tundish.job.house_types import copy_house_type
    from tundish.report.forms.new_job import BaseJob

    path, copies = copy_house_type(named, job)
    for copy in copies:
        say_written(copy)
    return BaseJob.at(path, job)


def _heading(arguments: argparse.Namespace, stated: Mapping[str, str]) -> dict[str, str] | None:
    """Return title, region and stage, asked for where neither options nor a base state them."""
    name = Path(arguments.job).stem
    country = "In which country, by its ISO 3166-1 code such as GB? Empty if not known."
    stages = f"How far is it ({', '.join(STAGES)})?"
    heading = {
        "title": arguments.title or _answer("title", "What is it called?", name),
        "region": arguments.region or stated.get("region") or _answer("region", country, ""),
        "stage": arguments.stage or stated.get("stage") or _answer("stage", stages, "enquiry"),
    }
    heading = {key: text for key, text in heading.items() if text}
    wrong = _wrong(heading)
    if wrong:
        sys.stderr.write(f"{wrong}\n")
        return None
    return heading


def _wrong(heading: dict[str, str]) -> str:
    """Say what is wrong with facts of a heading; an empty text if nothing is."""
    from tundish.job.parts.heading import Heading

    problems: list[Problem] = []
    Heading.read(heading, problems, "", None)
    return "\n".join(problem.sentence for problem in problems)


def _answer(key: str, question: str, otherwise: str) -> str:
    """Ask, where someone is there to answer, until the answer can be read.

    Args:
        key: The fact of the heading.
        question: What to ask.
        otherwise: What an empty answer says.
    """
    if not sys.stdin.isatty():
        return otherwise
    offered = f" [{otherwise}]" if otherwise else ""
    while True:
        sys.stderr.write(f"{question}{offered}\n> ")
        sys.stderr.flush()
        line = sys.stdin.readline()
        text = line.strip()
        answer = text.upper() if key == "region" else text.lower() if key == "stage" else text
        wrong = _wrong({key: answer}) if answer else ""
        if not wrong or not line:  # nothing more comes from whoever has gone
            return answer or otherwise
        sys.stderr.write(f"{wrong}\n")
