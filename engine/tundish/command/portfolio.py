"""`tundish portfolio`: many jobs in a table, judged over one base job."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any

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
    from tundish.assessment.portfolio import Judged, Portfolio, Summary

_CHUNK = 500
"""Rows that are judged, and held in memory, at a time."""


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "portfolio",
        "Judge many jobs that stand in a table, each a row laid over one base job.",
        "The columns of the table are paths of facts, such as site.snow_depth; a column 'job' "
        "names the rows. An empty cell leaves the fact not known. Tables are .csv, or .jsonl "
        "with one object a line. The summary tells which rules are breached how often, what is "
        "most often not known, and which facts could be changed to mend most; --to writes the "
        "verdicts of each job, one JSON object a line.\n\n"
        "Ends with 0, or with 2 if something could not be read.",
        """
        tundish portfolio homes.csv --base typical-home.toml
        tundish portfolio homes.jsonl --base typical-home.toml --to verdicts.jsonl
        """,
    )
    parser.add_argument("table", metavar="TABLE", help="a .csv or .jsonl file")
    parser.add_argument(
        "--base", metavar="JOB", required=True, help="the job that rows differ from"
    )
    parser.add_argument("--to", metavar="FILE", help="write the verdicts of each job there")
    add_stage(parser, "judge as at this stage")
    add_region(parser, "judge for this region, whatever the base says")
    add_rules(parser)
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Judge the rows; return what the command ends with."""
    from tundish.assessment.assess import assessed_facts
    from tundish.assessment.portfolio import NAME, Portfolio, Summary
    from tundish.job.reader import read_job
    from tundish.reading.row_file import read_rows
    from tundish.report.portfolio_lines import portfolio_lines
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    columns, rows = read_rows(Path(arguments.table))
    job = read_job(arguments.base)
    base = assessed_facts(job, rulebook, arguments.stage, arguments.region)
    portfolio = Portfolio(base, [one for one in columns if one != NAME], rulebook)
    summary = Summary()
    lines = _judged(portfolio, rows, summary)
    if arguments.to:
        from tundish.command.files import put_in_file

        code = put_in_file(Path(arguments.to), "".join(lines))
        if code:
            return code
    else:
        for _ in lines:
            pass
    put_out(portfolio_lines(summary, rulebook), arguments.plain)
    return CANNOT_READ if summary.refused else 0


def _judged(
    portfolio: Portfolio, rows: Iterator[dict[str, Any]], summary: Summary
) -> Iterator[str]:
    """Give a line of JSON for each job, and add up what they come to."""
    from tundish.reading.shown import escaped

    first = 1
    while chunk := list(islice(rows, _CHUNK)):
        found, part = portfolio.judged(chunk, first)
        summary.add(part)
        first += len(chunk)
        for judged in found:
            if judged.problem:
                sys.stderr.write(escaped(f"{judged.name}: {judged.problem}") + "\n")
            yield _line(judged)


def _line(judged: Judged) -> str:
    data = {
        "job": judged.name,
        "breached": judged.breached,
        "undecided": judged.undecided,
        "problem": judged.problem,
    }
    return json.dumps(data) + "\n"
