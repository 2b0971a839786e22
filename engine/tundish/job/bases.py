"""What a job is based on: a house type, a firm's usual job, laid under what the job itself states.

    based_on = "house_types/semi.toml"

Tables are laid over each other key by key, and what the job states stands over what the base
states. Items of a list are laid over the base's item of the same name; one of a new name is added
to the list. Where an item of the job's list has no name, the whole list takes the place of the
base's, as positions would mean something else after the base has changed; `[]` empties the list.
"none" and false take a table of the base away.

A base lies in the folder of the file that names it, or below: what is shared with a job is known
from where the job lies, and a job from a stranger reads nothing of what lies around it. A base may
be based on another. Waivers stay with the job that they were written for.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tundish.job.job import Job
from tundish.job.layer import Layer
from tundish.job.merge import lay_over
from tundish.job.model.errors import part_of
from tundish.job.named_file import named_path
from tundish.text.bounds import MOST_BASES
from tundish.text.problem import Problem, Refused
from tundish.text.quoted import shown
from tundish.text.toml_file import TomlFile, read_mended


def laid_over_bases(
    own: Layer, problems: list[Problem]
) -> tuple[list[Layer], dict[str, Any], Job | None]:
    """Lay a job over all that it is based on.

    Args:
        own: The file of the job, which has been read as a job.
        problems: Gets what is wrong, with these files or with what they come to.

    Returns:
        The files, the uppermost first; the facts of all, the path of a unit sheet as from the
        folder of the job; the job that they make, or None where something is wrong.
    """
    layers = [own, *_bases(own, problems)]
    if problems or len(layers) == 1:
        return layers, own.file.data, None
    *uppers, lowest = layers
    data, laid_layers, job = _seen_from(own, lowest), [lowest], None
    for upper in reversed(uppers):
        laid = lay_over(data, _seen_from(own, upper), adding=True)
        data, layer = laid.data, Layer(upper.file, upper.folder, laid.positions)
        laid_layers.insert(0, layer)
        # Read after each, so that what does not go together is told of the file that brought it.
        job = part_of(Job, data, problems, upper.file.name, layer)
        if job is None:
            break
    return laid_layers, data, job


def _bases(own: Layer, problems: list[Problem]) -> list[Layer]:
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
        wrong = wrong or (_wrong_base(base.file) if base else "")
        if wrong:
            place = upper.value_of((_KEY,))
            problems.append(Problem(upper.file.name, *place, f"{_KEY}: {wrong}", _KEY))
        if wrong or base is None:
            return chain[1:]
        _look_at(base, problems)
        chain.append(base)


_KEY = "based_on"


def _read(path: Path, problems: list[Problem]) -> Layer | None:
    try:
        return Layer(read_mended(path), path.parent)
    except Refused as refusal:
        problems.extend(refusal.problems)
        return None


def _look_at(base: Layer, problems: list[Problem]) -> None:
    """Note what is wrong with a job on which others are based."""
    name, wrong = base.file.name, list[Problem]()
    part_of(Job, base.file.data, wrong, name, base)
    if base.file.data.get("waiver"):
        sentence = (
            "waiver: A waiver is answered for in one job, and other jobs are based on this one; "
            "move it to the job that it is meant for."
        )
        wrong.append(Problem(name, *base.of(("waiver",)), sentence, "waiver"))
    problems.extend(base.file.with_mistakes(wrong))


def _wrong_chain(chain: Sequence[Layer], path: Path) -> str:
    """Say why a job cannot be based on one more, or nothing."""
    seen = [Path(layer.file.name).resolve() for layer in chain]
    if path.resolve() in seen:
        names = [shown(Path(layer.file.name).name) for layer in chain]
        again = shown(path.name)
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


def _wrong_base(file: TomlFile) -> str:
    """Say why a file is no job that another can be based on, or nothing; never what it holds."""
    name, keys = shown(Path(file.name).name), set(file.data)
    if "of_job" in keys:
        return f"{name} is a sheet or form; name the job that it is laid over."
    if keys and not keys & (set(Job.members) - {"unit"}):
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
