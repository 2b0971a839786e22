"""The bases of a job: a house type or a firm's usual job, whose facts the job takes over.

    based_on = "house_types/semi.toml"

Tables are merged key by key; where both state a fact, the job's counts. An item of a list is merged
with the base's item of the same name; one of a new name is added to the list. Where an item of the
job's list has no name, the whole list replaces that of the base, as positions would mean something
else after the base has changed; `[]` empties the list. "none" and false remove a table of the base.

A base lies in the folder of the file that names it, or below: it is clear from where a job lies
which files it shares, and a job from a stranger cannot read the files around it. A base may be
based on another. A waiver holds only in the job that states it.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import Any, TypeVar

from tundish.job.layer import Layer
from tundish.job.merge import merge_facts
from tundish.job.model.part import Part
from tundish.job.named_file import named_path
from tundish.text.bounds import MOST_BASES
from tundish.text.problem import Problem, Refused
from tundish.text.quoted import quoted
from tundish.text.toml_file import TomlFile, read_mended

_Job = TypeVar("_Job", bound=Part)


def merge_bases(
    kind: type[_Job], own: Layer, problems: list[Problem]
) -> tuple[list[Layer], dict[str, Any], _Job | None]:
    """Merge a job into all that it is based on.

    Args:
        kind: The class of jobs.
        own: The file of the job, which has been read as a job.
        problems: Gets what is wrong, with these files or with what they come to.

    Returns:
        The files, the uppermost first; the facts of all, the path of a unit sheet as from the
        folder of the job; the job that they make, or None where something is wrong.
    """
    layers = [own, *_bases(kind, own, problems)]
    if problems or len(layers) == 1:
        return layers, own.file.data, None
    *uppers, lowest = layers
    data, merged_layers, job = _seen_from(own, lowest), [lowest], None
    for upper in reversed(uppers):
        merged = merge_facts(data, _seen_from(own, upper), adding=True)
        data, layer = merged.data, Layer(upper.file, upper.folder, merged.positions)
        merged_layers.insert(0, layer)
        # Read after each merge, so that a clash is reported in the file that brought it in.
        job = kind.read(data, problems, upper.file.name, layer)
        if job is None:
            break
    return merged_layers, data, job


def _bases(kind: type[Part], own: Layer, problems: list[Problem]) -> list[Layer]:
    """Read what a job is based on, the nearest first, noting what is wrong."""
    chain: list[Layer] = [own]
    tree = None if own.folder is None else own.folder.resolve()
    while True:
        upper = chain[-1]
        path = named_path(upper.file, _KEY, upper.folder, upper, problems, tree)
        if path is None:
            return chain[1:]
        wrong = _wrong_chain(chain, path)
        base = None if wrong else _read(path, problems)
        wrong = wrong or (_wrong_base(kind, base.file) if base else "")
        if wrong:
            place = upper.value_of((_KEY,))
            problems.append(Problem(upper.file.name, *place, f"{_KEY}: {wrong}", _KEY))
        if wrong or base is None:
            return chain[1:]
        _check(kind, base, problems)
        chain.append(base)


_KEY = "based_on"


def _read(path: Path, problems: list[Problem]) -> Layer | None:
    try:
        return Layer(read_mended(path), path.parent)
    except Refused as refusal:
        problems.extend(refusal.problems)
        return None


def _check(kind: type[Part], base: Layer, problems: list[Problem]) -> None:
    """Note what is wrong with a job on which others are based."""
    name, wrong = base.file.name, list[Problem]()
    kind.read(base.file.data, wrong, name, base)
    if base.file.data.get("waiver"):
        sentence = (
            "waiver: A waiver is answered for in one job, and other jobs are based on this one; "
            "move it to the job that it is meant for."
        )
        wrong.append(Problem(name, *base.of(("waiver",)), sentence, "waiver"))
    problems.extend(base.file.with_mistakes(wrong))


def _wrong_chain(chain: Sequence[Layer], path: Path) -> str:
    """Say why a job cannot be based on one more, or nothing."""
    files = [Path(layer.file.name).resolve() for layer in chain]
    if path.resolve() in files:
        names = [quoted(Path(layer.file.name).name) for layer in chain]
        again = quoted(path.name)
        return (
            f"These jobs are based on each other in a circle: {' -> '.join([*names, again])}; "
            "take this line out of one of them."
        )
    if len(chain) > MOST_BASES:
        return (
            f"A job is based on at most {MOST_BASES} others, each based on the next; "
            "put two of them into one file."
        )
    return ""


def _wrong_base(kind: type[Part], file: TomlFile) -> str:
    """Say why a file is no job that another can be based on, or nothing; never what it holds."""
    name, keys = quoted(Path(file.name).name), set(file.data)
    if "of_job" in keys:
        return f"{name} is a sheet or form; name the job that it is merged over."
    if keys and not keys & (set(kind.members) - {"unit"}):
        if "unit" in keys:
            return f"{name} is a unit sheet; name it as unit_sheet, or name a job here."
        return f"{name} is no job: it has none of the tables of a job."
    return ""


def _seen_from(own: Layer, base: Layer) -> dict[str, Any]:
    """Return the facts of a file, the path of its unit sheet as from the folder of the job."""
    sheet = base.file.data.get("unit_sheet")
    if sheet is None or base is own or base.folder is None or own.folder is None:
        return base.file.data
    beside = os.path.relpath(base.folder / sheet.strip(), own.folder)
    return {**base.file.data, "unit_sheet": Path(beside).as_posix()}
