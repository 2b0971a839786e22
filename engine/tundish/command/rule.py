"""`tundish rule new`: a commented template of a rule."""

from __future__ import annotations

import argparse
import re
import shlex
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from tundish.command.parser import Subcommands, add_command, add_rules, one_of
from tundish.text.quoted import escaped

if TYPE_CHECKING:
    from tundish.job.model.schema import Asked
    from tundish.rulebook.rulebook import Rulebook

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

    from tundish.command.output import put_in_file
    from tundish.command.schema_files import schema_line, write_schema
    from tundish.job.model.paths import without_positions
    from tundish.report.forms.rule_template import rule_template
    from tundish.rulebook.rulebook import Rulebook

    name, parser = arguments.name, arguments.parser
    fact = without_positions(arguments.fact.strip())
    if not _NAME.fullmatch(name):
        parser.error(f"'{name}' is no name: write small words, such as snow/above-ground.")
    _check_name(arguments)
    _check_folder(arguments)
    rulebook = Rulebook.load(*_folders(arguments))
    if name in rulebook.rules:
        parser.error(f"There is a rule '{name}' already; see rules/README.md on replacing it.")
    asked = rulebook.asked(fact) if fact else None
    text = "" if asked is None else rule_template(asked, rulebook, datetime.date.today())
    if not text:
        parser.error(_why_not(fact, asked, rulebook))
    folder = Path(arguments.folder)
    path = folder / f"{name}.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    text = f"{schema_line('rule', path, folder)}\n{text}"
    code = put_in_file(path, text)
    if not code:
        write_schema("rule", folder)
        sys.stderr.write(f"Next: {escaped(_next(name, arguments))}\n")
    return code


def _folders(arguments: argparse.Namespace) -> list[str]:
    """Return the folders of rules to read, with the one to write in if it declares facts."""
    folder = arguments.folder
    own = [folder] if (Path(folder) / "facts.toml").is_file() else []
    return list(dict.fromkeys((*arguments.rules, *own)))


def _check_name(arguments: argparse.Namespace) -> None:
    """Refuse a name whose file would be read as something else than a rule."""
    from tundish.rulebook.files.misplaced import KEPT_FOLDERS, OF_TOPIC

    topic, _, name = arguments.name.partition("/")
    if topic in KEPT_FOLDERS:
        arguments.parser.error(f"'{topic}' is a folder of another sort; name another topic.")
    if name in OF_TOPIC:
        arguments.parser.error(
            f"'{name}.toml' holds the {name} of a topic; name the rule otherwise."
        )


def _check_folder(arguments: argparse.Namespace) -> None:
    """Refuse a folder in which the rule could not be proved, as files of another sort are there."""
    from tundish.rulebook.files.pack import PackFiles, files_of, read_pack
    from tundish.text.problem import Refused

    folder = Path(arguments.folder)
    if not folder.is_dir():
        return
    try:
        for files in files_of(folder):
            # Names alone say what belongs; what a file says wrongly is told when it is proved.
            names = dict.fromkeys((*files.contents, f"{arguments.name}.toml"), b"")
            read_pack(PackFiles(folder, files.region, names))
    except Refused as refused:
        name = refused.problems[0].file
        arguments.parser.error(
            f"'{name}' cannot stand in a folder of rules. "
            "Name a folder for rules alone, such as --in more-rules."
        )


def _next(name: str, arguments: argparse.Namespace) -> str:
    """Return the command that proves the rule, as it can be typed."""
    folders = dict.fromkeys((*arguments.rules, arguments.folder))
    rules = " ".join(f"--rules {shlex.quote(folder)}" for folder in folders)
    return f"tundish prove {name} {rules}"


def _why_not(path: str, asked: Asked | None, rulebook: Rulebook) -> str:
    """Return why no rule can ask for what was named, and what to name instead."""
    from tundish.job.model.schema import Record
    from tundish.text.nearest import did_you_mean
    from tundish.text.quoted import quoted

    if asked is None:
        paths = list(rulebook.scope.facts)
        ends = [each for each in paths if each.endswith(f".{path}")]
        hint = f" Did you mean '{ends[0]}'?" if ends else did_you_mean(path, paths)
        return f"A job has no fact {quoted(path)}.{hint} 'tundish facts WORD' finds facts."
    if isinstance(asked, Record):
        inner = next(iter(asked.fields.values())).path
        return f"'{path}' is a table that every job has; name a fact in it, such as {inner}."
    return f"No rule can ask for '{path}': nothing that a case could state would breach it."
