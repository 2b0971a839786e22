"""`tundish rule new`: a commented template of a rule."""

from __future__ import annotations

import argparse
import re
from pathlib import Path

from tundish.command.parser import Subcommands, add_command, add_rules, one_of

_NAME = re.compile(r"[a-z0-9-]+/[a-z0-9-]+")


def add(subcommands: Subcommands) -> None:
    """Add the subcommand."""
    parser = add_command(
        subcommands,
        "rule",
        "Write a commented template of a new rule, to be filled in and proved.",
        "The template is a rule that can be proved as it stands; what follows is to change its "
        "words, its condition and its cases. The name is words, topic and rule: "
        "defrost-water/free-volume.",
        """
        tundish rule new snow/above-ground --in our-rules/
        tundish prove snow/above-ground --rules our-rules/
        """,
    )
    parser.add_argument("action", metavar="new", type=one_of(("new",)), help="write one anew")
    parser.add_argument("name", metavar="TOPIC/NAME", help="the name of the rule, in small words")
    parser.add_argument(
        "--in",
        dest="folder",
        metavar="FOLDER",
        default=".",
        help="the folder of rules to write it in; this folder if left out",
    )
    parser.add_argument(
        "--fact",
        metavar="PATH",
        default="placement.height_below",
        help="the fact that the condition is to look at; placement.height_below if left out",
    )
    add_rules(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the template; return what the command ends with."""
    import datetime

    from tundish.command.files import put_in_file
    from tundish.reading.nearest import did_you_mean
    from tundish.report.rule_template import rule_template
    from tundish.rulebook.rulebook import Rulebook

    name, fact, parser = arguments.name, arguments.fact, arguments.parser
    if not _NAME.fullmatch(name):
        parser.error(f"'{name}' is no name: write small words, such as snow/above-ground.")
    rulebook = Rulebook.load(*arguments.rules)
    if name in rulebook.rules:
        parser.error(f"There is a rule '{name}' already; see rules/README.md on replacing it.")
    found = rulebook.asked(fact)
    text = "" if found is None else rule_template(found, datetime.date.today())
    if not text:
        paths = [path for path, one in rulebook.scope.facts.items() if one.kind.name == "quantity"]
        parser.error(f"'{fact}' is no figure outside a list.{did_you_mean(fact, paths)}")
    path = Path(arguments.folder) / f"{name}.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    return put_in_file(path, text, f" Next: tundish prove {name} --rules {arguments.folder}")
