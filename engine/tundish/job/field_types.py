"""What a member of a part holds: a fact of a kind, records, lists of them, or facts of packs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from tundish.job.kinds import ChoiceKind, Kind, TextsKind

NONE = "none"


@dataclass(frozen=True)
class FactType:
    """A member that holds one fact of a kind.

    Args:
        kind: The kind; None where the annotation itself lists the choices.
        several: Whether the member holds a list of choices, when the annotation lists them.
    """

    kind: Kind | None = None
    several: bool = False

    def kind_in(self, annotation: Any) -> Kind:
        """Return the kind of the fact, with the choices of the annotation where it lists them."""
        if self.kind is not None:
            return self.kind
        choices = tuple(choices_in(annotation))
        return TextsKind(choices) if self.several else ChoiceKind(choices)


@dataclass(frozen=True)
class RecordType:
    """A member that holds a record."""


@dataclass(frozen=True)
class OrNoneType:
    """A member that holds a record, or "none" where the thing is known to be absent."""


@dataclass(frozen=True)
class ItemsType:
    """A member that holds a list of records; `[]` says that there are none."""


@dataclass(frozen=True)
class MoreType:
    """A member that holds whatever facts the packs of a rulebook declare; they read them."""


Held = FactType | RecordType | OrNoneType | ItemsType | MoreType


def held_in(annotation: Any) -> Held:
    """Return what an annotation says that a member holds; a plain record where it says nothing."""
    marked = getattr(annotation, "__metadata__", ())
    return next((meta for meta in marked if isinstance(meta, Held)), RecordType())


def choices_in(annotation: Any) -> Iterator[str]:
    """Yield the texts of every `Literal` inside an annotation.

    Args:
        annotation: Such as `Literal["north", "south"] | None`.

    Yields:
        The texts, in their order.
    """
    if get_origin(annotation) is Literal:
        yield from get_args(annotation)
    else:
        for inner in get_args(annotation):
            yield from choices_in(inner)


def leaves(annotation: Any) -> Iterator[Any]:
    """Yield the types inside an annotation that hold no others."""
    inner = get_args(annotation)
    if not inner:
        yield annotation
    for part in inner:
        yield from leaves(part)
