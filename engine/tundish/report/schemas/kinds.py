"""JSON Schemas of the kinds of fact, by how each is written in a job file."""

from __future__ import annotations

import math

from tundish.job.model.kinds import (
    ChoiceKind,
    DateKind,
    FactKind,
    NumberKind,
    QuantityKind,
    TextKind,
    TextsKind,
    TruthKind,
    WholeKind,
)
from tundish.job.model.pipe_size import MATERIALS, PipeKind
from tundish.job.model.regions import REGIONS
from tundish.job.model.schema import Entry, Fact, Record
from tundish.job.parts.heading import RegionKind
from tundish.report.schemas.data_schema import Schema
from tundish.text.bounds import LONGEST_LIST, LONGEST_QUANTITY, LONGEST_TEXT

_NUMBER = "[+\\-\u2212]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)([eE][+\\-]?[0-9]{1,3})?"
_QUANTITY = f"^\\s*{_NUMBER}\\s*[^\\s0-9.,].*$"
"""A number and, after it, a unit; which units there are is told by the program alone."""

_PIPE = "^\\s*[^0-9\\s][^0-9]*\\s(DN ?)?[0-9].*$"


def fact_schema(kind: FactKind, fact: Entry) -> tuple[Schema, str]:
    """Return the schema of a fact with its example, and a sentence on how it is written.

    Args:
        kind: Its kind.
        fact: The fact; a pipe size is a record.

    Raises:
        TypeError: If its kind is one that no schema is known of.
    """
    schema, words = kind_schema(kind)
    if isinstance(fact, Record):
        return {**schema, "examples": [fact.example]}, words
    if not isinstance(fact, Fact) or "enum" in schema or schema.get("type") == "boolean":
        return schema, words
    if isinstance(kind, QuantityKind):
        words = _in_words(kind, fact.example)
    return {**schema, "examples": [fact.example_as_data]}, words


def kind_schema(kind: FactKind) -> tuple[Schema, str]:
    """Return the schema of a kind of fact, and a sentence on how it is written.

    Args:
        kind: The kind.

    Raises:
        TypeError: If it is a kind that no schema is known of.
    """
    match kind:
        case QuantityKind():
            return _quantity(kind), _in_words(kind, kind.example)
        case PipeKind():
            examples = ["copper 28 x 0.9", "multilayer 26 x 3", "steel DN25"]
            return (
                {"type": "string", "pattern": _PIPE, "examples": examples},
                "A pipe size: its material, then outside diameter and wall, or a nominal size. "
                f"Materials: {', '.join(MATERIALS)}.",
            )
        case WholeKind(options=options):
            return ({"enum": list(options)}, "") if options else (_count(), "A whole number.")
        case NumberKind():
            return _number(kind), "A plain number without a unit."
        case TextsKind():
            return _texts(kind), "A list; [] says that there are none."
        case DateKind():
            return {"type": "string", "format": "date", "examples": ["2026-11-02"]}, "A date."
        case _:
            return _plain(kind), ""


def _plain(kind: FactKind) -> Schema:
    match kind:
        case ChoiceKind(choices=choices):
            return {"enum": list(choices)}
        case TruthKind():
            return {"type": "boolean"}
        case RegionKind():
            return {"enum": sorted(REGIONS)}
        case TextKind():
            return {"type": "string", "pattern": "\\S", "maxLength": LONGEST_TEXT}
        case _:
            raise TypeError(f"There is no schema of {kind}.")


def _quantity(kind: QuantityKind) -> Schema:
    return {
        "type": "string",
        "pattern": _QUANTITY,
        "maxLength": LONGEST_QUANTITY,
        "examples": [kind.example],
    }


def _in_words(kind: QuantityKind, example: str) -> str:
    """Return what dimension a quantity has, how it is written, and what can be."""
    noun = kind.noun[:1].upper() + kind.noun[1:]
    dimension = kind.dimension.name
    named = "" if kind.noun.endswith(f" {dimension}") else f" (dimension: {dimension})"
    bounds = [
        f"not below {kind.least}" if kind.least else "",
        f"not above {kind.most}" if kind.most else "",
    ]
    limits = ", ".join(bound for bound in bounds if bound)
    end = f"; {limits}." if limits else "."
    return f"{noun}{named} with its unit, such as '{example}'{end}"


def _count() -> Schema:
    return {"type": "integer", "minimum": 0, "maximum": 10**9}


def _number(kind: NumberKind) -> Schema:
    schema: Schema = {"type": "number", "minimum": kind.least}
    return schema if math.isinf(kind.most) else {**schema, "maximum": kind.most}


def _texts(kind: TextsKind) -> Schema:
    item, _ = kind_schema(ChoiceKind(kind.choices) if kind.choices else TextKind())
    schema: Schema = {"type": "array", "items": item, "maxItems": LONGEST_LIST}
    return {**schema, "uniqueItems": True} if kind.choices else schema
