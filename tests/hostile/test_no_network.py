"""Every command works where nothing can be reached, and tries to reach nothing."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from processes import surroundings
from tundish.text.bundled_folders import bundled_folder

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
    cut_off(tmp_path, command, cache="on")


def test_so_it_does_where_it_reads_the_rules_from_their_text(tmp_path: Path) -> None:
    cut_off(tmp_path, COMMANDS[0], cache="off")


def cut_off(folder: Path, command: tuple[str, ...], cache: str) -> None:
    ran = subprocess.run(
        [sys.executable, "-c", CUT_OFF, *command],
        cwd=folder,
        env=surroundings(TUNDISH_TRACE="1", TUNDISH_CACHE=cache),
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
