"""What a member of a part holds: a fact of a kind, records, lists of them, or facts of packs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal, NamedTuple, get_args, get_origin

from tundish.groundwork.dataclass import dataclass
from tundish.job.model.kinds import ChoiceKind, FactKind, TextsKind

NONE = "none"


@dataclass(frozen=True)
class FactType:
    """A member that holds one fact of a kind.

    Args:
        kind: The kind; None where the annotation itself lists the choices.
        several: Whether the member holds a list of choices, when the annotation lists them.
    """

    kind: FactKind | None = None
    several: bool = False

    def kind_in(self, annotation: Any) -> FactKind:
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


class Marked(NamedTuple):
    """The annotation of a member at run time; type checkers see `Annotated` in its place.

    Attributes:
        held: What it holds.
        of: The part, or the `Literal` with the choices.
    """

    held: Held
    of: Any


@dataclass(frozen=True)
class Marking:
    """Builds annotations in brackets, as `Items[Run]`.

    Args:
        held: What such a member holds.
    """

    held: Held

    def __getitem__(self, of: Any) -> Marked:
        """Return one annotation."""
        return Marked(self.held, of)


def held_in(annotation: Any) -> Held:
    """Return what a member with an annotation holds; a plain record unless it says otherwise."""
    if isinstance(annotation, Marked):
        return annotation.held
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
        for inner in _inside(annotation):
            yield from choices_in(inner)


def leaves(annotation: Any) -> Iterator[Any]:
    """Yield the types inside an annotation that hold no others."""
    inner = _inside(annotation)
    if not inner:
        yield annotation
    for part in inner:
        yield from leaves(part)


def _inside(annotation: Any) -> tuple[Any, ...]:
    return (annotation.of,) if isinstance(annotation, Marked) else get_args(annotation)
