"""Reading a job: its file, its bases, its unit sheet, and all that is wrong in one run."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.job.job import Job
from tundish.job.layer import Layer
from tundish.job.merge import lay_over, without_blanks
from tundish.job.model.errors import part_of
from tundish.job.model.paths import path_text
from tundish.job.named_file import NO_FOLDER, named_path
from tundish.job.parts.placement import Clearance
from tundish.job.parts.unit import Unit
from tundish.job.provenance import Source
from tundish.job.said_in_text import answers_in
from tundish.text.merge import laid_over
from tundish.text.place import Places
from tundish.text.problem import Problem, Refused
from tundish.text.quoted import shown
from tundish.text.toml_file import TomlFile, parse_mended, read_mended


def read_job(path: str | Path) -> Job:
    """Return the job in a TOML file, with the facts of its unit sheet and of what it is based on.

    Args:
        path: Where the file is.

    Returns:
        The job; it remembers where each fact was written.

    Raises:
        Refused: If job or sheet cannot be read; carries all problems of both.
    """
    return _job(read_mended(path), Path(path).parent)


def parse_job(text: str, name: str = "<text>", folder: str | Path | None = None) -> Job:
    """Return the job in a TOML text.

    Args:
        text: The TOML text.
        name: Name to show for it in problems.
        folder: The folder that paths of a unit sheet and of a base start from; None if there is
            none.

    Returns:
        The job; it remembers where each fact was written.

    Raises:
        Refused: If job or sheet cannot be read; carries all problems of both.
    """
    return _job(parse_mended(text, name), None if folder is None else Path(folder))


def job_from_data(data: Mapping[str, Any], name: str = "<data>") -> Job:
    """Return the job in nested dictionaries, whose keys may be dotted paths.

    Args:
        data: The facts; `{"site.altitude": "40 m"}` is `{"site": {"altitude": "40 m"}}`.
        name: Name to show for it in problems.

    Returns:
        The job.

    Raises:
        Refused: If a fact cannot be read; carries all problems.
    """
    try:
        nested = nested_data(data)
    except ValueError as error:
        raise Refused([Problem(name, None, None, str(error))]) from None
    problems: list[Problem] = []
    for key, sentence in NO_FOLDER.items():
        if key in nested:
            problems.append(Problem(name, None, None, f"{key}: {sentence}", key))
    job = part_of(Job, nested, problems, name, None)
    if problems or job is None:
        raise Refused(problems)
    return job


def nested_data(data: Mapping[Any, Any]) -> dict[str, Any]:
    """Return data whose dotted keys are taken apart into nested dictionaries.

    Args:
        data: Dictionaries and lists.

    Returns:
        The same facts, without a dot in any key.

    Raises:
        ValueError: If a key is no text, or one fact is stated twice.
    """
    nested: dict[str, Any] = {}
    for key, value in data.items():
        if not isinstance(key, str):
            raise ValueError(f"A key is a text, not {shown(key)}.")
        *outer, last = key.split(".")
        table = nested
        for name in outer:
            table = table.setdefault(name, {})
            if not isinstance(table, dict):
                raise ValueError(f"{shown(key)} is stated twice, once as a part of it.")
        table[last] = _joined(table[last], _inner(value), key) if last in table else _inner(value)
    return nested


def _inner(value: Any) -> Any:
    if isinstance(value, Mapping):
        return nested_data(value)
    return [_inner(item) for item in value] if isinstance(value, list | tuple) else value


def _joined(one: Any, other: Any, key: str) -> dict[str, Any]:
    """Return two tables as one, if no fact stands in both."""
    if not isinstance(one, dict) or not isinstance(other, dict):
        raise ValueError(f"{shown(key)} is stated twice.")
    joined = dict(one)
    for name, value in other.items():
        joined[name] = _joined(joined[name], value, f"{key}.{name}") if name in joined else value
    return joined


def _job(file: TomlFile, folder: Path | None) -> Job:
    if "of_job" in file.data:
        return _laid_over(file, folder)
    problems: list[Problem] = []
    own = _own(file, folder, problems)
    return _told_from(own, file.with_mistakes(problems))


@dataclass(slots=True)
class _Stack:
    """A job with all files that it is made from.

    Attributes:
        layers: The files laid over one another, the uppermost first.
        sheet: The unit sheet.
        data: The facts of all of them.
        job: What they come to; None where something is wrong.
    """

    layers: list[Layer]
    sheet: TomlFile | None
    data: dict[str, Any]
    job: Job | None


def _told_from(stack: _Stack, problems: list[Problem]) -> Job:
    """Return the job that files come to, with where each fact stands."""
    if problems or stack.job is None:
        raise Refused(problems)
    written_as = Clearance.written_as
    stack.job._source = Source(stack.layers, stack.sheet, written_as, stack.data)
    return stack.job


def _own(file: TomlFile, folder: Path | None, problems: list[Problem]) -> _Stack:
    """Read a job with what it is based on and its unit sheet."""
    own = Layer(file, folder)
    job = part_of(Job, file.data, problems, file.name, own)
    layers, data = [own], file.data
    if "based_on" in file.data:
        from tundish.job.bases import laid_over_bases

        layers, data, job = laid_over_bases(own, problems)
    sheet = _sheet(layers, problems)
    if sheet is None or job is None or problems:
        return _Stack(layers, sheet, data, job)
    unit = laid_over(data.get("unit", {}), sheet.data["unit"])
    merged, known = {**data, "unit": unit}, {**job.given, "unit": unit}
    # What has been read once is not read again. What does not go together is told of whoever put
    # something over the sheet.
    upper = next((layer for layer in layers if "unit" in layer.file.data), own)
    job = part_of(Job, known, problems, upper.file.name, upper)
    return _Stack(layers, sheet, merged, job)


def _laid_over(over: TomlFile, folder: Path | None) -> Job:
    """Read a job and lay over it the sheet that names it."""
    places, problems = Places(over.text), list[Problem]()
    filled = answers_in(without_blanks(over.data))
    part_of(Job, filled, problems, over.name, places)

    def note(key: str, sentence: str) -> None:
        place = places.value_of((key,))
        problems.append(Problem(over.name, *place, f"{key}: {sentence}", key))

    path = named_path(over, "of_job", folder, places, problems)
    if "based_on" in filled:
        note("based_on", "A sheet is laid over its job; write this line in the job.")
    if path is None:
        if not problems:
            note("of_job", "Name the file of the job, beside this one.")
        raise Refused(over.with_mistakes(problems))
    file = read_mended(path)
    if "of_job" in file.data:
        note("of_job", "This is a sheet itself; name the job that it is laid over.")
        raise Refused(over.with_mistakes(problems))
    own = _own(file, path.parent, problems)
    laid = lay_over(own.data, {key: value for key, value in filled.items() if key != "of_job"})
    problems.extend(
        Problem(over.name, *places.of(at), sentence, path_text(at)) for at, sentence in laid.wrong
    )
    problems = over.with_mistakes(file.with_mistakes(problems))
    upper = Layer(over, folder, laid.positions, filled)
    job = None if problems else part_of(Job, laid.data, problems, over.name, upper)
    return _told_from(_Stack([upper, *own.layers], own.sheet, laid.data, job), problems)


def _sheet(layers: Sequence[Layer], problems: list[Problem]) -> TomlFile | None:
    """Return the sheet that the uppermost file names that names one, noting what is wrong."""
    job = next((layer for layer in layers if "unit_sheet" in layer.file.data), layers[0])
    path = named_path(job.file, "unit_sheet", job.folder, job, problems)
    if path is None:
        return None
    try:
        sheet = read_mended(path)
    except Refused as refusal:
        problems.extend(refusal.problems)
        return None
    wrong = _other_keys(sheet)
    unit = sheet.data.get("unit")
    if unit is not None:
        part_of(Unit, unit, wrong, sheet.name, Places(sheet.text), ("unit",))
    problems.extend(sheet.with_mistakes(wrong))
    return sheet


def _other_keys(sheet: TomlFile) -> list[Problem]:
    """Return the problems of a sheet that holds anything but the one table."""
    places = Places(sheet.text)
    problems = [
        Problem(
            sheet.name,
            *places.of((key,)),
            f"{shown(key)} does not belong: a unit sheet holds one table, [unit].",
            key,
        )
        for key in sheet.data
        if key != "unit"
    ]
    if "unit" not in sheet.data:
        problems.append(Problem(sheet.name, None, None, "A unit sheet needs the table [unit]."))
    return problems
