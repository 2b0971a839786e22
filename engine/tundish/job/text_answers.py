"""Parsing answers that tables and forms have as text and a job file as a truth, number or list."""

from __future__ import annotations

from typing import Any

from tundish.job.model.fields import PartClass
from tundish.job.model.kinds import FactKind, NumberKind, TextsKind, TruthKind, WholeKind

_TRUTHS = {"true": True, "false": False, "yes": True, "no": False}


def parse_answer(text: str, kind: FactKind) -> Any:
    """Return what a text says of a fact, as a job file would have it.

    Args:
        text: The text; the words of a list are separated by semicolons, or by commas where only
            certain words are possible.
        kind: What the fact can be.

    Returns:
        A truth, number or list where the text says one; else the text, for the kind to refuse.

    Example:
        >>> parse_answer("yes", TruthKind()), parse_answer("4", WholeKind())
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


def parse_answers(data: Any, job: PartClass, path: str = "") -> Any:
    """Return the facts of a filled-in form, whose answers are all quoted, as a job file has them.

    Args:
        data: The facts, without blanks.
        job: The class of jobs.
        path: The path of the data in a job.

    Example:
        >>> from tundish.job.job import Job
        >>> parse_answers({"building": {"occupants": "4"}}, Job)
        {'building': {'occupants': 4}}
    """
    if isinstance(data, dict):
        inner = f"{path}." if path else ""
        return {key: parse_answers(value, job, inner + key) for key, value in data.items()}
    if isinstance(data, list):
        return [parse_answers(item, job, path) if isinstance(item, dict) else item for item in data]
    kind = job.kind_at(path) if isinstance(data, str) else None
    return data if kind is None else parse_answer(data, kind)
