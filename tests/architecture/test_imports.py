"""Imports run one way, so that each room can be read knowing only those before it."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ENGINE = Path(__file__).parents[2] / "engine" / "tundish"

ROOMS = """
groundwork:
cache: groundwork
text: groundwork
units: groundwork text
physics: units
language: physics
job: units
rulebook: cache language job
findings: rulebook
compare: findings
survey: findings
remedy: findings
order: findings
portfolio: remedy
interview: remedy survey
results: compare order remedy survey
report: interview portfolio results
command: report
"""
"""Each room, and those right before it, whose own rooms before it may be imported too."""


def rooms_before() -> dict[str, frozenset[str]]:
    """Return of each room all that it may import; itself always, the package's front never."""
    before: dict[str, frozenset[str]] = {}
    for line in ROOMS.split("\n")[1:-1]:
        room, _, right_before = line.partition(":")
        near = right_before.split()
        before[room] = frozenset(near).union(*(before[other] for other in near))
    return before


BEFORE = rooms_before()
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


def test_imports_run_one_way() -> None:
    for path in FILES:
        if room := room_of(path):
            assert against_the_stream(path.read_text(), room) == [], path


def test_every_room_has_its_place_in_the_stream() -> None:
    rooms = {room_of(path) for path in FILES} - {""}
    assert rooms <= set(BEFORE)
    assert {"text", "units", "job", "language", "rulebook", "findings"} <= rooms


@pytest.mark.parametrize(
    ("source", "room"),
    [
        ("import tundish.report", "findings"),
        ("from tundish.rulebook.model.rule import Rule", "language"),
        ("from tundish.job.facts import Facts", "language"),
        ("from tundish.language.tree.tree import Node", "job"),
        ("from tundish import rulebook", "units"),
        ("from ..rulebook import rule", "units"),
        ("def late():\n    from tundish.command.main import main", "report"),
        ("if TYPE_CHECKING:\n    from tundish.findings.finding import Finding", "rulebook"),
        ("from tundish.text.bounds import MOST_STEPS\nimport tundish.job", "physics"),
        ("from tundish import Job", "report"),
    ],
)
def test_an_import_that_runs_back_is_found(source: str, room: str) -> None:
    assert against_the_stream(source, room)


@pytest.mark.parametrize(
    ("source", "room"),
    [
        ("import re\nfrom dataclasses import dataclass", "units"),
        ("from tundish.units.unit import Unit", "language"),
        ("from tundish.physics.friction import loss", "language"),
        ("from .unit import Unit", "units"),
        ("from tundish.findings.finding import Finding", "command"),
    ],
)
def test_an_import_with_the_stream_is_let_through(source: str, room: str) -> None:
    assert against_the_stream(source, room) == []


# -- rooms within a room ---------------------------------------------------------------------

WITHIN_REPORT = {
    "page": (),
    "tell": ("page.line",),
    "formats": ("page", "tell"),
    "schemas": (),
    "forms": ("schemas",),
}
"""Each room of report/, and what it may import of the others."""


def test_imports_within_report_run_one_way() -> None:
    for room, others in WITHIN_REPORT.items():
        allowed = tuple(f"tundish.report.{other}" for other in (room, *others))
        for path in (ENGINE / "report" / room).glob("*.py"):
            modules = imported(path.read_text(), f"tundish.report.{room}")
            within = [name for name in modules if name.startswith("tundish.report.")]
            assert [name for name in within if not name.startswith(allowed)] == [], path


# -- printing, and the size of files --------------------------------------------------------


def prints(source: str) -> list[int]:
    """Return the lines that print, or write to the console otherwise."""
    return [
        node.lineno
        for node in ast.walk(ast.parse(source))
        if (isinstance(node, ast.Name) and node.id in ("print", "breakpoint"))
        or (isinstance(node, ast.Attribute) and node.attr in ("stdout", "stderr", "stdin"))
    ]


def test_only_reports_and_commands_print() -> None:
    for path in FILES:
        if room_of(path) not in ("report", "command"):
            assert prints(path.read_text()) == [], path


def test_printing_is_found() -> None:
    assert prints("x = 1\nprint(x)") == [2]
    assert prints("import sys\nsys.stdout.write('x')") == [2]
    assert prints("show = print") == [1]
    assert not prints('"""print"""\nfingerprint = 1')


def test_no_file_is_longer_than_can_be_read_in_one_go() -> None:
    lines = {path: len(path.read_text().splitlines()) for path in FILES}
    assert not {path: length for path, length in lines.items() if length > LONGEST_FILE}


DANGEROUS = frozenset(("eval", "exec", "compile", "__import__"))


def test_code_is_made_in_one_place_alone() -> None:
    for path in FILES:
        called = {
            node.func.id
            for node in ast.walk(ast.parse(path.read_text()))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        }
        allowed = {"exec"} if path.name == "compiled.py" else set()
        assert called & DANGEROUS <= allowed, path
