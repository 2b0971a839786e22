"""Every command works where nothing can be reached, and tries to reach nothing."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tundish.text.bundled_folders import bundled_folder

ENGINE = Path(__file__).parents[2] / "engine"
JOB = str(bundled_folder("sample_jobs") / "shore-bungalow.toml")

CUT_OFF = """
import socket, sys

def refuse(event, arguments):
    rooms = ("socket.", "subprocess.", "os.system", "os.exec", "os.posix_spawn", "urllib.")
    if event.startswith(rooms):
        raise RuntimeError("reaches out: " + event)

class Refused:
    def __init__(self, *arguments, **options):
        raise RuntimeError("opens a socket")

sys.addaudithook(refuse)
socket.socket = Refused
from tundish.command.main import main
sys.exit(main(sys.argv[1:]))
"""

COMMANDS = [
    ("check", JOB, "--as", "html", "--section", "siting"),
    ("check", JOB, "--as", "sarif"),
    ("survey", JOB),
    ("order", JOB, "--csv"),
    ("rules",),
    ("explain", "clearances/top"),
    ("schema", "job"),
    ("samples",),
    ("completion", "bash"),
    ("new", "job.toml"),
    ("--version",),
]


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command[0])
def test_a_command_works_cut_off(tmp_path: Path, command: tuple[str, ...]) -> None:
    ran = subprocess.run(
        [sys.executable, "-c", CUT_OFF, *command],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ENGINE), "TUNDISH_TRACE": "1"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode in (0, 1), ran.stderr
    assert "reaches out" not in ran.stderr
    assert ran.stdout or ran.stderr


def test_reaching_out_would_be_noticed() -> None:
    program = "from tundish.command.main import main"
    text = CUT_OFF.replace(program, "socket.getaddrinfo('localhost', 1)")
    ran = subprocess.run([sys.executable, "-c", text], capture_output=True, text=True, check=False)
    assert "reaches out: socket.getaddrinfo" in ran.stderr
