"""The same input gives the same bytes, in every form of report, whatever was asked before."""

from __future__ import annotations

import hashlib
import subprocess
import sys

import pytest

from laws.thinning import SAMPLES
from processes import surroundings

FORMS = ("console", "plain", "markdown", "html", "json", "sarif", "junit")
_ASK = """
import contextlib, hashlib, io, sys
from tundish.command.main import main

class Bytes(io.TextIOWrapper):
    def __init__(self):
        super().__init__(io.BytesIO(), encoding="utf-8", write_through=True)

for arguments in ARGUMENTS:
    out = Bytes()
    with contextlib.redirect_stdout(out):
        main(arguments)
    print(hashlib.sha256(out.buffer.getvalue()).hexdigest(), len(out.buffer.getvalue()), arguments)
"""


def asked() -> list[list[str]]:
    jobs = [str(path) for path in SAMPLES]
    forms = [["check", jobs[2], "--show", "all", "--workings", "--as", form] for form in FORMS[2:]]
    return [
        *forms,
        ["check", jobs[2], "--plain", "--show", "all"],
        ["check", jobs[0]],
        ["survey", jobs[3], "--plain"],
        ["order", jobs[1], "--plain"],
    ]


def told(seed: str, arguments: list[list[str]]) -> list[str]:
    """Return what a process of its own puts out for each, in short."""
    code = _ASK.replace("ARGUMENTS", repr(arguments))
    around = surroundings(PYTHONHASHSEED=seed, COLUMNS="100", TUNDISH_CACHE="off")
    done = subprocess.run(
        [sys.executable, "-c", code], env=around, capture_output=True, text=True, check=True
    )
    return sorted(done.stdout.splitlines())


def test_the_same_input_gives_the_same_bytes() -> None:
    once = told("1", asked())
    # Sets come out in another order then, and everything is asked the other way round.
    assert told("2", asked()[::-1]) == once
    assert len(once) == len(asked())
    empty = hashlib.sha256(b"").hexdigest()
    assert not [line for line in once if line.startswith(empty)]


@pytest.mark.parametrize("form", FORMS[2:])
def test_every_form_is_among_what_is_asked(form: str) -> None:
    assert any(form in arguments for arguments in asked())
