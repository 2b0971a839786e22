"""The house types installed with the program, copied beside a job that is based on one."""

from __future__ import annotations

import tomllib
from pathlib import Path

from tundish.text.bundled_folders import bundled_folder
from tundish.text.new_file import AlreadyThereError, write_new


def copy_house_type(named: str, new: Path) -> tuple[str, list[Path]]:
    """Copy a house type of the program's own into the folder of a new job.

    A job is based on files in its own folder or below, so the house type is copied there with the
    unit sheet that it names; what lies there already is left as it is.

    Args:
        named: A file, or the name of a house type of the program's own.
        new: The file of the new job.

    Returns:
        The path as it was named, or that of the copy; and the files that were written.

    Raises:
        OSError: If a copy cannot be written.
    """
    folder = bundled_folder("sample_jobs")
    own = _own(named, folder)
    if own is None or own.resolve().is_relative_to(new.parent.resolve()):
        return named, []
    sheet = tomllib.loads(own.read_text(encoding="utf-8")).get("unit_sheet")
    written = []
    for file in (own, own.parent / sheet) if isinstance(sheet, str) else (own,):
        source = file.resolve()
        copy = new.parent / source.relative_to(folder.resolve())
        copy.parent.mkdir(parents=True, exist_ok=True)
        try:
            write_new(copy, source.read_text(encoding="utf-8"))
        except AlreadyThereError:
            continue
        written.append(copy)
    return str(new.parent / own.relative_to(folder)), written


def _own(named: str, folder: Path) -> Path | None:
    """Return the house type of the program's own that is named, if one is."""
    types = {path.stem: path for path in sorted((folder / "house_types").glob("*.toml"))}
    file = Path(named)
    if not file.exists():
        return types.get(named.removesuffix(".toml"))
    return next((path for path in types.values() if path.resolve() == file.resolve()), None)
