"""Packs: a folder of rules, quantities, tables and sources, read whole."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from tundish.reading.problem import Problem, Refused, refusal
from tundish.reading.toml_file import read_toml
from tundish.rulebook.reading import RuleSource


@dataclass(slots=True)
class Pack:
    """The files of a pack, sorted by what they hold.

    Attributes:
        folder: Where it is.
        rules: Rule files by rule name (``topic/rule``).
        quantities: Quantity files by topic.
        tables: Table files by table name.
        sources: The bibliography, if it has one.
        about: Its pack.toml, if it has one.
        digest: SHA-256 over the names and contents of all its files.
    """

    folder: Path
    rules: dict[str, RuleSource] = field(default_factory=dict)
    quantities: dict[str, RuleSource] = field(default_factory=dict)
    tables: dict[str, RuleSource] = field(default_factory=dict)
    sources: RuleSource | None = None
    about: RuleSource | None = None
    digest: str = ""


def read_pack(folder: Path) -> Pack:
    """Read all TOML files of a pack.

    Args:
        folder: The pack's folder.

    Returns:
        The pack.

    Raises:
        Refused: If there is no such folder, it holds no rules, or files cannot be read; with
            every problem found.
    """
    if not folder.is_dir():
        raise refusal(str(folder), "There is no such folder of rules.")
    pack, problems, digest = Pack(folder), list[Problem](), hashlib.sha256()
    for path in _files(folder):
        try:
            file = read_toml(path)
        except Refused as refused:
            problems.extend(refused.problems)
            continue
        digest.update(f"{path.relative_to(folder).as_posix()}\0{file.text}\0".encode())
        _sort_in(pack, path, RuleSource.of(file), problems)
    if not problems and not (pack.rules or pack.about):
        problems.append(Problem(str(folder), None, None, "This folder holds no rules."))
    if problems:
        raise Refused(problems)
    pack.digest = digest.hexdigest()
    return pack


def _files(folder: Path) -> Iterator[Path]:
    """Give the pack's TOML files in an order that does not depend on the file system."""
    for path in sorted(folder.rglob("*.toml")):
        if not any(part.startswith(".") for part in path.relative_to(folder).parts):
            yield path


def _sort_in(pack: Pack, path: Path, source: RuleSource, problems: list[Problem]) -> None:
    parts = path.relative_to(pack.folder).parts
    match parts:
        case ("sources.toml",):
            pack.sources = source
        case ("pack.toml",):
            pack.about = source
        case ("tables", name):
            pack.tables[name.removesuffix(".toml")] = source
        case (topic, "quantities.toml"):
            pack.quantities[topic] = source
        case (topic, name):
            pack.rules[f"{topic}/{name.removesuffix('.toml')}"] = source
        case _:
            problems.append(
                Problem(
                    source.file.name,
                    None,
                    None,
                    "A rule file stands one folder deep: TOPIC/RULE.toml.",
                )
            )
