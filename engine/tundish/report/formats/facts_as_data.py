"""Facts as data, for editors and other programs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tundish.job.model.kinds import NumberKind, QuantityKind, WholeKind
from tundish.job.model.schema import Asked, Fact, Items, Record, below
from tundish.job.schema import job_schema
from tundish.report.tell.fact_phrases import as_written, kind_words
from tundish.results.as_data import FORM
from tundish.rulebook.model.declared_facts import kind_of
from tundish.rulebook.rulebook import Rulebook
from tundish.rulebook.search.readers import Readers


def facts_as_data(facts: Sequence[Asked], rulebook: Rulebook, readers: Readers) -> dict[str, Any]:
    """Return facts as dictionaries, lists and texts, in their order."""
    return {
        "form": FORM,
        "program": "tundish",
        "rulebook_digest": rulebook.digest,
        "facts": [_fact(asked, rulebook, readers) for asked in facts],
    }


def overview_as_data(rulebook: Rulebook) -> dict[str, Any]:
    """Return the tables and lists of a job, each with how many facts are in it."""
    return {
        "form": FORM,
        "program": "tundish",
        "rulebook_digest": rulebook.digest,
        "tables": [
            {
                "path": entry.path,
                "sort": _sort(entry),
                "question": entry.question,
                "facts": sum(isinstance(inner, Fact) for inner in below(entry)),
            }
            for entry in below(job_schema())
            if isinstance(entry, Items) or (isinstance(entry, Record) and "." not in entry.path)
        ],
        "of_packs": [declaration.fact.path for declaration in rulebook.declared.values()],
    }


def _fact(asked: Asked, rulebook: Rulebook, readers: Readers) -> dict[str, Any]:
    kind = kind_of(asked.path, rulebook.declared)
    data: dict[str, Any] = {
        "path": asked.path,
        "sort": _sort(asked),
        "label": asked.label,
        "question": asked.question,
        "how": asked.how,
        "who": asked.who,
        "kind": kind_words(asked, kind),
        "written": as_written(asked),
        "rules": [
            {
                "name": reader.definition.name,
                "title": reader.definition.title,
                "severity": reader.definition.severity,
                "directly": reader.directly,
            }
            for reader in readers.rules_of(asked.path)
        ],
        "quantities": [reader.definition.name for reader in readers.quantities_of(asked.path)],
        "parts": [reader.definition.name for reader in readers.parts_of(asked.path)],
    }
    if isinstance(asked, Fact):
        data |= {"example": asked.example, "choices": list(asked.choices)}
        data["dimension"] = asked.dimension.name if asked.dimension else None
    if isinstance(kind, QuantityKind):
        data |= {"least": kind.least or None, "most": kind.most or None}
    elif isinstance(kind, NumberKind):
        data |= {"least": kind.least, "most": None if kind.most > 1e300 else kind.most}
    elif isinstance(kind, WholeKind):
        data |= {"options": list(kind.options)}
    return data


def _sort(asked: Asked) -> str:
    match asked:
        case Items():
            return "list"
        case Record():
            return "table"
        case Fact():
            return asked.kind
        case _:
            return ""
