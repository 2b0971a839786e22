"""`tundish rule new`: a commented template of a rule."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from tundish.command.parser import Subcommands, add_command, add_rules, one_of
from tundish.text.quoted import escaped


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
        tundish rule new snow/above-ground
        tundish rule new pipes/thick-enough --fact water.run.insulation.thickness --in our-rules/
        tundish prove snow/above-ground --rules our-rules/
        """,
    )
    parser.add_argument("action", metavar="new", type=one_of(("new",)), help="write one anew")
    parser.add_argument("name", metavar="TOPIC/NAME", help="the name of the rule, in small words")
    parser.add_argument(
        "--in",
        dest="folder",
        metavar="FOLDER",
        default="our-rules",
        help="the folder of rules to write it in; our-rules if left out",
    )
    parser.add_argument(
        "--fact",
        metavar="PATH",
        default="placement.height_below",
        help="the fact, group or list that the condition is to look at, as 'tundish facts' names "
        "it; placement.height_below if left out",
    )
    add_rules(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Write the template; return what the command ends with."""
    import datetime

    from tundish.command.output import put_in_file, put_schema_beside
    from tundish.report.forms.new_rule import new_rule
    from tundish.report.tell.command_text import typed

    name, folder, today = arguments.name, Path(arguments.folder), datetime.date.today()
    try:
        text = new_rule(name, arguments.fact, folder, arguments.rules, today)
    except ValueError as error:
        arguments.parser.error(str(error))
    path = folder / f"{name}.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    code = put_in_file(path, text)
    if not code:
        put_schema_beside("rule", folder)
        packs = dict.fromkeys((*arguments.rules, arguments.folder))
        sys.stderr.write(f"Next: {escaped(typed('prove', name, rules=packs))}\n")
    return code
