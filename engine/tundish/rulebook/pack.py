"""Packs: a folder of rules, quantities, tables and sources, read whole."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path

from tundish.reading.bounds import LARGEST_PACK, MOST_FILES
from tundish.reading.problem import Problem, Problems, Refused, refusal
from tundish.reading.toml_file import read_toml
from tundish.rulebook.reading import RuleSource

NATIONAL = "national"
"""The folder of a pack that holds packs of single countries."""

_CODE = re.compile(r"[A-Z]{2}")
# Of two names that differ by case alone, or look alike, one would pass for the other.
_NAME = re.compile(r"[a-z0-9][a-z0-9_-]*")


@dataclass(slots=True)
class Pack:
    """The files of a pack, sorted by what they hold.

    Attributes:
        folder: Where it is.
        rules: Rule files by rule name (``topic/rule``).
        quantities: Quantity files, each with its topic; a topic may have several.
        provisions: Files of parts to be ordered, each with its topic.
        tables: Table files by table name.
        sources: The bibliography, if it has one.
        facts: The job facts it declares, if it has some.
        sizes: Its practical sizes, if it has some.
        about: Its pack.toml, if it has one.
        digest: SHA-256 over the names and contents of all its files.
        region: The ISO 3166 code its rules hold in, for a national pack; else empty.
    """

    folder: Path
    rules: dict[str, RuleSource] = field(default_factory=dict)
    quantities: list[tuple[str, RuleSource]] = field(default_factory=list)
    provisions: list[tuple[str, RuleSource]] = field(default_factory=list)
    tables: dict[str, RuleSource] = field(default_factory=dict)
    sources: RuleSource | None = None
    facts: RuleSource | None = None
    sizes: RuleSource | None = None
    about: RuleSource | None = None
    digest: str = ""
    region: str = ""


def read_packs(folder: Path) -> Iterator[Pack]:
    """Read a pack, and then the national packs in it: ``national/GB`` and so on.

    Raises:
        Refused: As `read_pack`, or if a national pack is not named by an ISO 3166 code.
    """
    yield read_pack(folder)
    national = folder / NATIONAL
    for inner in sorted(national.iterdir()) if national.is_dir() else ():
        if inner.is_dir() and not inner.name.startswith("."):
            if _leads_out(inner, folder):
                raise refusal(str(inner), _LEADS_OUT)
            yield read_pack(inner, _region(inner))


def _region(folder: Path) -> str:
    if _CODE.fullmatch(folder.name):
        return folder.name
    raise refusal(
        str(folder), "A national pack is named by its ISO 3166 code, two capitals such as 'GB'."
    )


def read_pack(folder: Path, region: str = "") -> Pack:
    """Read all TOML files of a pack, without the national packs in it.

    Args:
        folder: The pack's folder.
        region: The ISO 3166 code its rules hold in, for a national pack.

    Returns:
        The pack.

    Raises:
        Refused: If there is no such folder, it holds no rules, or files cannot be read; with
            every problem found.
    """
    if not folder.is_dir():
        raise refusal(str(folder), "There is no such folder of rules.")
    pack, problems, digest = Pack(folder, region=region), Problems(), hashlib.sha256()
    size = 0
    for path in _files(folder):
        try:
            if _leads_out(path, folder):
                raise refusal(str(path), _LEADS_OUT)
            file = read_toml(path)
        except Refused as refused:
            problems.extend(refused.problems)
            continue
        size += len(file.text)
        if size > LARGEST_PACK:
            raise refusal(str(folder), f"This pack holds more than {LARGEST_PACK} bytes.")
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
    found = list(islice(folder.rglob("*.toml"), MOST_FILES + 1))
    if len(found) > MOST_FILES:
        raise refusal(str(folder), f"This folder holds more than {MOST_FILES} TOML files.")
    for path in sorted(found):
        parts = path.relative_to(folder).parts
        if parts[0] != NATIONAL and not any(part.startswith(".") for part in parts):
            yield path


_LEADS_OUT = "This is a link that leads out of the folder of rules; put the file itself there."


def _leads_out(path: Path, folder: Path) -> bool:
    """Say whether a file or folder of a pack is really somewhere else."""
    try:
        return not path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):  # links that lead to each other
        return True


def _sort_in(pack: Pack, path: Path, source: RuleSource, problems: list[Problem]) -> None:
    parts = path.relative_to(pack.folder).parts
    match parts:
        case ("sources.toml",):
            pack.sources = source
        case ("facts.toml",):
            pack.facts = source
        case ("sizes.toml",):
            pack.sizes = source
        case ("pack.toml",):
            pack.about = source
        case (first, name) if not (_NAME.fullmatch(first) and _NAME.fullmatch(name[:-5])):
            sentence = "Folders and files of rules are named in small letters, digits and hyphens."
            problems.append(Problem(source.file.name, None, None, sentence))
        case ("tables", name):
            pack.tables[name.removesuffix(".toml")] = source
        case (topic, "quantities.toml") | (topic, "quantities", _):
            pack.quantities.append((topic, source))
        case (topic, "provisions.toml") | (topic, "provisions", _):
            pack.provisions.append((topic, source))
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
