"""What the job's facts mean in an expression: the job's schema in the language's terms."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from tundish.job.model.schema import Fact, Items, Record
from tundish.job.schema import job_schema
from tundish.job.sides import sides_as_asked
from tundish.language.check.scope import Meaning
from tundish.language.tree.kind import DATE, PLAIN_NUMBER, TRUTH, Kind, quantity_kind, text_kind


@cache
def job_meanings() -> dict[str, Meaning]:
    """Return the meaning of every fact of a job, by path without positions."""
    return {**dict(_meanings(job_schema())), **dict(_of_items(sides_as_asked()))}


def _meanings(record: Record) -> Iterator[tuple[str, Meaning]]:
    for part in record.fields.values():
        match part:
            case Record():
                yield part.path, Meaning(Kind("record", record=part.path), part.label)
                yield from _meanings(part)
            case Items():
                yield from _of_items(part)
            case Fact():
                yield part.path, meaning_of(part)


def _of_items(items: Items) -> Iterator[tuple[str, Meaning]]:
    yield items.path, Meaning(Kind("items", record=items.path), items.label)
    yield from _meanings(items.item)


def meaning_of(fact: Fact) -> Meaning:
    """Return the meaning of one fact."""
    return Meaning(_kind(fact), fact.label, fact.unit, fact.bounds[0])


def _kind(fact: Fact) -> Kind:
    match fact.kind:
        case "quantity":
            assert fact.dimension is not None
            return quantity_kind(fact.dimension, fact.point)
        case "number":
            return PLAIN_NUMBER
        case "truth":
            return TRUTH
        case "date":
            return DATE
        case "texts":
            return Kind("texts", choices=fact.choices)
        case _:
            return text_kind(fact.choices)
