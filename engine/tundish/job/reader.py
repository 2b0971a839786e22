"""Reading a job: its file, its bases, its unit sheet, and all that is wrong in one run."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, Generic, NamedTuple, TypeVar

from tundish.job.bases import merge_bases
from tundish.job.layer import Layer
from tundish.job.merge import merge_facts, without_blanks
from tundish.job.model.part import Part
from tundish.job.model.paths import path_text
from tundish.job.named_file import NO_FOLDER, named_path
from tundish.job.parts.placement import Clearance
from tundish.job.parts.unit import OutdoorUnit
from tundish.job.provenance import Provenance
from tundish.job.text_answers import parse_answers
from tundish.text.merge import merge
from tundish.text.place import Places
from tundish.text.problem import Problem, Refused, refusal
from tundish.text.quoted import quoted
from tundish.text.toml_file import TomlFile, parse_mended, read_mended

_Job = TypeVar("_Job", bound=Part)


def read_job(kind: type[_Job], path: str | Path) -> tuple[_Job, Provenance]:
    """Return the job in a TOML file, and where each fact was written; see `Job.from_file`.

    Args:
        kind: The class of jobs.
        path: Where the file is.
    """
    return _read(kind, read_mended(path), Path(path).parent)


def parse_job(
    kind: type[_Job], text: str, name: str, folder: str | Path | None
) -> tuple[_Job, Provenance]:
    """Return the job in a TOML text, and where each fact was written; see `Job.from_toml`.

    Args:
        kind: The class of jobs.
        text: The TOML text.
        name: Name to show for it in problems.
        folder: The folder that paths of a unit sheet and of a base start from, or None.
    """
    return _read(kind, parse_mended(text, name), None if folder is None else Path(folder))


def job_from_data(kind: type[_Job], data: Mapping[str, Any], name: str) -> _Job:
    """Return the job in nested dictionaries; see `Job.from_data`.

    Args:
        kind: The class of jobs.
        data: The facts.
        name: Name to show for it in problems.
    """
    try:
        nested = nested_data(data)
    except ValueError as error:
        raise refusal(name, str(error)) from None
    problems = [
        Problem(name, None, None, f"{key}: {sentence}", key)
        for key, sentence in NO_FOLDER.items()
        if key in nested
    ]
    job = kind.read(nested, problems, name, None)
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
            raise ValueError(f"A key is a text, not {quoted(key)}.")
        *outer, last = key.split(".")
        table = nested
        for name in outer:
            table = table.setdefault(name, {})
            if not isinstance(table, dict):
                raise ValueError(f"{quoted(key)} is stated twice, once as a part of it.")
        table[last] = _joined(table[last], _inner(value), key) if last in table else _inner(value)
    return nested


def _inner(value: Any) -> Any:
    if isinstance(value, Mapping):
        return nested_data(value)
    return [_inner(item) for item in value] if isinstance(value, list | tuple) else value


def _joined(first: Any, second: Any, key: str) -> dict[str, Any]:
    """Return two tables as one, if no fact stands in both."""
    if not isinstance(first, dict) or not isinstance(second, dict):
        raise ValueError(f"{quoted(key)} is stated twice.")
    joined = dict(first)
    for name, value in second.items():
        joined[name] = _joined(joined[name], value, f"{key}.{name}") if name in joined else value
    return joined


class _Stack(NamedTuple, Generic[_Job]):
    """A job with all files that it is made from.

    Attributes:
        layers: The files that are merged, the uppermost first.
        sheet: The unit sheet.
        data: The facts of all of them.
        job: The job that they make; None where something is wrong.
    """

    layers: list[Layer]
    sheet: TomlFile | None
    data: dict[str, Any]
    job: _Job | None


def _read(kind: type[_Job], file: TomlFile, folder: Path | None) -> tuple[_Job, Provenance]:
    problems: list[Problem] = []
    if "of_job" in file.data:
        stack = _with_filled_sheet(kind, file, folder, problems)
    else:
        stack = _with_bases(kind, file, folder, problems)
        problems = file.with_mistakes(problems)
    if problems or stack.job is None:
        raise Refused(problems)
    return stack.job, Provenance(stack.layers, stack.sheet, Clearance.written_as, stack.data)


def _with_bases(
    kind: type[_Job], file: TomlFile, folder: Path | None, problems: list[Problem]
) -> _Stack[_Job]:
    """Read a job with what it is based on and its unit sheet."""
    own = Layer(file, folder)
    job = kind.read(file.data, problems, file.name, own)
    layers, data = [own], file.data
    if "based_on" in file.data:
        layers, data, job = merge_bases(kind, own, problems)
    sheet = _sheet(kind, layers, problems)
    if sheet is None or job is None or problems:
        return _Stack(layers, sheet, data, job)
    unit = merge(data.get("unit", {}), sheet.data["unit"])
    # Only the unit is read again. A clash is reported in the file whose facts replace the sheet's.
    upper = next((layer for layer in layers if "unit" in layer.file.data), own)
    job = kind.read({**job.given, "unit": unit}, problems, upper.file.name, upper)
    return _Stack(layers, sheet, {**data, "unit": unit}, job)


def _with_filled_sheet(
    kind: type[_Job], over: TomlFile, folder: Path | None, problems: list[Problem]
) -> _Stack[_Job]:
    """Read the job that a filled-in sheet names, and merge the sheet into it."""
    places = Places(over.text)
    filled = parse_answers(without_blanks(over.data), kind)
    kind.read(filled, problems, over.name, places)

    def note(key: str, sentence: str) -> None:
        place = places.value_of((key,))
        problems.append(Problem(over.name, *place, f"{key}: {sentence}", key))

    path = named_path(over, "of_job", folder, places, problems)
    if "based_on" in filled:
        note("based_on", "A sheet is merged over its job; write this line in the job.")
    if path is None:
        if not problems:
            note("of_job", "Name the file of the job, beside this one.")
        raise Refused(over.with_mistakes(problems))
    file = read_mended(path)
    if "of_job" in file.data:
        note("of_job", "This is a sheet itself; name the job that it is merged over.")
        raise Refused(over.with_mistakes(problems))
    own = _with_bases(kind, file, path.parent, problems)
    merged = merge_facts(own.data, {key: filled[key] for key in filled if key != "of_job"})
    problems.extend(
        Problem(over.name, *places.of(at), sentence, path_text(at)) for at, sentence in merged.wrong
    )
    problems[:] = over.with_mistakes(file.with_mistakes(problems))
    upper = Layer(over, folder, merged.positions, filled)
    job = None if problems else kind.read(merged.data, problems, over.name, upper)
    return _Stack([upper, *own.layers], own.sheet, merged.data, job)


def _sheet(kind: type[Part], layers: Sequence[Layer], problems: list[Problem]) -> TomlFile | None:
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
        OutdoorUnit.read(unit, wrong, sheet.name, Places(sheet.text), ("unit",), kind)
    problems.extend(sheet.with_mistakes(wrong))
    return sheet


def _other_keys(sheet: TomlFile) -> list[Problem]:
    """Return the problems of a sheet that holds anything but the one table."""
    places = Places(sheet.text)
    problems = [
        Problem(
            sheet.name,
            *places.of((key,)),
            f"{quoted(key)} does not belong: a unit sheet holds one table, [unit].",
            key,
        )
        for key in sheet.data
        if key != "unit"
    ]
    if "unit" not in sheet.data:
        problems.append(Problem(sheet.name, None, None, "A unit sheet needs the table [unit]."))
    return problems
