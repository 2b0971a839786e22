"""Telling what pydantic found wrong as problems with a place and a plain sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from pydantic import BaseModel, ValidationError

from tundish.job.field_types import part_in
from tundish.job.part import Part
from tundish.job.paths import path_text
from tundish.reading.bounds import MOST_PROBLEMS
from tundish.reading.nearest import did_you_mean
from tundish.reading.place import Path, Places
from tundish.reading.problem import Problem, Refused
from tundish.reading.shown import escaped, shown


def problems_in(
    error: ValidationError, part: type[BaseModel], file: str, places: Places | None, root: Path = ()
) -> Iterator[Problem]:
    """Yield the problems of one part, with their places.

    Args:
        error: What pydantic found.
        part: The part that was read.
        file: Name of the file.
        places: The places in the file; None if the facts came from no text.
        root: The path of the part in the file.

    Yields:
        The problems.
    """
    details = error.errors(include_url=False)
    for detail in details[:MOST_PROBLEMS]:
        below = tuple(detail["loc"])
        path = (*root, *below)
        unknown = detail["type"] == "extra_forbidden"
        line, column = _place(path, places, unknown)
        sentence = _unknown(path, part, below) if unknown else _said(path, dict(detail))
        yield Problem(file, line, column, sentence, path_text(path))
    if len(details) > MOST_PROBLEMS:
        # Looking for the nearest name takes time, and a stranger may write 100,000 wrong keys.
        yield Problem(
            file, None, None, f"Not told one by one: {len(details) - MOST_PROBLEMS} more."
        )


def refused(error: ValidationError, part: type[BaseModel]) -> Refused:
    """Return the refusal of a part that was built in Python.

    Args:
        error: What pydantic found.
        part: The part.

    Returns:
        The exception, to be raised.
    """
    return Refused(problems_in(error, part, f"<{part.__name__}>", None))


def _place(path: Path, places: Places | None, unknown: bool) -> tuple[int | None, int | None]:
    """Return the place of an unknown key itself, or else of the value that is wrong."""
    if places is None:
        return None, None
    return places.of(path) if unknown else places.value_of(path)


def _said(path: Path, detail: dict[str, Any]) -> str:
    key = path_text(path)
    cause = detail.get("ctx", {}).get("error")
    if isinstance(cause, ValueError):
        sentence = escaped(str(cause))
    elif detail["type"] in ("model_type", "model_attributes_type", "dict_type"):
        sentence = f"Write a table with facts in it, not {shown(detail['input'])}."
    else:
        sentence = f"{detail['msg']}."
    return f"{key}: {sentence}" if key else sentence


def _unknown(path: Path, part: type[BaseModel], below: Path) -> str:
    """Return the sentence for an unknown key, with the nearest name, or where it does belong."""
    word = str(path[-1])
    keys = _keys(part, below[:-1])
    where = shown(path_text(path[:-1])) if path[:-1] else "a job"
    sentence = f"{shown(word)} is no key of {where}."
    near = did_you_mean(word, keys)
    if near:
        return sentence + near
    elsewhere = _same_name(word)
    if elsewhere:
        return f"{sentence} Did you mean '{elsewhere[0]}'?"
    return f"{sentence} Its keys are {', '.join(keys)}."


def _keys(part: type[BaseModel], below: Path) -> Sequence[str]:
    for step in below:
        if isinstance(step, str):
            part = part_in(part.model_fields[step].annotation)
    names = list(part.model_fields)
    written = part.written_as.values() if issubclass(part, Part) else ()
    return list(dict.fromkeys([*names, *written]))


def _same_name(word: str) -> list[str]:
    """Return the paths elsewhere in the job that end in the same name, the shortest first."""
    # Imported late: the schema walks the whole job, and only a wrong key asks for it.
    from tundish.job.schema import job_schema

    paths = (fact.path for fact in job_schema().facts())
    return sorted((path for path in paths if path.split(".")[-1] == word), key=len)
