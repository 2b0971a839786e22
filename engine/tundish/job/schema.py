"""The schema of a job: every fact that can be asked for, as rules and questions know it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import field
from functools import cache
from typing import Literal, TypeAlias, cast

from tundish.groundwork.dataclass import dataclass
from tundish.job.field_types import ItemsType, MoreType, OrNoneType
from tundish.job.kinds import (
    ChoiceKind,
    DateKind,
    Kind,
    NumberKind,
    QuantityKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.member import Member
from tundish.job.part import Part, Who
from tundish.job.paths import without_positions
from tundish.job.pipe import MATERIALS, PipeKind
from tundish.measure.dimension import DIMENSIONS, Dimension

FactKind: TypeAlias = Literal["quantity", "number", "truth", "text", "date", "texts"]


@dataclass(frozen=True, slots=True)
class Asked:
    """What a surveyor needs to learn something.

    Args:
        path: Dotted path from the root of the job, lists without positions.
        label: A short noun phrase for the middle of a sentence.
        question: The question to ask.
        how: How to find it out.
        who: Who can be asked.
    """

    path: str
    label: str
    question: str
    how: str
    who: Who


@dataclass(frozen=True, slots=True)
class Fact(Asked):
    """One fact.

    Args:
        kind: What a rule meets: a quantity, number, truth, text, date or list of texts.
        dimension: Dimension of a quantity; that of a plain number for a number; else None.
        point: Whether it is a point on a scale, such as a temperature or a sound level.
        choices: The only texts there are; empty when any will do.
        example: How it could be written.
    """

    kind: FactKind
    dimension: Dimension | None = None
    point: bool = False
    choices: tuple[str, ...] = ()
    example: str = ""


@dataclass(frozen=True, slots=True)
class Record(Asked):
    """Facts that stand together.

    Args:
        fields: What it holds, by name.
        can_be_absent: Whether "none" may stand for it.
        written_as: Facts in it that a file has under another key, by their names.
    """

    fields: dict[str, Entry]
    can_be_absent: bool = False
    written_as: Mapping[str, str] = field(default_factory=dict)

    def find(self, path: str) -> Entry | None:
        """Return what stands at a path below this record.

        Args:
            path: A dotted path; list positions are passed over.

        Returns:
            The fact, record or list; None if there is none of that path.
        """
        found: Entry = self
        for name in without_positions(path).split("."):
            record = found.item if isinstance(found, Items) else found
            if not isinstance(record, Record) or name not in record.fields:
                return None
            found = record.fields[name]
        return found

    def facts(self) -> Iterator[Fact]:
        """Yield every fact below this record, those of list items too."""
        for entry in self.fields.values():
            if isinstance(entry, Fact):
                yield entry
            else:
                yield from (entry.item if isinstance(entry, Items) else entry).facts()


@dataclass(frozen=True, slots=True)
class Items(Asked):
    """A list of records.

    Args:
        item: What one item holds; its label is the word for one.
    """

    item: Record


Entry: TypeAlias = Fact | Record | Items


def is_pipe_size(entry: Entry | None) -> bool:
    """Say whether an entry is the size of a pipe, whose measures a file has in one text."""
    return isinstance(entry, Record) and entry.fields.keys() >= {"outside_diameter", "wall", "size"}


def written_path(path: str) -> str:
    """Return the path of a fact as a file has it: the measures of a pipe stand in one text.

    What else is written under another key, such as the open sky above a unit, is there too.

    Args:
        path: A dotted path, with list positions or without.

    Example:
        >>> written_path("water.run[2].pipe.wall")
        'water.run[2].pipe'
    """
    outer, _, name = path.rpartition(".")
    entry = job_schema().find(outer) if outer else None
    if is_pipe_size(entry):
        return outer
    record = entry.item if isinstance(entry, Items) else entry
    if isinstance(record, Record) and name in record.written_as:
        return f"{outer}.{record.written_as[name]}"
    return path


@cache
def job_schema() -> Record:
    """Return the schema of a whole job.

    Returns:
        A record whose path is empty.
    """
    from tundish.job.job import Job

    return Record("", "job", "What job is it?", "", "customer", _fields(Job, ""))


def words(name: str) -> str:
    """Return the words of a field or class name.

    Args:
        name: Such as `snow_depth` or `AntifreezeValve`.

    Returns:
        The words, in small letters.

    Example:
        >>> words("AntifreezeValve")
        'antifreeze valve'
    """
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name).replace("_", " ").lower()


def _fields(part: type[Part], path: str) -> dict[str, Entry]:
    prefix = f"{path}." if path else ""
    return {
        name: _entry(member, f"{prefix}{name}", part)
        for name, member in part.members.items()
        if not isinstance(member.held, MoreType)
    }


def _entry(member: Member, path: str, part: type[Part]) -> Entry:
    asking = member.asking
    asked = (
        path,
        asking.label or words(member.name),
        asking.question,
        asking.how or part.found_in,
        cast("Who", asking.who or part.answered_by),
    )
    if member.kind is not None:
        return as_fact(member.kind, asked)
    inner = cast("type[Part]", member.part)
    fields = _fields(inner, path)
    if isinstance(member.held, ItemsType):
        word = (path, words(inner.__name__), *asked[2:])
        return Items(*asked, Record(*word, fields, False, inner.written_as))
    return Record(*asked, fields, isinstance(member.held, OrNoneType), inner.written_as)


AskedFor: TypeAlias = tuple[str, str, str, str, Who]
"""Path, label, question, how to find out and who can be asked."""


def as_fact(kind: Kind, asked: AskedFor) -> Entry:
    """Return the fact of a kind; a pipe size is a record, as a rule asks for its measures."""
    number = DIMENSIONS["number"]
    match kind:
        case PipeKind():
            return Record(*asked, _pipe_fields(asked))
        case QuantityKind():
            return Fact(*asked, "quantity", kind.dimension, kind.point, (), kind.example)
        case WholeKind():
            options = tuple(str(option) for option in kind.options)
            return Fact(*asked, "number", number, False, (), options[0] if options else "2")
        case NumberKind():
            return Fact(*asked, "number", number, False, (), "1.0")
        case TruthKind():
            return Fact(*asked, "truth", example="true")
        case DateKind():
            return Fact(*asked, "date", example="2026-11-02")
        case TextsKind():
            example = f'["{kind.choices[0]}"]' if kind.choices else '["…"]'
            return Fact(*asked, "texts", None, False, kind.choices, example)
        case ChoiceKind():
            return Fact(*asked, "text", None, False, kind.choices, kind.choices[0])
        case _:
            return Fact(*asked, "text")


def _pipe_fields(asked: AskedFor) -> dict[str, Entry]:
    path, label, question, how, who = asked
    length = DIMENSIONS["length"]

    def field(name: str) -> AskedFor:
        return (f"{path}.{name}", f"{words(name)} of the {label}", question, how, who)

    return {
        "name": Fact(*field("name"), "text", example="copper 28 x 0.9"),
        "material": Fact(*field("material"), "text", None, False, MATERIALS, MATERIALS[0]),
        "size": Fact(*field("size"), "text", example="28 x 0.9"),
        "outside_diameter": Fact(*field("outside_diameter"), "quantity", length, example="28 mm"),
        "wall": Fact(*field("wall"), "quantity", length, example="0.9 mm"),
    }
