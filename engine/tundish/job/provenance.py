"""Where each fact of a job was written: in its own file or in one that it is joined with."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from tundish.job.layer import Layer
from tundish.job.model.paths import path_steps
from tundish.job.named_file import FILES
from tundish.text.toml_file import TomlFile


class Provenance:
    """The texts that a job was read from.

    Args:
        layers: The files that were merged, the uppermost first: a filled-in sheet, the job, and
            what the job is based on.
        sheet: The unit sheet, which all of them override, or None.
        renamed: Key under which a fact is written, by the name that rules know it by.
        data: The facts of all these files together, as TOML holds them.
    """

    def __init__(
        self,
        layers: Sequence[Layer],
        sheet: TomlFile | None,
        renamed: Mapping[str, str],
        data: Mapping[str, Any],
    ) -> None:
        self._layers = (*layers, *(() if sheet is None else (Layer(sheet),)))
        self.files = tuple(layer.file for layer in self._layers)
        self.sheet = sheet
        self.data = data
        self._renamed = renamed

    def in_bases(self, steps: tuple[str | int, ...]) -> bool:
        """Say whether something is stated by a job that this one is based on.

        Args:
            steps: The way to it, without positions.
        """
        return any(
            layer.place(steps, self._renamed) is not None
            for layer in self._layers[1:]
            if layer.file is not self.sheet
        )

    def place(self, path: str) -> tuple[str, int, int] | None:
        """Return where a fact was written.

        Args:
            path: Its dotted path, with list positions counted from 1.

        Returns:
            File, line and column of its key; None if it was not written.
        """
        steps = path_steps(path)
        for layer in self._layers:
            place = layer.place(steps, self._renamed)
            if place is not None:
                return (layer.file.name, *place)
            if layer.hides(steps):
                return None
        return None

    def as_one_file(self, folder: Path, data: Mapping[str, Any] | None = None) -> dict[str, Any]:
        """Return the facts as one job file holds them that is neither a sheet nor based on a job.

        Its unit sheet stays where it is; of what the sheet says, nothing is said again.

        Args:
            folder: The folder that the new file will lie in.
            data: The facts of all files together where some have changed; those that were read
                if None.
        """
        data = self.data if data is None else data
        facts = {key: value for key, value in data.items() if key not in FILES}
        if self.sheet is None:
            return facts
        beside = Path(os.path.relpath(self.sheet.name, folder)).as_posix()
        unit = _differences(facts.pop("unit", {}), self.sheet.data["unit"])
        return {"unit_sheet": beside, **facts, **({"unit": unit} if unit else {})}


def _differences(upper: Mapping[str, Any], lower: Mapping[str, Any]) -> dict[str, Any]:
    """Return what the upper table states that the lower one does not, or states otherwise."""
    return {
        key: _differences(value, lower[key])
        if isinstance(value, dict) and isinstance(lower.get(key), dict)
        else value
        for key, value in upper.items()
        if key not in lower or value != lower[key]
    }
