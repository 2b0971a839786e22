"""`tundish explain`: one rule or quantity, taught."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable
from typing import TYPE_CHECKING

from tundish.command.page import CANNOT_READ, put_out
from tundish.command.parser import Subcommands, add_command, add_plain, add_rules

if TYPE_CHECKING:
    from tundish.report.line import Line
    from tundish.rulebook.rulebook import Rulebook


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "explain",
        "Explain a rule or a quantity: what it asks, why, on whose authority, what proves it.",
        "",
        """
        tundish explain defrost-water/free-volume
        tundish explain free_water_volume
        """,
    )
    parser.add_argument(
        "name", metavar="NAME", help="a rule (TOPIC/RULE) or the name of a quantity"
    )
    add_rules(parser)
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Explain what was named; return what the command ends with."""
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    name = arguments.name.strip().strip("/").removesuffix(".toml")
    lines = _lines(name, rulebook)
    if lines is None:
        sys.stderr.write(_no_such_name(name, rulebook))
        return CANNOT_READ
    put_out(lines, arguments.plain)
    return 0


def _lines(name: str, rulebook: Rulebook) -> Iterable[Line] | None:
    """Return what is said of the rule or the quantities of a name, if there are any."""
    from tundish.report.explain import quantity_lines, rule_lines
    from tundish.report.line import GAP

    try:
        return rule_lines(rulebook.rule(name), rulebook)
    except KeyError:
        pass
    lines: list[Line] = []
    for (path, quantity_name), quantity in rulebook.quantities.items():
        # One name may stand for a quantity of the job and for one of a list's items.
        if name in (quantity_name, f"{path}.{quantity_name}"):
            lines += [GAP, GAP] if lines else []
            lines += quantity_lines(quantity, rulebook)
    return lines or None


def _no_such_name(name: str, rulebook: Rulebook) -> str:
    from tundish.reading.nearest import nearest
    from tundish.reading.shown import shown

    names = [*rulebook.rules, *(quantity for _, quantity in rulebook.quantities)]
    near = nearest(name, names)
    # Whoever knows a rule by its last word alone should be led to it.
    ends = [rule for rule in rulebook.rules if rule.partition("/")[2] == name]
    found = list(dict.fromkeys([*ends, *near]))
    hint = f"Near it: {', '.join(found)}." if found else "'tundish rules' lists all rules."
    return f"No rule and no quantity is called {shown(name)}. {hint}\n"
