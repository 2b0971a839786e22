"""Parsing answers that tables and forms have as text and a job file as a truth, number or list."""

from __future__ import annotations

from typing import Any

from tundish.job.model.fields import PartClass
from tundish.job.model.kinds import FactKind, NumberKind, TextsKind, TruthKind, WholeKind

_TRUTHS = {"true": True, "false": False, "yes": True, "no": False}


def said_in_text(text: str, kind: FactKind) -> Any:
    """Return what a text says of a fact, as a job file would have it.

    Args:
        text: The text; several words of a list stand with semicolons between them, or with commas
            where only some words are possible.
        kind: What the fact can be.

    Returns:
        A truth, number or list where the text says one; else the text, for the kind to refuse.

    Example:
        >>> said_in_text("yes", TruthKind()), said_in_text("4", WholeKind())
        (True, 4)
    """
    text = text.strip()
    if isinstance(kind, TruthKind):
        return _TRUTHS.get(text.lower(), text)
    if isinstance(kind, WholeKind | NumberKind):
        try:
            return int(text) if text.lstrip("+-").isdecimal() else float(text)
        except ValueError:
            return text
    if isinstance(kind, TextsKind):
        comma = kind.choices and ";" not in text
        return (
            [] if text == "none" else [word.strip() for word in text.split("," if comma else ";")]
        )
    return text


def answers_in(data: dict[str, Any], job: PartClass, path: str = "") -> dict[str, Any]:
    """Return the facts of a filled form, whose blanks stand in quotes for every kind of answer.

    Args:
        data: The facts, without blanks.
        job: The class of jobs.
        path: Where the facts stand.

    Example:
        >>> from tundish.job.job import Job
        >>> answers_in({"building": {"occupants": "4"}}, Job)
        {'building': {'occupants': 4}}
    """
    return {
        key: _answer(value, job, f"{path}.{key}" if path else key) for key, value in data.items()
    }


def _answer(value: Any, job: PartClass, path: str) -> Any:
    if isinstance(value, dict):
        return answers_in(value, job, path)
    if isinstance(value, list):
        return [answers_in(item, job, path) if isinstance(item, dict) else item for item in value]
    kind = job.kind_at(path) if isinstance(value, str) else None
    return value if kind is None else said_in_text(value, kind)
