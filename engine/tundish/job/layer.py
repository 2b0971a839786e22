"""One of the files that a job is merged from, and where the facts of the job stand in it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path as FilePath
from typing import Any

from tundish.job.merge import Positions
from tundish.text.place import Path, Place, Places
from tundish.text.toml_file import TomlFile


class Layer(Places):
    """The places of one file, asked for by the paths that facts have in the whole job.

    Args:
        file: The file.
        folder: The folder that the paths in it start from, or None if there is none.
        positions: Where in the file the items of the job's lists stand. A list that is not named
            here takes the place of those below it whole.
        stated: The facts in the file; all of its data if None.
    """

    def __init__(
        self,
        file: TomlFile,
        folder: FilePath | None = None,
        positions: Positions | None = None,
        stated: Mapping[str, Any] | None = None,
    ) -> None:
        super().__init__(file.text)
        self.file = file
        self.folder = folder
        self._positions = positions or {}
        self._stated = file.data if stated is None else stated

    def of(self, path: Path) -> Place:
        """Return the place of a key or list item of the job, or of the nearest around it."""
        return super().of(self._there(path))

    def value_of(self, path: Path) -> Place:
        """Return the place of a value of the job, or of the nearest around it."""
        return super().value_of(self._there(path))

    def place(self, path: Path, renamed: Mapping[str, str]) -> Place | None:
        """Return where exactly a fact of the job is written; None if it is not in this file.

        Args:
            path: The way to it in the whole job.
            renamed: Key under which a fact is written, by the name that rules know it by.
        """
        written = self._written(self._there(path), renamed)
        return super().of(written) if written else None

    def hides(self, path: Path) -> bool:
        """Say whether the file states something that hides the facts of the files below it.

        Args:
            path: The way to the fact in the whole job.
        """
        data: object = self._stated
        for depth, step in enumerate(self._there(path)):
            if isinstance(data, list) and path[:depth] not in self._positions:
                return True
            inner = _step_into(data, step)
            if inner is None:
                return not isinstance(data, dict | list)
            data = inner
        return False

    def _there(self, path: Path) -> Path:
        """Return the path as the file has it, whose lists may be shorter."""
        steps: Path = ()
        for depth, step in enumerate(path):
            positions = self._positions.get(path[:depth])
            if positions is not None and isinstance(step, int):
                step = positions.get(step, _NOWHERE)
            steps = (*steps, step)
        return steps

    def _written(self, steps: Path, renamed: Mapping[str, str]) -> Path:
        """Return the path as it stands in the file; an empty one if it does not."""
        data: object = self._stated
        for depth, step in enumerate(steps):
            if isinstance(data, dict) and step not in data and step in renamed:
                step = renamed[str(step)]
                steps = (*steps[:depth], step, *steps[depth + 1 :])
            inner = _step_into(data, step)
            if inner is None:
                # A measure of a pipe stands in its size.
                return steps[:depth] if isinstance(data, str) else ()
            data = inner
        return steps


_NOWHERE = -1
"""The position of an item that a file passes over."""


def _step_into(data: object, step: str | int) -> object | None:
    if isinstance(data, dict):
        return data.get(step)
    if isinstance(data, list) and isinstance(step, int) and 0 <= step < len(data):
        return data[step]  # type: ignore[no-any-return]
    return None
