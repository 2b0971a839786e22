"""Where each fact of a job was written: in its own file, its unit sheet, or a sheet over it."""

from __future__ import annotations

from tundish.job.overlay import Positions
from tundish.job.paths import path_steps
from tundish.reading.place import Path, Places
from tundish.reading.toml_file import TomlFile


class Source:
    """The texts that a job was read from.

    Args:
        job: The job's own file.
        sheet: The unit sheet, or None.
        renamed: Key under which a fact is written, by the name that rules know it by.
        over: A sheet laid over the job, or None.
        positions: Where in that sheet the items of the job's lists stand.
    """

    def __init__(
        self,
        job: TomlFile,
        sheet: TomlFile | None,
        renamed: dict[str, str],
        over: TomlFile | None = None,
        positions: Positions | None = None,
    ) -> None:
        own = (job,) if sheet is None else (job, sheet)
        self.files = own if over is None else (over, *own)
        self._places = tuple((file, Places(file.text)) for file in own)
        self._over = None if over is None else (over, Places(over.text))
        self._positions = positions or {}
        self._renamed = renamed

    def place(self, path: str) -> tuple[str, int, int] | None:
        """Return where a fact was written.

        Args:
            path: Its dotted path, with list positions counted from 1.

        Returns:
            File, line and column of its key; None if it was not written.
        """
        steps = path_steps(path)
        if self._over is not None:
            found = self._in(*self._over, self._in_sheet(steps))
            if found is not None:
                return found
        for file, places in self._places:
            # The job's own list replaces the whole list of the sheet, so its key decides.
            if places.has(_up_to_list(self._written(steps, file))):
                return self._in(file, places, steps)
        return None

    def _in(self, file: TomlFile, places: Places, steps: Path) -> tuple[str, int, int] | None:
        written = self._written(steps, file)
        return (file.name, *places.of(written)) if places.has(written) else None

    def _in_sheet(self, steps: Path) -> Path:
        """Return the path as the sheet over the job has it, whose lists may be shorter."""
        found: Path = ()
        for depth, step in enumerate(steps):
            there = self._positions.get(steps[:depth])
            # An item that the sheet passes over stands nowhere in it.
            found = (*found, there.get(step, -1) if there and isinstance(step, int) else step)
        return found

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
