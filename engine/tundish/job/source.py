"""Where each fact of a job was written: in the job's own file, or in its unit sheet."""

from __future__ import annotations

from tundish.job.paths import path_steps
from tundish.reading.place import Path, Places
from tundish.reading.toml_file import TomlFile


class Source:
    """The texts that a job was read from.

    Args:
        job: The job's own file.
        sheet: The unit sheet, or None.
        renamed: Key under which a fact is written, by the name that rules know it by.
    """

    def __init__(self, job: TomlFile, sheet: TomlFile | None, renamed: dict[str, str]) -> None:
        self.files = (job,) if sheet is None else (job, sheet)
        self._places = tuple((file, Places(file.text)) for file in self.files)
        self._renamed = renamed

    def place(self, path: str) -> tuple[str, int, int] | None:
        """Return where a fact was written.

        Args:
            path: Its dotted path, with list positions counted from 1.

        Returns:
            File, line and column of its key; None if it was not written.
        """
        steps = path_steps(path)
        for file, places in self._places:
            # The job's own list replaces the whole list of the sheet, so its key decides.
            if places.has(_up_to_list(self._written(steps, file))):
                return self._in(file, places, steps)
        return None

    def _in(self, file: TomlFile, places: Places, steps: Path) -> tuple[str, int, int] | None:
        written = self._written(steps, file)
        return (file.name, *places.of(written)) if places.has(written) else None

    def _written(self, steps: Path, file: TomlFile) -> Path:
        """Return the path as it stands in the file: a measure of a pipe stands in its size."""
        data: object = file.data
        for depth, step in enumerate(steps):
            if isinstance(data, dict) and step not in data and step in self._renamed:
                step = self._renamed[str(step)]
                steps = (*steps[:depth], step, *steps[depth + 1 :])
            inner = _step_into(data, step)
            if inner is None:
                return steps[:depth] if isinstance(data, str) else steps
            data = inner
        return steps


def _step_into(data: object, step: str | int) -> object | None:
    if isinstance(data, dict):
        return data.get(step)
    if isinstance(data, list) and isinstance(step, int) and step < len(data):
        return data[step]  # type: ignore[no-any-return]
    return None


def _up_to_list(steps: Path) -> Path:
    for depth, step in enumerate(steps):
        if isinstance(step, int):
            return steps[:depth]
    return steps
