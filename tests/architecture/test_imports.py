"""Imports run one way, so that each room can be read knowing only those before it."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ENGINE = Path(__file__).parents[2] / "engine" / "tundish"

BEFORE: dict[str, frozenset[str]] = {
    "groundwork": frozenset(),
    "storing": frozenset({"groundwork"}),
    "reading": frozenset({"groundwork"}),
    "measure": frozenset({"groundwork", "reading"}),
    "physics": frozenset({"groundwork", "reading", "measure"}),
    "language": frozenset({"groundwork", "reading", "measure", "physics"}),
    "job": frozenset({"groundwork", "reading", "measure"}),
}
BEFORE["rulebook"] = BEFORE["job"] | {"storing", "language", "job"}
BEFORE["assessment"] = BEFORE["rulebook"] | {"rulebook"}
BEFORE["interview"] = BEFORE["assessment"] | {"assessment"}
BEFORE["report"] = BEFORE["interview"] | {"interview"}
BEFORE["command"] = BEFORE["report"] | {"report"}
"""What each room may import; itself always, and the front door of the package never."""

FILES = sorted(ENGINE.rglob("*.py"))
LONGEST_FILE = 300


def room_of(path: Path) -> str:
    parts = path.relative_to(ENGINE).parts
    return parts[0] if len(parts) > 1 else ""


def imported(source: str, package: str) -> Iterator[str]:
    """Give the modules a source imports, those inside functions and type checks too."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            module = node.module or ""
            yield module
            yield from (f"{module}.{alias.name}" for alias in node.names if module == "tundish")
        elif isinstance(node, ast.ImportFrom):
            above = package.split(".")[: len(package.split(".")) - node.level + 1]
            yield ".".join([*above, node.module or ""]).rstrip(".")


def against_the_stream(source: str, room: str) -> list[str]:
    """Return the imports of a room's source that it may not have."""
    wrong = []
    for module in imported(source, f"tundish.{room}"):
        first, _, rest = module.partition(".")
        if first != "tundish":
            continue
        other = rest.partition(".")[0]
        if other != room and other not in BEFORE[room]:
            wrong.append(module)
    return wrong


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ENGINE)))
def test_imports_run_one_way(path: Path) -> None:
    room = room_of(path)
    if room:
        assert against_the_stream(path.read_text(), room) == []


def test_every_room_has_its_place_in_the_stream() -> None:
    rooms = {room_of(path) for path in FILES} - {""}
    assert rooms <= set(BEFORE)
    assert {"reading", "measure", "job", "language", "rulebook", "assessment"} <= rooms


def test_the_stream_has_no_eddy() -> None:
    for room, before in BEFORE.items():
        assert room not in before
        for other in before:
            assert room not in BEFORE[other]
            assert BEFORE[other] <= before | {"physics"}


@pytest.mark.parametrize(
    ("source", "room"),
    [
        ("import tundish.report", "assessment"),
        ("from tundish.rulebook.rule import Rule", "language"),
        ("from tundish.job.facts import Facts", "language"),
        ("from tundish.language.tree import Node", "job"),
        ("from tundish import rulebook", "measure"),
        ("from ..rulebook import rule", "measure"),
        ("def late():\n    from tundish.command.main import main", "report"),
        ("if TYPE_CHECKING:\n    from tundish.assessment.finding import Finding", "rulebook"),
        ("from tundish.reading.bounds import MOST_STEPS\nimport tundish.job", "physics"),
        ("from tundish import Job", "report"),
    ],
)
def test_an_import_that_runs_back_is_found(source: str, room: str) -> None:
    assert against_the_stream(source, room)


@pytest.mark.parametrize(
    ("source", "room"),
    [
        ("import re\nfrom dataclasses import dataclass", "measure"),
        ("from tundish.measure.unit import Unit", "language"),
        ("from tundish.physics.friction import loss", "language"),
        ("from .unit import Unit", "measure"),
        ("from tundish.assessment.finding import Finding", "command"),
    ],
)
def test_an_import_with_the_stream_is_let_through(source: str, room: str) -> None:
    assert against_the_stream(source, room) == []


# -- printing, and the size of files --------------------------------------------------------


def prints(source: str) -> list[int]:
    """Return the lines that print, or write to the console otherwise."""
    return [
        node.lineno
        for node in ast.walk(ast.parse(source))
        if (isinstance(node, ast.Name) and node.id in ("print", "breakpoint"))
        or (isinstance(node, ast.Attribute) and node.attr in ("stdout", "stderr", "stdin"))
    ]


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ENGINE)))
def test_only_reports_and_commands_print(path: Path) -> None:
    if room_of(path) not in ("report", "command"):
        assert prints(path.read_text()) == []


def test_printing_is_found() -> None:
    assert prints("x = 1\nprint(x)") == [2]
    assert prints("import sys\nsys.stdout.write('x')") == [2]
    assert prints("show = print") == [1]
    assert not prints('"""print"""\nfingerprint = 1')


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ENGINE)))
def test_no_file_is_longer_than_can_be_read_in_one_go(path: Path) -> None:
    assert len(path.read_text().splitlines()) <= LONGEST_FILE


DANGEROUS = frozenset(("eval", "exec", "compile", "__import__"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ENGINE)))
def test_code_is_made_in_one_place_alone(path: Path) -> None:
    called = {
        node.func.id
        for node in ast.walk(ast.parse(path.read_text()))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    allowed = {"exec"} if path.name == "compiled.py" else set()
    assert called & DANGEROUS <= allowed
