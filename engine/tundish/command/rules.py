"""`tundish rules`: the rules of the rulebook, listed."""

from __future__ import annotations

import argparse

from tundish.command.exit_codes import CANNOT_READ
from tundish.command.output import put_out
from tundish.command.parser import Subcommands, add_command, add_plain, add_rules


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "rules",
        "List the rules, topic by topic, the most serious first.",
        "",
        """
        tundish rules
        tundish rules clearances
        """,
    )
    parser.add_argument(
        "topic", metavar="TOPIC", nargs="?", default="", help="list this topic only"
    )
    add_rules(parser)
    add_plain(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """List the rules; return what the command ends with."""
    from tundish.report.tell.catalogue import catalogue_lines
    from tundish.rulebook.rulebook import Rulebook

    rulebook = Rulebook.load(*arguments.rules)
    topic = arguments.topic.strip("/").replace(" ", "-").lower()
    if topic and topic not in rulebook.topics():
        return _no_such_topic(arguments.topic, rulebook.topics())
    put_out(catalogue_lines(rulebook, topic), arguments.plain)
    return 0


def _no_such_topic(topic: str, topics: list[str]) -> int:
    import sys

    from tundish.text.nearest import did_you_mean
    from tundish.text.quoted import quoted

    hint = did_you_mean(topic, topics) or f" There are: {', '.join(topics)}."
    sys.stderr.write(f"There is no topic {quoted(topic)}.{hint}\n")
    return CANNOT_READ
