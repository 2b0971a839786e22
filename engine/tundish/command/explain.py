"""`tundish explain`: whatever has a name, taught."""

from __future__ import annotations

import argparse
import sys

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.output import put_out
from tundish.command.parser import Subcommands, add_command, add_plain, add_rules


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "explain",
        "Explain a rule or whatever else has a name: what it says, why, on whose authority.",
        "That is a rule (TOPIC/RULE), a quantity, a fact of a job or a table or list of facts, a "
        "table of the rulebook, a part of the order list, a source, or a unit.",
        """
        tundish explain defrost-water/free-volume
        tundish explain free_water_volume
        tundish explain site.snow_depth
        tundish explain cable-capacities
        tundish explain sun-cover
        tundish explain L/min
        """,
    )
    parser.add_argument("name", metavar="NAME", nargs="+", help="the name, as reports show it")
    add_rules(parser)
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Explain what was named; return what the command ends with."""
    from tundish.report.tell.named import name_lines, no_such_name
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    name = " ".join(arguments.name).strip().strip("/").removesuffix(".toml")
    lines = name_lines(name, rulebook)
    if not lines:
        sys.stderr.write(f"{no_such_name(name, rulebook, arguments.rules)}\n")
        return CANNOT_READ
    put_out(lines, arguments.plain)
    return 0
