"""The program as it is installed from a wheel, and a folder to walk in."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from journeys.walking import Printed, Walk
from made_once import made_once
from tundish.command.main import main

TOP = Path(__file__).parents[2]


def run(*command: object, **surroundings: str) -> subprocess.CompletedProcess[str]:
    """Run something from the work tree that must not fail."""
    words = [str(word) for word in command]
    done = subprocess.run(words, cwd=TOP, capture_output=True, text=True, timeout=300, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done


@pytest.fixture(scope="session")
def installed(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of an environment into which the wheel is installed."""
    wheel = next(built.glob("*.whl"))
    return made_once(tmp_path_factory, "installed", lambda folder: install(wheel, folder))


def install(wheel: Path, environment: Path) -> None:
    """Make an environment with the program of a wheel."""
    run(sys.executable, "-m", "venv", "--without-pip", environment)
    python = environment / "bin" / "python"
    # Nothing is fetched: what the program depends on is read from where the tests run.
    words = ("install", "--no-deps", "--no-index", "--disable-pip-version-check", "--quiet")
    run(sys.executable, "-m", "pip", "--python", python, *words, wheel)
    packages = next((environment / "lib").glob("python*/site-packages"))
    around = [path for path in sys.path if path.endswith("-packages")]
    # Only folders are named, so that a work tree that is linked into them is not.
    (packages / "surrounding.pth").write_text("\n".join(around) + "\n")


@pytest.fixture(scope="session")
def home(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The surroundings of every process: a home of its own, kept for the session."""
    folder = tmp_path_factory.mktemp("home")
    kept = {name: os.environ[name] for name in ("PATH",) if name in os.environ}
    return {**kept, "HOME": str(folder), "XDG_CACHE_HOME": str(folder / "cache"), "LANG": "C.UTF-8"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """An empty folder with a name that a shell wants in quotes."""
    path = tmp_path / "our jobs"
    path.mkdir()
    return path


@pytest.fixture
def walk(installed: Path, home: dict[str, str], folder: Path) -> Walk:
    """A person who starts the installed program, each command a process of its own."""
    program = installed / "bin" / "tundish"

    def start(arguments: Sequence[str], typed: str) -> Printed:
        done = subprocess.run(
            [str(program), *arguments],
            cwd=folder,
            env=home,
            input=typed,
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
        )
        return Printed(" ".join(arguments), done.returncode, done.stdout, done.stderr)

    return Walk(folder, start)


@pytest.fixture
def quick_walk(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Walk:
    """A person whose commands all run within this process: for ways that differ little."""
    monkeypatch.chdir(folder)
    monkeypatch.setenv("COLUMNS", "80")

    def start(arguments: Sequence[str], typed: str) -> Printed:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(typed.encode())))
        code = main(arguments)
        printed = capsys.readouterr()
        return Printed(" ".join(arguments), code, printed.out, printed.err)

    return Walk(folder, start)
