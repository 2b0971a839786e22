"""The rooms of the language import each other one way, from the tree up to the evaluators."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import tundish.language

ROOMS = ("tree", "operations", "syntax", "check", "budget", "codegen", "evaluate")
"""Each room, behind those that it may import; no room is imported by one before it."""

LANGUAGE = Path(tundish.language.__file__).parent


def test_every_room_has_its_place() -> None:
    assert {path.name for path in LANGUAGE.iterdir() if (path / "__init__.py").is_file()} == {
        *ROOMS
    }


@pytest.mark.parametrize("room", ROOMS)
def test_no_import_runs_back(room: str) -> None:
    behind = "|".join(ROOMS[ROOMS.index(room) + 1 :]) or "none"
    for path in (LANGUAGE / room).rglob("*.py"):
        assert not re.findall(rf"tundish\.language\.(?:{behind})\b", path.read_text()), path
