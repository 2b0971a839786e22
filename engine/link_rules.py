"""Links the rules when a wheel is built, as Python compiles modules when they are installed."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class LinkedRules(BuildHookInterface):
    """Puts the linked rulebook into the wheel, beside the rules that it is made from."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Link the rules; a work tree that is installed for editing gets none, as it changes."""
        if version == "editable":
            return
        engine = str(Path(self.root) / "engine")
        sys.path.insert(0, engine)
        try:
            from tundish.rulebook.rulebook import prebuild

            self._folder = tempfile.TemporaryDirectory()
            prebuild(Path(self._folder.name))
        finally:
            sys.path.remove(engine)
        for path in Path(self._folder.name).iterdir():
            build_data["force_include"][str(path)] = f"tundish/linked/{path.name}"

    def finalize(self, version: str, build_data: dict[str, Any], artifact_path: str) -> None:
        """Tidy up."""
        if version != "editable":
            self._folder.cleanup()
