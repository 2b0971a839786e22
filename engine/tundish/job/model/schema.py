"""The schema of a class of parts: every fact that rules use and questions ask for."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import field
from functools import cache
from typing import Any, Literal, TypeAlias

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.lazy import LazyItems
from tundish.job.model.field_types import ItemsType, MoreType, OrNoneType
from tundish.job.model.fields import Member, PartClass, Who
from tundish.job.model.kinds import (
    ChoiceKind,
    DateKind,
    FactKind,
    NumberKind,
    QuantityKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.model.paths import without_positions
from tundish.job.model.pipe_size import MATERIALS, PipeKind
from tundish.units.dimension import DIMENSIONS, Dimension
from tundish.units.unit import Unit, read_unit

KindName: TypeAlias = Literal["quantity", "number", "truth", "text", "date", "texts"]


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
        example: What would usually be written, as in a job file but without quotes around a text.
        unit: The unit in which rules show a quantity that nobody has written; else None.
        bounds: The least and the most that a quantity or number can be [SI units], infinite where
            nothing bounds it.
    """

    kind: KindName
    dimension: Dimension | None = None
    point: bool = False
    choices: tuple[str, ...] = ()
    example: str = ""
    unit: Unit | None = None
    bounds: tuple[float, float] = (-math.inf, math.inf)

    @property
    def example_as_data(self) -> Any:
        """Return the example as TOML and JSON hold it, a day as a text."""
        import json  # here, as a check needs no examples

        return json.loads(self.example) if self.kind in _BARE else self.example


_BARE = ("truth", "number", "texts")
"""Kinds whose facts are written without quotes, in TOML and in JSON."""


@dataclass(frozen=True, slots=True)
class Record(Asked):
    """Facts that stand together.

    Args:
        fields: What it holds, by name.
        can_be_absent: Whether "none" may stand for it.
        written_as: Facts in it that a file has under another key, by their names.
        example: How it is usually written, where one text states all of it, as for a pipe size.
    """

    fields: Mapping[str, Entry]
    can_be_absent: bool = False
    written_as: Mapping[str, str] = field(default_factory=dict)
    example: str = ""

    def find(self, path: str) -> Entry | None:
        """Return the entry at a path below this record.

        Args:
            path: A dotted path; list positions are passed over.

        Returns:
            The fact, record or list; None if there is none of that path.
        """
        entry: Entry = self
        for name in without_positions(path).split("."):
            record = entry.item if isinstance(entry, Items) else entry
            if not isinstance(record, Record) or name not in record.fields:
                return None
            entry = record.fields[name]
        return entry

    def facts(self) -> Iterator[Fact]:
        """Yield every fact below this record, those of list items too."""
        return (entry for entry in below(self) if isinstance(entry, Fact))


@dataclass(frozen=True, slots=True)
class Items(Asked):
    """A list of records.

    Args:
        item: What one item holds; its label is the word for one.
    """

    item: Record


Entry: TypeAlias = Fact | Record | Items


def below(entry: Asked) -> Iterator[Entry]:
    """Yield every fact, record and list below an entry, each before what is in it."""
    record = entry.item if isinstance(entry, Items) else entry
    for inner in record.fields.values() if isinstance(record, Record) else ():
        yield inner
        yield from below(inner)


@cache
def schema_of(whole: PartClass) -> Record:
    """Return the schema of a whole, such as of a job.

    Args:
        whole: The class of it.

    Returns:
        A record whose path is empty.
    """
    noun = words(whole.__name__)
    return Record("", noun, f"What {noun} is it?", "", "customer", _fields(whole, ""))


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


def _fields(part: PartClass, path: str) -> Mapping[str, Entry]:
    """Return what a part holds, each when it is asked for: a check asks for few of a thousand."""
    prefix, members = f"{path}." if path else "", part.members
    names = (name for name, member in members.items() if not isinstance(member.held, MoreType))
    return LazyItems(names, lambda name: entry_of(members[name], f"{prefix}{name}", part))


def entry_of(member: Member, path: str, part: PartClass) -> Entry:
    """Return what a member of a part is, as rules and questions know it.

    Args:
        member: The member.
        path: Its path.
        part: The part that it is in, for what the member itself leaves open.
    """
    asking = member.asking
    asked = (
        path,
        asking.label or words(member.name),
        asking.question,
        asking.how or part.found_in,
        asking.who or part.answered_by,
    )
    if member.kind is not None:
        return as_fact(member.kind, asked, asking.example)
    inner = member.part
    fields = _fields(inner, path)
    if isinstance(member.held, ItemsType):
        word = (path, words(inner.__name__), *asked[2:])
        return Items(*asked, Record(*word, fields, False, inner.written_as))
    return Record(*asked, fields, isinstance(member.held, OrNoneType), inner.written_as)


AskedFor: TypeAlias = tuple[str, str, str, str, Who]
"""Path, label, question, how to find out and who can be asked."""


def as_fact(kind: FactKind, asked: AskedFor, example: str = "") -> Entry:
    """Return the fact of a kind; a pipe size is a record, as a rule asks for its measures.

    Args:
        kind: The kind.
        asked: How it is asked for.
        example: What would usually be written; empty for the kind's own example.
    """
    number = DIMENSIONS["number"]
    example = example or _example_of(kind)
    match kind:
        case PipeKind():
            return Record(*asked, _pipe_fields(asked), example=example)
        case QuantityKind():
            point = kind.point
            return Fact(
                *asked, "quantity", kind.dimension, point, (), example, kind.unit, kind.bounds_in_si
            )
        case WholeKind():
            return Fact(*asked, "number", number, example=example, bounds=(0.0, math.inf))
        case NumberKind():
            return Fact(*asked, "number", number, example=example, bounds=(kind.least, kind.most))
        case TruthKind():
            return Fact(*asked, "truth", example=example)
        case DateKind():
            return Fact(*asked, "date", example=example)
        case TextsKind():
            return Fact(*asked, "texts", None, False, kind.choices, example)
        case ChoiceKind():
            return Fact(*asked, "text", None, False, kind.choices, example)
        case _:
            return Fact(*asked, "text", example=example)


def _example_of(kind: FactKind) -> str:
    """Return an example of how a fact of a kind is written."""
    match kind:
        case PipeKind():
            return "copper 28 x 0.9"
        case QuantityKind():
            return kind.example
        case WholeKind():
            return str(kind.options[0]) if kind.options else "2"
        case NumberKind():
            return "1.0"
        case TruthKind():
            return "true"
        case DateKind():
            return "2026-11-02"
        case TextsKind():
            return f'["{kind.choices[0]}"]' if kind.choices else '["…"]'
        case ChoiceKind():
            return kind.choices[0]
        case _:
            return ""


def _pipe_fields(asked: AskedFor) -> Mapping[str, Entry]:
    path, label, question, how, who = asked
    length = DIMENSIONS["length"]
    millimetre = read_unit("mm")

    def field(name: str) -> AskedFor:
        return (f"{path}.{name}", f"{words(name)} of the {label}", question, how, who)

    return {
        "name": Fact(*field("name"), "text", example="copper 28 x 0.9"),
        "material": Fact(*field("material"), "text", None, False, MATERIALS, MATERIALS[0]),
        "size": Fact(*field("size"), "text", example="28 x 0.9"),
        **{
            name: Fact(
                *field(name),
                "quantity",
                length,
                example=example,
                unit=millimetre,
                bounds=(0.0, math.inf),
            )
            for name, example in (("outside_diameter", "28 mm"), ("wall", "0.9 mm"))
        },
    }
