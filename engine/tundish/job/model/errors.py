"""Telling what is wrong with the data of a part as problems with a place and a plain sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, TypeVar, cast

from tundish.job.model.misplaced_keys import MisplacedKeys
from tundish.job.model.parse import Unreadable
from tundish.job.model.part import Part
from tundish.job.model.paths import path_text
from tundish.text.bounds import MOST_PROBLEMS
from tundish.text.nearest import did_you_mean
from tundish.text.place import Path, Places
from tundish.text.problem import Problem, Refused
from tundish.text.quoted import printable, shown


def problems_in(
    error: Unreadable, part: type[Part], file: str, places: Places | None, root: Path = ()
) -> Iterator[Problem]:
    """Yield the problems of one part, with their places.

    Args:
        error: What is wrong.
        part: The part that was read.
        file: Name of the file.
        places: The places in the file; None if the facts came from no text.
        root: The path of the part in the file.

    Yields:
        The problems.
    """
    misplaced = MisplacedKeys(places, _top_keys(root))
    for wrong in error.wrong[:MOST_PROBLEMS]:
        path, unknown = (*root, *wrong.at), not wrong.sentence
        line, column = _place(path, places, unknown)
        said = wrong.sentence + (_as_list(path) if wrong.single else "")
        sentence = misplaced.sentence(path, line) if unknown else _said(path, said)
        if sentence == "":  # the cause was told at a line above
            continue
        if sentence is None:
            sentence = _unknown(path, part, wrong.at)
        yield Problem(file, line, column, sentence, path_text(path))
    if len(error.wrong) > MOST_PROBLEMS:
        # Looking for the nearest name takes time, and a stranger may write 100,000 wrong keys.
        yield Problem(
            file, None, None, f"Not told one by one: {len(error.wrong) - MOST_PROBLEMS} more."
        )


_Read = TypeVar("_Read", bound=Part)


def part_of(
    part: type[_Read],
    data: Any,
    problems: list[Problem],
    file: str,
    places: Places | None,
    root: Path = (),
) -> _Read | None:
    """Return a part made of data from a file, noting what is wrong with them.

    Args:
        part: The part.
        data: The data.
        problems: Gets what is wrong.
        file: Name of the file.
        places: The places in the file; None if the data came from no text.
        root: The path of the part in the file.

    Returns:
        The part; None where something is wrong.
    """
    try:
        return part.read(data)
    except Unreadable as error:
        problems.extend(problems_in(error, part, file, places, root))
        return None


def refused(error: Unreadable, part: type[Part]) -> Refused:
    """Return the refusal of a part that was built in Python.

    Args:
        error: What is wrong.
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


def _as_list(path: Path) -> str:
    """Return how a list of tables is written at a path."""
    names = [str(step) for step in path if isinstance(step, str)]
    header = printable(".".join(names))
    return f": [[{header}]] above each of them, or {names[-1]} = [{{ … }}, {{ … }}]."


def _said(path: Path, sentence: str) -> str:
    key = path_text(path)
    return f"{key}: {sentence}" if key else sentence


def _unknown(path: Path, part: type[Part], below: Path) -> str:
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


def _top_keys(root: Path) -> frozenset[str]:
    """Return the keys that stand at the top of a job; of a unit sheet, its only one."""
    if root:
        return frozenset(str(step) for step in root[:1])
    # Imported late, as a job is read by what is here.
    from tundish.job.job import Job

    return frozenset(Job.members)


def _keys(part: type[Part], below: Path) -> Sequence[str]:
    for step in below:
        if isinstance(step, str):
            part = cast("type[Part]", part.members[step].part)
    return list(dict.fromkeys([*part.members, *part.written_as.values()]))


def _same_name(word: str) -> list[str]:
    """Return the paths elsewhere in the job that end in the same name, the shortest first."""
    # Imported late: the schema walks the whole job, and only a wrong key asks for it.
    from tundish.job.model.schema import job_schema

    paths = (fact.path for fact in job_schema().facts())
    return sorted((path for path in paths if path.split(".")[-1] == word), key=len)
