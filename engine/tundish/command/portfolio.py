"""`tundish portfolio`: many jobs in a table, judged over one base job."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.output import put_out, say_not_written, say_written
from tundish.command.parser import (
    Subcommands,
    add_command,
    add_plain,
    add_region,
    add_rules,
    add_stage,
)
from tundish.command.progress import counting

if TYPE_CHECKING:
    from tundish.portfolio.portfolio import PortfolioTable
    from tundish.portfolio.summary import JudgedPart, Summary


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "portfolio",
        "Judge a portfolio: many jobs in a table, each a row merged over one base job.",
        "The columns of the table are paths of facts, such as site.snow_depth; a column 'job' "
        "names the rows. A cell takes the place of what the base job says; an empty one leaves "
        "the fact not known. A cell is written as in a job file, with its unit; or the heading "
        "carries the unit, as in 'site.snow_depth [mm]', and cells are bare numbers. Tables are "
        ".csv, .parquet, or .jsonl with one object a line.\n\n"
        "The summary tells which rules are breached how often, what is most often not known, and "
        "the change of which one fact would help most homes. --to writes the verdicts of each "
        "job: as .parquet a row a job and a column a rule, as .jsonl an object a line with the "
        "rules that are breached and undecided.\n\n"
        "With pip install 'tundish[portfolio]' rows are judged by columns, many times faster; "
        "without it they are judged one by one, and Parquet is not read.\n\n"
        "Ends with 0, or with 2 if something could not be read.",
        """
        tundish portfolio homes.csv --base typical-home.toml
        tundish portfolio homes.parquet --base typical-home.toml --to verdicts.parquet
        """,
    )
    parser.add_argument("table", metavar="TABLE", help="a .csv, .parquet or .jsonl file")
    parser.add_argument(
        "--base", metavar="JOB", required=True, help="the job that rows differ from"
    )
    parser.add_argument(
        "--to",
        metavar="FILE",
        type=Path,
        help="write the verdicts of each job there: .parquet or .jsonl",
    )
    parser.add_argument(
        "--processes",
        metavar="N",
        type=_processes,
        help="judge by so many processes; as many as there are processors, unless you say so",
    )
    parser.add_argument(
        "--cluster",
        metavar="ADDRESS",
        help="judge on the Dask cluster whose scheduler is there, such as tcp://host:8786; "
        "needs tundish[cluster]",
    )
    add_stage(parser, "judge as at this stage")
    add_region(parser, "judge for this region, whatever the base says")
    add_rules(parser)
    add_plain(parser)
    parser.set_defaults(run=run)


def _processes(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 512:
        raise argparse.ArgumentTypeError(f"'{text}' is no number of processes from 1 to 512")
    return int(text)


def run(arguments: argparse.Namespace) -> int:
    """Judge the rows; return what the command ends with."""
    from tundish.findings.judged_job import assessed_facts
    from tundish.job.job import Job
    from tundish.portfolio.portfolio import open_table
    from tundish.report.tell.portfolio import portfolio_lines
    from tundish.rulebook.rulebook import Rulebook
    from tundish.text.new_file import AlreadyThereError

    rulebook = Rulebook.load(*arguments.rules)
    job = Job.from_file(arguments.base)
    base = assessed_facts(job, rulebook, arguments.stage, arguments.region)
    table = open_table(
        arguments.table,
        base,
        rulebook,
        packs=arguments.rules,
        workers=arguments.processes,
        cluster=arguments.cluster or "",
    )
    try:
        summary = _judged(table, arguments.table, arguments.to)
    except (AlreadyThereError, OSError) as error:
        if arguments.to is None:
            raise
        return say_not_written(arguments.to, error)
    if arguments.to is not None:
        say_written(arguments.to)
    put_out(portfolio_lines(summary, base, rulebook), arguments.plain)
    return CANNOT_READ if summary.refused else 0


def _judged(table: PortfolioTable, name: str, to: Path | None) -> Summary:
    """Judge a table while progress and the rows that cannot be read are told."""
    from tundish.portfolio.portfolio import judge_table
    from tundish.text.bounds import MOST_PROBLEMS

    problems = 0

    def on_part(part: JudgedPart) -> None:
        nonlocal problems
        for number, (job, text) in part.problems.items():
            problems += 1
            if problems <= MOST_PROBLEMS:
                called = "" if job == f"row {number}" else f" ({job})"
                sys.stderr.write(f"{name}, row {number}{called}: {text}\n")
        advance(part.rows)

    with counting(table.rows, "Judging") as advance:
        summary = judge_table(table, to, on_part)
    if problems > MOST_PROBLEMS:
        sys.stderr.write(f"{name}: {problems - MOST_PROBLEMS} more rows could not be read.\n")
    return summary
