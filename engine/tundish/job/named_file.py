"""The files that a job names: its unit sheet, the job that it is based on, the job of a sheet."""

from __future__ import annotations

from pathlib import Path, PureWindowsPath

from tundish.text.place import Places
from tundish.text.problem import Problem
from tundish.text.quoted import quoted
from tundish.text.toml_file import TomlFile

NO_FOLDER = {
    "unit_sheet": "A sheet is found from the folder of a job file, and here is none.",
    "based_on": "A job to be based on is found from the folder of a job file, and here is none.",
    "of_job": "The job of a sheet is found from the folder of the sheet, and here is none.",
}
"""The sentence for a file that is named where no folder is known, by the key that names it."""

FILES = tuple(NO_FOLDER)
"""The keys whose values are paths of files with more facts: nothing of the installation itself."""


def named_path(
    file: TomlFile,
    key: str,
    folder: Path | None,
    places: Places,
    problems: list[Problem],
    tree: Path | None = None,
) -> Path | None:
    """Return the path of another file that one names, noting what is wrong with it.

    Args:
        file: The file that names it.
        key: Its key at the top of the file.
        folder: The folder that paths start from, or None if there is none.
        places: The places in the file.
        problems: Gets what is wrong.
        tree: A folder, links resolved, out of which the path may not lead; None if it may.

    Returns:
        The path; None where no file is named, or none that can be read.
    """
    written = file.data.get(key)
    if not isinstance(written, str) or not written.strip():
        return None  # nothing is named, or the kind of the fact refuses it
    wrong = _wrong_path(written.strip(), folder, key, tree)
    if wrong or folder is None:
        problems.append(Problem(file.name, *places.value_of((key,)), f"{key}: {wrong}", key))
        return None
    return folder / written.strip()


def _wrong_path(path: str, folder: Path | None, key: str, tree: Path | None) -> str:
    """Return what is wrong with the path of another file; an empty text if nothing is."""
    if not path.isprintable():
        return f"{quoted(path)} holds a control character; write / for a backslash in a path."
    if Path(path).is_absolute() or PureWindowsPath(path).anchor:
        return f"{quoted(path)} is an absolute path; write it relative to the folder of this file."
    if folder is None:
        return NO_FOLDER[key]
    # Checked first, so that nobody learns which files exist elsewhere.
    if tree is not None and _leads_out(path, folder, tree):
        return (
            f"{quoted(path)} leads out of the folder of the job; put the house type beside the "
            "job or in a folder below it."
        )
    try:
        if (folder / path).is_file():
            return ""
        if (folder / path).is_dir():
            return f"{quoted(path)} is a folder; name a file in it."
    except (OSError, ValueError):  # a name that no file can have
        pass
    return f"There is no file {quoted(path)} beside this one."


def _leads_out(path: str, folder: Path, tree: Path) -> bool:
    if ".." in PureWindowsPath(path).parts:  # parted at both sorts of slash
        return True
    try:
        return not (folder / path).resolve().is_relative_to(tree)
    except (OSError, ValueError, RuntimeError):  # no file can have this name, or links in a circle
        return False
