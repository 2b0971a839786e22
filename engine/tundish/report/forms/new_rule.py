"""A new rule: the checks of its name, its folder and its fact before a template is written."""

from __future__ import annotations

import datetime
import re
from collections.abc import Sequence
from pathlib import Path

from tundish.job.model.paths import without_positions
from tundish.job.model.schema import Asked, Record
from tundish.report.forms.rule_template import rule_template
from tundish.report.schemas.schema_files import schema_line
from tundish.rulebook.files.misplaced import KEPT_FOLDERS, OF_TOPIC
from tundish.rulebook.files.pack import PackFiles, files_of, read_pack
from tundish.rulebook.rulebook import Rulebook
from tundish.text.nearest import did_you_mean
from tundish.text.problem import Refused
from tundish.text.quoted import quoted

_NAME = re.compile(r"[a-z0-9-]+/[a-z0-9-]+")


def new_rule(name: str, fact: str, folder: Path, packs: Sequence[str], today: datetime.date) -> str:
    """Write the text of a new rule file.

    Args:
        name: The name of the rule, topic and rule.
        fact: Path of the fact, group or list that it is to look at.
        folder: The folder of rules that it will lie in.
        packs: Folders of rules on top of the built-in ones.
        today: The day of its first review.

    Raises:
        ValueError: If the rule cannot be written so; the text says why and what to do.
        Refused: If the rules cannot be read.
    """
    _check_name(name)
    _check_folder(name, folder)
    # The folder to write in is read too if it declares facts.
    own = [str(folder)] if (folder / "facts.toml").is_file() else []
    rulebook = Rulebook.load(*dict.fromkeys((*packs, *own)))
    if name in rulebook.rules:
        raise ValueError(f"There is a rule '{name}' already; see rules/README.md on replacing it.")
    path = without_positions(fact.strip())
    asked = rulebook.asked(path) if path else None
    text = "" if asked is None else rule_template(asked, rulebook, today)
    if not text:
        raise ValueError(_why_not(path, asked, rulebook))
    return f"{schema_line('rule', folder / f'{name}.toml', folder)}\n{text}"


def _check_name(name: str) -> None:
    """Refuse a name whose file would be read as something else than a rule."""
    if not _NAME.fullmatch(name):
        raise ValueError(f"'{name}' is no name: write small words, such as snow/above-ground.")
    topic, _, rule = name.partition("/")
    if topic in KEPT_FOLDERS:
        raise ValueError(f"'{topic}' is a folder of another sort; name another topic.")
    if rule in OF_TOPIC:
        raise ValueError(f"'{rule}.toml' holds the {rule} of a topic; name the rule otherwise.")


def _check_folder(name: str, folder: Path) -> None:
    """Refuse a folder in which the rule could not be proved, as files of another sort are there."""
    if not folder.is_dir():
        return
    try:
        for files in files_of(folder):
            # Only the names of files matter here; their contents are checked when they are proved.
            names = dict.fromkeys((*files.contents, f"{name}.toml"), b"")
            read_pack(PackFiles(folder, files.region, names))
    except Refused as refused:
        file = refused.problems[0].file
        raise ValueError(
            f"'{file}' cannot stand in a folder of rules. "
            "Name a folder for rules alone, such as --in more-rules."
        ) from None


def _why_not(path: str, asked: Asked | None, rulebook: Rulebook) -> str:
    """Return why no rule can ask for what was named, and what to name instead."""
    if asked is None:
        paths = list(rulebook.scope.facts)
        ends = [other for other in paths if other.endswith(f".{path}")]
        hint = f" Did you mean '{ends[0]}'?" if ends else did_you_mean(path, paths)
        return f"A job has no fact {quoted(path)}.{hint} 'tundish facts WORD' finds facts."
    if isinstance(asked, Record):
        inner = next(iter(asked.fields.values())).path
        return f"'{path}' is a table that every job has; name a fact in it, such as {inner}."
    return f"No rule can ask for '{path}': nothing that a case could state would breach it."
