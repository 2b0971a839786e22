"""The command run on a small rulebook of its own."""

from __future__ import annotations

import io
import shutil
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from report.packs import write_pack
from tundish.command.main import main
from tundish.text.bundled_folders import bundled_folder

GOOD_JOB = """
[job]
title = "Invented cottage"
stage = "design"
region = "GB"

[placement]
height_below = "300 mm"

[site]
snow_depth = "100 mm"

[water]
run = []
"""
DANGEROUS_JOB = GOOD_JOB.replace("300 mm", "250 mm").replace("cottage", "chalet")
CARELESS_JOB = GOOD_JOB.replace(
    "run = []", 'run = [{ name = "flow", place = "outdoors", insulation.thickness = "20 mm" }]'
)
OPEN_JOB = GOOD_JOB.replace('snow_depth = "100 mm"', "")
BROKEN_JOB = GOOD_JOB.replace("300 mm", "300 mmm")
SHEET = '[unit]\nmodel = "Invented 8 kW outdoor unit"\n'


@dataclass(frozen=True)
class Ran:
    """What a run of the command ended with and put out."""

    code: int
    out: str
    err: str


Run = Callable[..., Ran]
Write = Callable[[str, str], Path]


@pytest.fixture(name="run_built_in")
def command_on_built_in_rules(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Run:
    """Return a function that runs the command in a folder of its own, as it is installed."""
    work = tmp_path / "work"
    work.mkdir()
    monkeypatch.chdir(work)
    monkeypatch.setenv("COLUMNS", "100")

    def run(*arguments: str, stdin: bytes = b"") -> Ran:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin)))
        code = main(arguments)
        told = capsys.readouterr()
        return Ran(code, told.out, told.err)

    return run


@pytest.fixture(name="run")
def command(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, run_built_in: Run) -> Run:
    """Return a function that runs the command in a folder of its own, on the small rulebook."""
    pack = write_pack(tmp_path / "built_in")
    monkeypatch.setattr("tundish.rulebook.rulebook.bundled_folder", lambda _: pack)
    return run_built_in


@pytest.fixture(name="run_either", params=["toy", "built-in"])
def command_on_either(request: pytest.FixtureRequest) -> Run:
    """Return a function that runs the command on the small rulebook, and once more as installed."""
    run: Run = request.getfixturevalue("run" if request.param == "toy" else "run_built_in")
    return run


@pytest.fixture(name="write")
def writer(run_built_in: Run) -> Write:
    """Return a function that writes a file in the folder where the command runs."""

    def write(name: str, text: str) -> Path:
        path = Path(name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    return write


@pytest.fixture(name="samples")
def sample_jobs(run_built_in: Run) -> Path:
    """Return a folder below that of the command with all sample jobs and what they name."""
    folder = Path("samples")
    shutil.copytree(bundled_folder("sample_jobs"), folder)
    return folder
