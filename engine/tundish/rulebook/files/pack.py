"""Packs: a folder of rules, quantities, tables and sources, read whole."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from operator import itemgetter
from pathlib import Path
from typing import TypeVar

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.regions import read_region
from tundish.rulebook.files.misplaced import (
    of_no_topic,
    other_contents,
    too_deep,
    unread,
    wrongly_named,
)
from tundish.rulebook.model.rule_file import RuleFile
from tundish.text.problem import Problem, Problems, Refused, refusal
from tundish.text.toml_file import content_of, toml_of

_From = TypeVar("_From")
_To = TypeVar("_To")

NATIONAL = "national"
"""The folder of a pack that holds packs of single countries."""

FORMS = "forms"
"""The folder of the built-in pack that says what first files, surveys and interviews ask for."""

_FORM_FILES = ("starters.toml", "unit-sheet.toml", "walk.toml")

FACTS = "facts.toml"
"""The file in which a pack declares facts."""

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
        constraints: Files of constraints, each with its topic.
        tables: Table files by table name.
        sources: The bibliography, if it has one.
        facts: The job facts it declares, if it has some.
        sizes: Its practical sizes, if it has some.
        about: Its pack.toml, if it has one.
        digest: SHA-256 over the names and contents of all its files.
        region: The ISO 3166 code its rules hold in, for a national pack; else empty.
    """

    folder: Path
    rules: dict[str, RuleFile] = field(default_factory=dict)
    quantities: list[tuple[str, RuleFile]] = field(default_factory=list)
    provisions: list[tuple[str, RuleFile]] = field(default_factory=list)
    constraints: list[tuple[str, RuleFile]] = field(default_factory=list)
    tables: dict[str, RuleFile] = field(default_factory=dict)
    sources: RuleFile | None = None
    facts: RuleFile | None = None
    sizes: RuleFile | None = None
    about: RuleFile | None = None
    digest: str = ""
    region: str = ""


@dataclass(frozen=True, slots=True)
class PackFiles:
    """The files of a pack as bytes, before anything is made of them.

    Attributes:
        folder: Where they are.
        region: The ISO 3166 code its rules hold in, for a national pack; else empty.
        contents: What they hold, by path from the folder, in an order that does not depend on the
            file system.
        problems: What is wrong with files that could not be read.
    """

    folder: Path
    region: str
    contents: Mapping[str, bytes]
    problems: tuple[Problem, ...] = ()

    def path(self, inside: str) -> str:
        """Return the name that problems show for a file."""
        return os.path.join(str(self.folder), *inside.split("/"))

    def source(self, inside: str) -> RuleFile:
        """Return one of the files, read.

        Raises:
            Refused: If it is no TOML.
        """
        return RuleFile.of(toml_of(self.contents[inside], self.path(inside)))


def files_of(folder: Path) -> list[PackFiles]:
    """Read the files of a pack, and those of the national packs in it: ``national/GB`` and so on.

    Args:
        folder: The pack's folder.

    Raises:
        Refused: If there is no such folder, or a national pack is not named by an ISO 3166 code.
    """
    whole = _files_of(folder, "")
    packs = list[PackFiles]()
    national = folder / NATIONAL
    for inner in sorted(national.iterdir()) if national.is_dir() else ():
        if inner.is_dir() and not inner.name.startswith("."):
            if _leads_out(inner, folder):
                raise refusal(str(inner), _LEADS_OUT)
            packs.append(_files_of(inner, _region(inner)))
    # A pack of countries alone needs nothing international.
    is_empty = not whole.contents and not whole.problems
    return packs if packs and is_empty else [whole, *packs]


def _region(folder: Path) -> str:
    if not _CODE.fullmatch(folder.name):
        raise refusal(
            str(folder), "A national pack is named by its ISO 3166 code, two capitals such as 'GB'."
        )
    try:
        return read_region(folder.name)
    except ValueError as error:
        raise refusal(str(folder), str(error)) from None


def _files_of(folder: Path, region: str) -> PackFiles:
    if not folder.is_dir():
        raise refusal(str(folder), "There is no such folder of rules.")
    contents, problems, place = dict[str, bytes](), Problems(), str(folder)
    whole = folder.resolve()
    for parts, entry in sorted(_named(place, ()), key=itemgetter(0)):
        try:
            if not entry.name.endswith(".toml"):
                raise refusal(entry.path, unread(entry.name))
            if entry.is_symlink() and _leads_out(Path(entry.path), whole):
                raise refusal(entry.path, _LEADS_OUT)
            contents["/".join(parts)] = content_of(entry.path)
        except Refused as refused:
            problems.extend(refused.problems)
    return PackFiles(folder, region, contents, tuple(problems))


