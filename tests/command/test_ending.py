"""However a run ends, nothing half-written is left and no traceback is shown.

The exit codes are those that POSIX shells give: 128 and the number of the signal (POSIX.1-2017,
Shell Command Language, 2.8.2, from memory: above 128 for a command that a signal ended).
"""

import os
import shutil
import signal
import subprocess
import sys
import textwrap
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from command.conftest import DANGEROUS_JOB, Run
from processes import started, surroundings
from tundish.text.bundled_folders import bundled_folder

WRITERS = [
    ("new", "out.toml", "--sheet", "job.toml"),
    ("sheet", "job.toml", "--to", "out.toml"),
    ("survey", "job.toml", "--form", "out.toml"),
    ("join", "job.toml", "--to", "out.toml"),
    ("mend", "shore-bungalow.toml", "--to", "out.toml"),
    ("portfolio", "jobs.csv", "--base", "job.toml", "--to", "out.toml"),
    ("rule", "new", "out/rule", "--in", "rules"),
]
needs_full = pytest.mark.skipif(not Path("/dev/full").exists(), reason="has no /dev/full")


@pytest.fixture(name="run_here")
def command_in_the_work_folder(
    work: Path, run_built_in: Run, monkeypatch: pytest.MonkeyPatch
) -> Run:
    """Return a function that runs the command within this process."""
    monkeypatch.chdir(work)
    return run_built_in


@pytest.fixture(name="work")
def work_folder(tmp_path: Path) -> Path:
    (tmp_path / "job.toml").write_text(DANGEROUS_JOB)
    (tmp_path / "jobs.csv").write_text("job,site.snow_depth\na,1 m\nb,10 mm\n")
    samples = bundled_folder("sample_jobs")
    shutil.copy(samples / "shore-bungalow.toml", tmp_path)
    shutil.copytree(samples / "unit_sheets", tmp_path / "unit_sheets")
    return tmp_path


def files(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())


def as_from_a_terminal() -> None:
    """Let Ctrl-C be heard, even if these tests run in the background, where it is not."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def held_to(size: int) -> Callable[[], object]:
    """Return what holds a process to files of a size, as a full disk would."""
    import resource

    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


@pytest.mark.parametrize("arguments", WRITERS, ids=lambda arguments: arguments[0])
def test_a_disk_that_fills_up_leaves_nothing(work: Path, arguments: tuple[str, ...]) -> None:
    before = files(work)
    ran = started(*arguments, cwd=work, preexec_fn=held_to(10))
    assert files(work) == before
    assert "cannot be written: File too large." in ran.stderr
    assert "Traceback" not in ran.stderr
    assert ran.returncode == 2


@needs_full
@pytest.mark.parametrize(
    "arguments", [("rules",), ("schema", "job"), ("check", "job.toml", "--json"), ("--help",)]
)
def test_a_full_disk_behind_standard_output_is_told(work: Path, arguments: tuple[str, ...]) -> None:
    with open("/dev/full", "w") as full:
        ran = started(*arguments, cwd=work, stdout=full, stderr=subprocess.PIPE)
    assert ran.stderr == "What is put out cannot be written: No space left on device.\n"
    assert ran.returncode == 2


@pytest.mark.parametrize(
    "arguments", [("rules",), ("schema", "job"), ("explain", "clearances/top")]
)
def test_a_reader_that_goes_away_ends_it_quietly(work: Path, arguments: tuple[str, ...]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    ran = started(*arguments, cwd=work, stdout=writing, stderr=subprocess.PIPE)
    os.close(writing)
    assert ran.stderr == ""
    assert ran.returncode == 141


@pytest.mark.parametrize("closed", ["1", "2"])
def test_a_stream_that_is_closed_from_the_start_is_no_failure(work: Path, closed: str) -> None:
    line = f'"{sys.executable}" -m tundish rules {closed}>&-'
    ran = subprocess.run(
        ["sh", "-c", line],
        cwd=work,
        env=surroundings(),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.returncode, ran.stderr) == (0, "")


def ran_to_its_end(source: str, work: Path) -> subprocess.CompletedProcess[str]:
    """Run a program in a folder, as a terminal starts it."""
    return subprocess.run(
        [sys.executable, "-c", textwrap.dedent(source)],
        cwd=work,
        env=surroundings(),
        preexec_fn=as_from_a_terminal,
        capture_output=True,
        text=True,
        check=False,
    )


SENDS = """
    import importlib.abc, os, signal, sys

    class Sends(importlib.abc.MetaPathFinder):
        def find_spec(self, name, path=None, target=None):
            if name == {module!r}:
                os.kill(os.getpid(), {number})

    sys.meta_path.insert(0, Sends())
    sys.argv = ["tundish", "check", "job.toml"]
    from tundish.command.start import start

    sys.exit(start())
"""


@pytest.mark.parametrize(
    "module",
    ["argparse", "tundish.job.job", "tundish.rulebook.rulebook", "tundish.report.page.layout"],
)
@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_it_can_be_stopped_while_it_is_still_loading(
    work: Path, module: str, number: int, code: int
) -> None:
    ran = ran_to_its_end(SENDS.format(module=module, number=int(number)), work)
    assert ran.returncode == code, ran.stderr
    assert ran.stderr == ("\nStopped.\n" if number == signal.SIGINT else "")


STOPS = """
    import os, sys

    synced = os.fsync

    def stopping(handle):
        synced(handle)
        os.kill(os.getpid(), {number})

    os.fsync = stopping
    sys.argv = ["tundish", "sheet", "job.toml", "--to", "out.toml"]
    from tundish.command.start import start

    sys.exit(start())
"""


@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_stopped_while_it_writes_it_leaves_nothing(work: Path, number: int, code: int) -> None:
    before = files(work)
    ran = ran_to_its_end(STOPS.format(number=int(number)), work)
    assert ran.returncode == code, ran.stderr
    assert files(work) == before
    assert "Traceback" not in ran.stderr


@pytest.mark.parametrize("arguments", WRITERS[1:6], ids=lambda arguments: arguments[0])
@pytest.mark.parametrize("there", ["file", "link", "folder", "dangling"])
def test_whatever_is_there_is_kept(
    work: Path, run_here: Run, arguments: tuple[str, ...], there: str
) -> None:
    path, other = work / "out.toml", work / "other.txt"
    other.write_text("precious")
    match there:
        case "file":
            path.write_text("precious")
        case "link":
            path.symlink_to(other)
        case "folder":
            path.mkdir()
        case _:
            path.symlink_to(work / "nowhere.txt")
    before = files(work)
    ran = run_here(*arguments)
    assert ran.code == 2
    assert "is there already and is not written over" in ran.err
    assert files(work) == before
    assert other.read_text() == "precious"


def test_a_new_file_may_be_read_by_those_the_system_lets(work: Path) -> None:
    closed: dict[str, Any] = {"cwd": work, "preexec_fn": lambda: os.umask(0o077)}
    ran = started("sheet", "job.toml", "--to", "out.toml", **closed)
    assert ran.returncode == 0
    assert (work / "out.toml").stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("name", ["no/such/folder.toml", "x" * 300, "a\x1b[2Jb/c.toml"])
def test_a_place_that_cannot_be_is_told(run_here: Run, name: str) -> None:
    ran = run_here("sheet", "job.toml", "--to", name)
    assert ran.code == 2
    assert "cannot be written" in ran.err
    assert "\x1b" not in ran.err
