"""Reading a job: its file, its unit sheet, and all that is wrong with either in one run."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path, PureWindowsPath
from typing import Any, TypeVar

from tundish.job.job import Job
from tundish.job.making import Unreadable
from tundish.job.overlay import lay_over, without_blanks
from tundish.job.part import Part
from tundish.job.paths import path_text
from tundish.job.placement import Clearance
from tundish.job.refusing import problems_in
from tundish.job.source import Source
from tundish.job.unit import Unit
from tundish.reading.laying import laid_over
from tundish.reading.place import Places
from tundish.reading.problem import Problem, Refused
from tundish.reading.shown import shown
from tundish.reading.toml_file import TomlFile, parse_mended, read_mended


def read_job(path: str | Path) -> Job:
    """Return the job in a TOML file, with the facts of the unit sheet that it names.

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
        folder: The folder that the path of a unit sheet starts from; None if there is none.

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
    for key, sentence in _NO_FOLDER.items():
        if key in nested:
            problems.append(Problem(name, None, None, f"{key}: {sentence}", key))
    job = _validated(Job, nested, problems, name, None)
    if problems or job is None:
        raise Refused(problems)
    return job


_NO_FOLDER = {
    "unit_sheet": "A sheet is found from the folder of a job file, and here is none.",
    "of_job": "The job of a sheet is found from the folder of the sheet, and here is none.",
}


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
    sheet, _, job = _own(file, folder, problems)
    problems = file.with_mistakes(problems)
    if problems or job is None:
        raise Refused(problems)
    job._source = Source(file, sheet, Clearance.written_as)
    return job


def _own(
    file: TomlFile, folder: Path | None, problems: list[Problem]
) -> tuple[TomlFile | None, dict[str, Any], Job | None]:
    """Read a job with its unit sheet; return the sheet, the facts of both and the job."""
    places = Places(file.text)
    job = _validated(Job, file.data, problems, file.name, places)
    sheet = _sheet(file, folder, places, problems)
    if sheet is None or job is None or problems:
        return sheet, file.data, job
    merged = {**file.data, "unit": laid_over(file.data.get("unit", {}), sheet.data["unit"])}
    # What has been read once is not read again.
    known = {**job.given, "unit": merged["unit"]}
    return sheet, merged, _validated(Job, known, problems, file.name, places)


def _laid_over(over: TomlFile, folder: Path | None) -> Job:
    """Read a job and lay over it the sheet that names it."""
    places, problems = Places(over.text), list[Problem]()
    filled = without_blanks(over.data)
    _validated(Job, filled, problems, over.name, places)
    path = _named(over, "of_job", folder, places, problems)
    if path is None:
        sentence = "of_job: Name the file of the job, beside this one."
        blank = Problem(over.name, *places.value_of(("of_job",)), sentence, "of_job")
        raise Refused(over.with_mistakes(problems or [blank]))
    file = read_mended(path)
    if "of_job" in file.data:
        sentence = "of_job: This is a sheet itself; name the job that it is laid over."
        problems.append(Problem(over.name, *places.value_of(("of_job",)), sentence, "of_job"))
        raise Refused(over.with_mistakes(problems))
    sheet, data, _ = _own(file, path.parent, problems)
    laid = lay_over(data, {key: value for key, value in filled.items() if key != "of_job"})
    problems.extend(
        Problem(over.name, *places.of(at), sentence, path_text(at)) for at, sentence in laid.wrong
    )
    problems = over.with_mistakes(file.with_mistakes(problems))
    job = None if problems else _validated(Job, laid.data, problems, over.name, places)
    if problems or job is None:
        raise Refused(problems)
    job._source = Source(file, sheet, Clearance.written_as, over, laid.positions)
    return job


def _named(
    file: TomlFile, key: str, folder: Path | None, places: Places, problems: list[Problem]
) -> Path | None:
    """Return the path of another file that one names, noting what is wrong with it."""
    written = file.data.get(key)
    if not isinstance(written, str) or not written.strip():
        return None  # nothing is named, or its reader is told that this is no text
    wrong = _wrong_path(written, folder, key)
    if wrong or folder is None:
        problems.append(Problem(file.name, *places.value_of((key,)), f"{key}: {wrong}", key))
        return None
    return folder / written.strip()


def _sheet(
    job: TomlFile, folder: Path | None, places: Places, problems: list[Problem]
) -> TomlFile | None:
    """Return the sheet that a job names, noting what is wrong with it."""
    path = _named(job, "unit_sheet", folder, places, problems)
    if path is None:
        return None
    try:
        sheet = read_mended(path)
    except Refused as refusal:
        problems.extend(refusal.problems)
        return None
    wrong = _other_keys(sheet)
    unit = sheet.data.get("unit")
    root: tuple[str, ...] = ("unit",)
    if unit is not None:
        _validated(Unit, unit, wrong, sheet.name, Places(sheet.text), root)
    problems.extend(sheet.with_mistakes(wrong))
    return sheet


def _wrong_path(written: str, folder: Path | None, key: str) -> str:
    """Return what is wrong with the path of another file; an empty text if nothing is."""
    path = written.strip()
    if not path.isprintable():
        return f"{shown(path)} holds a control character; write / for a backslash in a path."
    if Path(path).is_absolute() or PureWindowsPath(path).anchor:
        return f"{shown(path)} is an absolute path; write it relative to the folder of this file."
    if folder is None:
        return _NO_FOLDER[key]
    try:
        found = (folder / path).is_file()
    except (OSError, ValueError):
        found = False
    return "" if found else f"There is no file {shown(path)} beside this one."


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


_Read = TypeVar("_Read", bound=Part)


def _validated(
    part: type[_Read],
    data: Any,
    problems: list[Problem],
    file: str,
    places: Places | None,
    root: tuple[str, ...] = (),
) -> _Read | None:
    try:
        return part.read(data)
    except Unreadable as error:
        problems.extend(problems_in(error, part, file, places, root))
        return None
