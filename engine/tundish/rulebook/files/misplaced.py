"""Files of a pack that are not read as they are named or where they stand, and what to do."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from tundish.text.nearest import nearest

WHOLE_PACK = ("sources", "facts", "sizes", "pack")
"""Names of the files, without their ending, that a pack has one of, at its top."""

OF_TOPIC = ("quantities", "provisions", "constraints")
"""Names of the files, without their ending, in which a topic has no rules."""

KEPT_FOLDERS = ("tables", "national", "forms", "schemas")
"""Folders of a pack that are no topics."""

# What an editor keeps beside a file, such as base.toml~ or base.toml.bak, is nobody's rule.
_MEANT_AS_TOML = (
    *(f".toml.{ending}" for ending in ("txt", "text", "rtf", "doc", "docx", "odt")),
    *(".toml", ".tml", ".tom", ".tmol", ".tolm", ".otml", ".tomll", ".tooml"),
)


def unread(name: str) -> str:
    """Say that a file looks like one of rules and is not read; nothing of all other files.

    Args:
        name: The file's name, without its folder, which does not end with ".toml".

    Example:
        >>> unread("base.toml.txt")
        "This file is not read, as its name does not end with '.toml': rename it to 'base.toml'."
    """
    lower = name.lower()
    ending = next((ending for ending in _MEANT_AS_TOML if lower.endswith(ending)), "")
    stem = name[: len(name) - len(ending)]
    if not ending or not stem or stem.startswith("."):
        return ""
    return (
        f"This file is not read, as its name does not end with '.toml': rename it to '{stem}.toml'."
    )


def wrongly_named(folder: str, name: str) -> str:
    """Say how a folder and a file of rules are named."""
    better = "/".join(_small(part) for part in (folder, name.removesuffix(".toml")))
    sentence = "Folders and files of rules are named in small letters, digits and hyphens"
    return f"{sentence}: '{better}.toml'."


def _small(name: str) -> str:
    words = re.findall(r"[a-z0-9_]+", name.lower().removesuffix(".toml"))
    return "-".join(words) or "name"


def of_no_topic(name: str) -> str:
    """Say where a file at the top of a pack is read.

    Args:
        name: The file's name.
    """
    stem = name.removesuffix(".toml")
    if stem in OF_TOPIC:
        return f"This file stands in the folder of its topic: TOPIC/{name}."
    meant = nearest(stem, WHOLE_PACK, most=1)
    hint = f" Did you mean '{meant[0]}.toml'?" if meant else ""
    return f"A rule file stands one folder deep: TOPIC/{name}.{hint}"


def too_deep(steps: tuple[str, ...]) -> str:
    """Say where a file that stands too deep in a pack is read.

    Args:
        steps: Its folders and its name.
    """
    return f"A rule file stands one folder deep: move it to '{steps[0]}/{steps[-1]}'."


def other_contents(steps: tuple[str, ...], data: Mapping[str, Any]) -> str:
    """Say that a file holds something else than is read where it stands; or nothing.

    Args:
        steps: Its folder, perhaps one in that, and its name.
        data: What it holds.
    """
    if len(steps) > 3 or (len(steps) == 3 and steps[1] not in OF_TOPIC):
        return ""
    topic, name = steps[0], steps[-1]
    reads_rules = topic != "tables" and len(steps) == 2 and name[:-5] not in OF_TOPIC
    if isinstance(data.get("requires"), str):
        if reads_rules:
            return ""
        place = "TOPIC" if topic == "tables" else topic
        file = "RULE.toml" if name[:-5] in OF_TOPIC else name
        return f"This is a rule: move it to '{place}/{file}'."
    if not reads_rules:
        return ""
    if "rows" in data and "gives" in data:
        return f"This is a table: move it to 'tables/{name}'."
    tables = list(data.values())
    if not tables or not all(isinstance(table, dict) for table in tables):
        return ""
    for key, (noun, place) in _TOLD_BY.items():
        if all(key in table for table in tables):
            return f"This holds {noun}: move it to '{place.format(topic=topic)}'."
    return ""


_TOLD_BY = {
    # a key that only such a table has: what it is, and where it stands
    "formula": ("quantities", "{topic}/quantities.toml"),
    "requires": ("constraints", "{topic}/constraints.toml"),
    "needed": ("parts of the order list", "{topic}/provisions.toml"),
    "basis": ("sources", "sources.toml"),
    "question": ("facts", "facts.toml"),
    "facts": ("practical sizes", "sizes.toml"),
}
