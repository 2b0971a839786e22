"""What is wrong with the data of a part, as problems with a place and a plain sentence."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.job.model.fields import PartClass
from tundish.job.model.misplaced_keys import MisplacedKeys
from tundish.job.model.parse import Wrong
from tundish.job.model.paths import path_text, without_positions
from tundish.job.model.removed_keys import REMOVED
from tundish.job.model.schema import schema_of
from tundish.text.bounds import MOST_PROBLEMS
from tundish.text.nearest import did_you_mean
from tundish.text.place import Path, Places
from tundish.text.problem import Problem
from tundish.text.quoted import printable, quoted


def problems_in(
    wrong: Sequence[Wrong],
    part: PartClass,
    file: str,
    places: Places | None,
    root: Path,
    whole: PartClass,
) -> Iterator[Problem]:
    """Yield the problems of one part, with their places.

    Args:
        wrong: What is wrong.
        part: The part that was read.
        file: Name of the file.
        places: The places in the file; None if the facts came from no text.
        root: The path of the part in the file.
        whole: What the part is in, where an unknown key may belong.

    Yields:
        The problems.
    """
    misplaced = MisplacedKeys(places, frozenset(map(str, root[:1])) or frozenset(whole.members))
    for mistake in wrong[:MOST_PROBLEMS]:
        path, unknown = (*root, *mistake.at), not mistake.sentence
        line, column = _place(path, places, unknown)
        message = mistake.sentence + (_as_list(path) if mistake.single else "")
        sentence = misplaced.sentence(path, line) if unknown else _with_key(path, message)
        if sentence == "":  # its cause was reported at a line above
            continue
        if sentence is None:
            sentence = _unknown(path, part, mistake.at, whole)
        yield Problem(file, line, column, sentence, path_text(path))
    if len(wrong) > MOST_PROBLEMS:
        # The search for the nearest name takes time, and a file may hold 100,000 wrong keys.
        yield Problem(
            file, None, None, f"Not listed one by one: {len(wrong) - MOST_PROBLEMS} more."
        )


def _place(path: Path, places: Places | None, unknown: bool) -> tuple[int | None, int | None]:
    """Return the place of an unknown key itself, or else of the value that is wrong."""
    if places is None:
        return None, None
    return places.of(path) if unknown else places.value_of(path)


def _as_list(path: Path) -> str:
    """Return how to write a list of tables at a path."""
    names = [str(step) for step in path if isinstance(step, str)]
    header = printable(".".join(names))
    return f": [[{header}]] above each of them, or {names[-1]} = [{{ … }}, {{ … }}]."


def _with_key(path: Path, sentence: str) -> str:
    key = path_text(path)
    return f"{key}: {sentence}" if key else sentence


def _unknown(path: Path, part: PartClass, below: Path, whole: PartClass) -> str:
    """Return the sentence for an unknown key, with the nearest name, or where it does belong."""
    word = str(path[-1])
    keys = _keys(part, below[:-1])
    where = quoted(path_text(path[:-1])) if path[:-1] else "a job"
    if without_positions(path_text(path)) in _REMOVED:
        return f"{quoted(word)} is no longer asked for, as no rule reads it; leave it out."
    sentence = f"{quoted(word)} is no key of {where}."
    near = did_you_mean(word, keys)
    if near:
        return sentence + near
    elsewhere = _same_name(word, whole)
    if elsewhere:
        return f"{sentence} Did you mean '{elsewhere[0]}'?"
    return f"{sentence} Its keys are {', '.join(keys)}."


# A unit sheet is written without the name of the group that it becomes in a job.
_REMOVED = REMOVED | {path.removeprefix("unit.") for path in REMOVED}


def _keys(part: PartClass, below: Path) -> list[str]:
    for step in below:
        if isinstance(step, str):
            part = part.members[step].part
    return list(dict.fromkeys([*part.members, *part.written_as.values()]))


def _same_name(word: str, whole: PartClass) -> list[str]:
    """Return the paths elsewhere in the whole that end in the same name, the shortest first."""
    paths = (fact.path for fact in schema_of(whole).facts())
    return sorted((path for path in paths if path.split(".")[-1] == word), key=len)
