"""`tundish order`: what a job needs, what comes with the unit, and what of it was ordered."""

from __future__ import annotations

import argparse
import sys

from tundish.command.output import put_out, put_out_data
from tundish.command.parser import (
    Subcommands,
    add_command,
    add_data_or_plain,
    add_region,
    add_rules,
)


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "order",
        "List what must be bought for a job, what comes with the unit, from whom and why.",
        "Where the job says what was ordered ([[order]]), each part is missing, surplus, doubtful "
        "or as it should be.\n\n"
        "Ends with 0 if nothing that is known to be needed is missing, and 1 if something is.",
        """
        tundish order job.toml
        tundish order job.toml --csv > order.csv
        tundish order job.toml --workings --plain
        """,
    )
    parser.add_argument("job", metavar="JOB", help="a file, or '-' for standard input")
    add_region(parser, "list for this region")
    add_rules(parser)
    parser.add_argument(
        "--workings",
        action="store_true",
        help="tell how each amount was worked out, and on whose authority",
    )
    form = add_data_or_plain(parser)
    form.add_argument("--csv", action="store_true", help="a table for a spreadsheet")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """List the parts; return what the command ends with."""
    from tundish.command.job_input import read_job
    from tundish.order.purchase_list import Standing, order_list
    from tundish.report.tell.order import order_lines
    from tundish.results.as_data import order_as_data
    from tundish.rulebook.rulebook import Rulebook

    job = read_job(arguments.job)
    order = order_list(job, Rulebook.load(*arguments.rules), arguments.region)
    if arguments.csv:
        from tundish.report.formats.order_csv import order_table

        # Row ends are part of the table's form, whatever those of the system are.
        sys.stdout.write(order_table(order).replace("\r\n", "\n"))
    elif arguments.json:
        put_out_data(order_as_data(order))
    else:
        put_out(order_lines(order, arguments.workings), arguments.plain)
    return int(bool(order.of(Standing.MISSING)))
