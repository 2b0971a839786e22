"""The members of a part: its facts and the parts in it, as its class states them.

A class only notes them. What they hold is worked out on first use: a job of hundreds of facts uses
a few dozen of some hundred parts.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Any, Literal, NamedTuple, TypeAlias

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.field_types import FactType, Held, MoreType, held_in, leaves
from tundish.job.model.kinds import FactKind
from tundish.job.model.paths import without_positions

Who: TypeAlias = Literal["customer", "surveyor", "designer", "electrician", "installer", "maker"]
"""Who can be asked for a fact."""


class Asking(NamedTuple):
    """What a class says of a member, beside its annotation.

    Attributes:
        question: What a surveyor would ask to learn it.
        how: How to find it out; empty where the part says so.
        who: Who can be asked; None where the part says so.
        label: A short noun phrase; empty where the name says it.
        example: What would usually be written; empty where that of the kind does.
        otherwise: What else may be written, as a sentence for whoever made a mistake.
    """

    question: str
    how: str
    who: Who | None
    label: str
    example: str = ""
    otherwise: str = ""


@dataclass(frozen=True)
class Member:
    """One member.

    Attributes:
        name: Its name.
        asking: How it is asked for.
        annotation: What its class says that it is.
    """

    name: str
    asking: Asking
    annotation: Any

    @cached_property
    def held(self) -> Held:
        """Return what it holds."""
        return held_in(self.annotation)

    @cached_property
    def kind(self) -> FactKind | None:
        """Return the kind of the fact that it holds, or None if it holds none."""
        return self.held.kind_in(self.annotation) if isinstance(self.held, FactType) else None

    @cached_property
    def part(self) -> PartClass:
        """Return the part that it holds one or several of.

        Raises:
            TypeError: If it holds none.
        """
        for inner in leaves(self.annotation):
            if isinstance(inner, PartClass):
                return inner
        raise TypeError(f"{self.annotation} names no part of a job")


class PartClass(type):
    """The class of the classes of parts: it knows their members.

    Attributes:
        answered_by: Who can be asked for the facts of a part, where a fact does not say otherwise.
        found_in: How to find its facts out, where a fact does not say otherwise.
        written_as: Facts that are written under another key of the part, by their names.
        prepared: Returns facts as members have them, where people write some otherwise.
    """

    answered_by: Who
    found_in: str
    written_as: dict[str, str]
    prepared: Callable[[Mapping[str, Any]], Mapping[str, Any]]
    _own: dict[str, Asking]
    _members: Mapping[str, Member]

    def __new__(
        cls, name: str, bases: tuple[type, ...], namespace: dict[str, Any], **options: str
    ) -> PartClass:
        """Create a class of parts, whose members are None unless they are given."""
        own = {key: value for key, value in namespace.items() if isinstance(value, Asking)}
        part_class = super().__new__(
            cls, name, bases, {**namespace, **dict.fromkeys(own)}, **options
        )
        part_class._own = own
        return part_class

    @property
    def members(cls) -> Mapping[str, Member]:
        """Return the members by name, in their order, those of the classes it extends first.

        Raises:
            TypeError: If an annotation is a string, as below `from __future__ import annotations`;
                to evaluate those would take longer than all else.
        """
        if "_members" not in cls.__dict__:
            members: dict[str, Member] = {}
            for part_class in reversed(cls.__mro__):
                if isinstance(part_class, PartClass) and part_class._own:
                    annotations = inspect.get_annotations(part_class)
                    for name, asking in part_class._own.items():
                        if isinstance(annotations[name], str):
                            raise TypeError(f"{part_class.__module__} has its annotations as texts")
                        members[name] = Member(name, asking, annotations[name])
            cls._members = members
        return cls._members

    def kind_at(cls, path: str) -> FactKind | None:
        """Return the kind of what is stated at a path below a part.

        Args:
            path: A dotted path; list positions are passed over.

        Returns:
            The kind; None where no fact is written there, as at a group or inside a pipe size.
        """
        part = cls
        *outer, last = without_positions(path).split(".")
        for name in outer:
            member = part.members.get(name)
            if member is None or member.kind is not None or isinstance(member.held, MoreType):
                return None
            part = member.part
        member = part.members.get(last)
        return member.kind if member else None
