"""How pydantic reads the fields of a part: facts by their kind, records, lists, and "none"."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic import GetCoreSchemaHandler as Handler
from pydantic_core import CoreSchema, core_schema

from tundish.job.kinds import ChoiceKind, Kind, TextsKind, checked_list
from tundish.reading.shown import shown

NONE = "none"


@dataclass(frozen=True)
class FactType:
    """A field that holds one fact of a kind.

    Args:
        kind: The kind; None where the annotation itself lists the choices.
        several: Whether the field holds a list of choices, when the annotation lists them.
    """

    kind: Kind | None = None
    several: bool = False

    def kind_in(self, annotation: Any) -> Kind:
        """Return the kind of the fact, with the choices of the annotation where it lists them."""
        if self.kind is not None:
            return self.kind
        choices = tuple(choices_in(annotation))
        return TextsKind(choices) if self.several else ChoiceKind(choices)

    def __get_pydantic_core_schema__(self, source: Any, handler: Handler) -> CoreSchema:
        """Return how pydantic reads the field; a Python `None` is not known yet."""
        read = self.kind_in(source).read

        def read_or_unknown(value: Any) -> Any:
            return None if value is None else read(value)

        return core_schema.no_info_plain_validator_function(
            read_or_unknown, serialization=core_schema.plain_serializer_function_ser_schema(_plain)
        )


@dataclass(frozen=True)
class OrNoneType:
    """A field that holds a record, or "none" where the thing is known to be absent."""

    def __get_pydantic_core_schema__(self, source: Any, handler: Handler) -> CoreSchema:
        """Return how pydantic reads the field."""
        part = part_in(source)

        def record_or_none(value: Any, read: core_schema.ValidatorFunctionWrapHandler) -> Any:
            if value is None:
                return None
            # false is how one says so in a language without the word; both are kept as "none".
            if value is False or value == NONE:
                return NONE
            if not isinstance(value, dict | BaseModel):
                raise ValueError(
                    f"Write a table, or '{NONE}' if there is none, not {shown(value)}."
                )
            return read(value)

        def written_out(value: Any, write: core_schema.SerializerFunctionWrapHandler) -> Any:
            return value if value is None or value == NONE else write(value)

        record = handler.generate_schema(part)
        return core_schema.no_info_wrap_validator_function(
            record_or_none,
            record,
            serialization=core_schema.wrap_serializer_function_ser_schema(
                written_out, schema=record
            ),
        )


@dataclass(frozen=True)
class ItemsType:
    """A field that holds a list of records; `[]` says that there are none."""

    def __get_pydantic_core_schema__(self, source: Any, handler: Handler) -> CoreSchema:
        """Return how pydantic reads the field."""
        items = core_schema.tuple_schema(
            [handler.generate_schema(part_in(source))], variadic_item_index=0
        )

        def read_items(value: Any, read: core_schema.ValidatorFunctionWrapHandler) -> Any:
            if value is None:
                return None
            if isinstance(value, dict):
                raise ValueError("Write a list of tables: [[double brackets]], or [{ … }, { … }].")
            found = read(checked_list(value))
            _check_names_differ(found)
            return found

        return core_schema.no_info_wrap_validator_function(read_items, items)


@dataclass(frozen=True)
class MoreType:
    """A field that holds whatever facts the packs of a rulebook declare; they read them."""

    def __get_pydantic_core_schema__(self, source: Any, handler: Handler) -> CoreSchema:
        """Return how pydantic reads the field."""

        def read(value: Any) -> Any:
            if value is None or isinstance(value, dict):
                return value
            raise ValueError(f"Write a table of facts, not {shown(value)}.")

        return core_schema.no_info_plain_validator_function(read)


def part_in(annotation: Any) -> type[BaseModel]:
    """Return the part that an annotation speaks of.

    Args:
        annotation: Such as `Site | None` or `tuple[Circuit, ...] | None`.

    Returns:
        The class of the part.

    Raises:
        TypeError: If the annotation names no part.
    """
    for inner in _leaves(annotation):
        if isinstance(inner, type) and issubclass(inner, BaseModel):
            return inner
    raise TypeError(f"{annotation} names no part of a job")


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


def _leaves(annotation: Any) -> Iterator[Any]:
    inner = get_args(annotation)
    if not inner:
        yield annotation
    for part in inner:
        yield from _leaves(part)


def _check_names_differ(items: tuple[BaseModel, ...]) -> None:
    """Refuse two items of one name, as a finding could then not say which it means."""
    seen: set[str] = set()
    for item in items:
        name = getattr(item, "name", None)
        if name is not None and name in seen:
            raise ValueError(f"Two items of this list are named {shown(name)}; names must differ.")
        if name is not None:
            seen.add(name)


def _plain(value: Any) -> Any:
    """Return a fact as TOML and JSON can hold it."""
    if isinstance(value, tuple):
        return list(value)
    return value if value is None or isinstance(value, str | bool | int | float) else str(value)