def _named(
    place: str, above: tuple[str, ...]
) -> Iterator[tuple[tuple[str, ...], os.DirEntry[str]]]:
    """Give the files in a folder that are, or look like, TOML, with their steps from the pack."""
    try:
        entries = list(os.scandir(place))
    except OSError as error:
        raise refusal(place, f"The folder cannot be opened: {error.strerror}.") from None
    for entry in entries:
        name = entry.name
        if name.startswith(".") or (name == NATIONAL and not above):
            continue
        # A folder of such a name is told to be none, rather than passed over.
        if name.endswith(".toml") or (unread(name) and entry.is_file()):
            yield (*above, name), entry
        if entry.is_dir(follow_symlinks=False):
            yield from _named(entry.path, (*above, name))


def read_pack(files: PackFiles) -> Pack:
    """Read all TOML files of a pack.

    Args:
        files: The files.

    Returns:
        The pack.

    Raises:
        Refused: If it holds no rules, or a file is not to be read or no TOML; with every problem
            found.
    """
    pack, problems = Pack(files.folder, region=files.region), Problems(files.problems)
    digest = hashlib.sha256()
    for inside in files.contents:
        try:
            source = files.source(inside)
        except Refused as refused:
            problems.extend(refused.problems)
            continue
        digest.update(f"{inside}\0{source.file.text}\0".encode())
        _sort_in(pack, inside, source, problems)
    overrides = pack.quantities if pack.region else []
    forms = any(inside.startswith(f"{FORMS}/") for inside in files.contents)
    about = None if forms else pack.about
    if not problems and not (pack.rules or about or pack.facts or overrides):
        sentence = _FORMS_ALONE if forms else "This folder holds no rules."
        problems.append(Problem(str(files.folder), None, None, sentence))
    if problems:
        raise Refused(problems)
    pack.digest = digest.hexdigest()
    return pack


_FORMS_ALONE = (
    "This folder holds forms and no rules. Forms are those of the built-in rules, so nothing here "
    "would be read."
)
_LEADS_OUT = "This is a link that leads out of the folder of rules; put the file itself there."


def _leads_out(path: Path, folder: Path) -> bool:
    """Say whether a file or folder of a pack is really somewhere else."""
    try:
        return not path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):  # links that lead to each other
        return True


def _sort_in(pack: Pack, inside: str, source: RuleFile, problems: list[Problem]) -> None:
    match tuple(inside.split("/")):
        case ("sources.toml",):
            pack.sources = source
        case (str(name),) if name == FACTS:
            pack.facts = source
        case ("sizes.toml",):
            pack.sizes = source
        case ("pack.toml",):
            pack.about = source
        case (str(name),):
            problems.append(_whole_file(source, of_no_topic(name)))
        case (str(first), str(name)) if first == FORMS and name in _FORM_FILES:
            pass  # what forms ask for, and in which order: no rule rests on it
        case (first, name) if not (_NAME.fullmatch(first) and _NAME.fullmatch(name[:-5])):
            problems.append(_whole_file(source, wrongly_named(first, name)))
        case steps if sentence := other_contents(steps, source.file.data):
            problems.append(_whole_file(source, sentence))
        case ("tables", name):
            pack.tables[name.removesuffix(".toml")] = source
        case (topic, "quantities.toml") | (topic, "quantities", _):
            pack.quantities.append((topic, source))
        case (topic, "provisions.toml") | (topic, "provisions", _):
            pack.provisions.append((topic, source))
        case (topic, "constraints.toml") | (topic, "constraints", _):
            pack.constraints.append((topic, source))
        case (topic, name):
            pack.rules[f"{topic}/{name.removesuffix('.toml')}"] = source
        case steps:
            problems.append(_whole_file(source, too_deep(steps)))


def check_forms(packs: Sequence[PackFiles]) -> None:
    """Refuse forms in packs that lie on others: only those of the built-in pack are read.

    Raises:
        Refused: If there are any.
    """
    sentence = "Forms are those of the built-in rules; a pack on top of them has none of its own."
    problems = [
        Problem(pack.path(inside), None, None, sentence)
        for pack in packs[1:]
        for inside in pack.contents
        if inside.startswith(f"{FORMS}/")
    ]
    if problems:
        raise Refused(problems)


def _whole_file(source: RuleFile, sentence: str) -> Problem:
    return Problem(source.file.name, None, None, sentence)


def all_read(read: Callable[[_From], _To], items: Iterable[_From]) -> list[_To]:
    """Read several things, and report the problems of all of them together.

    Raises:
        Refused: If one is refused.
    """
    results, problems = list[_To](), list[Problem]()
    for item in items:
        try:
            results.append(read(item))
        except Refused as refused:
            problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    return results
