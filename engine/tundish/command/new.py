"""`tundish new`: a commented starter job and unit sheet."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.parser import Subcommands, add_command, add_region, add_rules, add_stage
from tundish.command.words import STAGES
from tundish.text.problem import Problem
from tundish.text.quoted import escaped

if TYPE_CHECKING:
    from tundish.command.base_job import BaseJob


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
        help="the job that it is laid over: a file, or a house type that 'tundish samples' names",
    )
    parser.add_argument(
        "--all", action="store_true", help="every fact there is, not only what decides most"
    )
    add_rules(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the files; return what the command ends with."""
    from tundish.command.base_job import base_job
    from tundish.command.output import put_in_file
    from tundish.command.schema_files import write_schema

    job = Path(arguments.job)
    sheet = Path(arguments.sheet) if arguments.sheet else job.parent / "unit.toml"
    base = base_job(arguments.based_on, job) if arguments.based_on else None
    heading = _heading(arguments, base.stated if base else {})
    if heading is None:
        return CANNOT_READ
    has_sheet = base is not None and bool(base.job.unit_sheet) and not arguments.sheet
    beside = "" if has_sheet else Path(os.path.relpath(sheet, job.parent)).as_posix()
    code = put_in_file(job, _job(arguments, heading, beside, base))
    if not code and beside and not sheet.exists():
        code = put_in_file(sheet, _sheet(arguments, job, sheet))
    if not code:
        write_schema("job", job.parent)
        write_schema("unit", job.parent)
        sys.stderr.write(f"Next: {escaped(_next(arguments))}\n")
    return code


def _job(
    arguments: argparse.Namespace, heading: Mapping[str, str], unit_sheet: str, base: BaseJob | None
) -> str:
    """Return the text of the job file."""
    from tundish.command.schema_files import schema_line
    from tundish.report.forms.starter_job import FirstJob, starter_job
    from tundish.rulebook.forms.starters import facts_of_first_job, facts_of_packs
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    region, job = heading.get("region"), Path(arguments.job)
    paths = None if arguments.all else facts_of_first_job(rulebook, heading["stage"], region)
    keys = {f"job.{key}": text for key, text in heading.items()}
    if unit_sheet:
        keys = {"unit_sheet": unit_sheet} | keys
    if base is not None:
        keys = {"based_on": base.path} | {
            key: text
            for key, text in keys.items()
            if base.stated.get(key.removeprefix("job.")) != text
        }
    return starter_job(
        FirstJob(
            keys,
            paths,
            facts_of_packs(rulebook, region),
            base.leaves_open if base else lambda _: True,
            _next(arguments),
            schema_line("job", job, job.parent),
        )
    )


def _sheet(arguments: argparse.Namespace, job: Path, sheet: Path) -> str:
    """Return the text of the unit sheet."""
    from tundish.command.schema_files import schema_line
    from tundish.report.forms.starter_sheet import starter_sheet
    from tundish.rulebook.forms.starters import facts_of_first_sheet

    paths = None if arguments.all else facts_of_first_sheet()
    return starter_sheet(paths, schema_line("unit", sheet, job.parent))


def _next(arguments: argparse.Namespace) -> str:
    """Return the command to run next, as one types it."""
    from tundish.report.tell.command_text import typed

    return typed("check", arguments.job, rules=arguments.rules)


def _heading(arguments: argparse.Namespace, stated: Mapping[str, str]) -> dict[str, str] | None:
    """Return title, region and stage, asked for where neither options nor a base state them."""
    country = "In which country, by its ISO 3166-1 code such as GB? Empty if not known."
    stages = f"How far is it ({', '.join(STAGES)})?"
    heading = {
        "title": arguments.title or _answer("title", "What is it called?", _stem(arguments)),
        "region": arguments.region or stated.get("region") or _answer("region", country, ""),
        "stage": arguments.stage or stated.get("stage") or _answer("stage", stages, "enquiry"),
    }
    heading = {key: text for key, text in heading.items() if text}
    wrong = _wrong(heading)
    if wrong:
        sys.stderr.write(f"{wrong}\n")
        return None
    return heading


def _stem(arguments: argparse.Namespace) -> str:
    return Path(arguments.job).stem


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
