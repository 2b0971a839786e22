"""`tundish portfolio`: a housing stock in a table, screened over one base job."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.page import CANNOT_READ, put_out
from tundish.command.parser import (
    Subcommands,
    add_command,
    add_plain,
    add_region,
    add_rules,
    add_stage,
)

if TYPE_CHECKING:
    from tundish.command.stock_output import Judging
    from tundish.job.facts import Facts
    from tundish.rulebook.rulebook import Rulebook


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "portfolio",
        "Screen a housing stock: many jobs that stand in a table, each a row laid over one base "
        "job.",
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
    from tundish.command.stock_output import put_together
    from tundish.findings.assess import assessed_facts
    from tundish.job.job import Job
    from tundish.report.tell.portfolio import portfolio_lines
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    job = Job.from_file(arguments.base)
    base = assessed_facts(job, rulebook, arguments.stage, arguments.region)
    if _by_columns():
        from tundish.command.stock import Stock

        stock: Judging = Stock(arguments, base, rulebook)
    else:
        stock = _row_by_row(arguments, base, rulebook)
    summary = put_together(stock, Path(arguments.table), arguments.to)
    if summary is None:
        return CANNOT_READ
    put_out(portfolio_lines(summary, base, rulebook), arguments.plain)
    return CANNOT_READ if summary.refused else 0


def _by_columns() -> bool:
    """Say whether the package for columns is there."""
    from importlib.util import find_spec

    return find_spec("numpy") is not None


def _row_by_row(arguments: argparse.Namespace, base: Facts, rulebook: Rulebook) -> Judging:
    """Make what judges one row after the other, where there is no package for columns."""
    from tundish.command.stock_rows import StockRows
    from tundish.text.column_file import NEEDS_EXTRA
    from tundish.text.problem import refusal

    if arguments.cluster:
        raise refusal(arguments.cluster, "A cluster needs pip install 'tundish[cluster]'.")
    if arguments.to and arguments.to.suffix == ".parquet":
        raise refusal(str(arguments.to), NEEDS_EXTRA)
    return StockRows(arguments, base, rulebook)
