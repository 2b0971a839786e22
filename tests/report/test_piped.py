"""A pipe gets the words that a console shows, and nothing is loaded to draw them."""

import io
import subprocess
import sys

import pytest
from rich.console import Console

from tundish.findings.assess import assess
from tundish.job.job import Job
from tundish.report.page.console import print_lines
from tundish.report.page.piped import may_have_colour, terminal_width
from tundish.report.tell.assessment import assessment_lines
from tundish.text.bundled_folders import bundled_folder

SAMPLE = bundled_folder("sample_jobs") / "shore-bungalow.toml"


@pytest.mark.parametrize("width", [40, 80, 120])
def test_a_pipe_gets_what_a_console_without_colour_shows(
    width: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = list(assessment_lines(assess(Job.from_file(SAMPLE)), "all", sections=["siting"]))
    drawn = io.TextIOWrapper(io.BytesIO(), "utf-8")
    print_lines(lines, Console(file=drawn, width=width, highlight=False))
    piped = io.TextIOWrapper(io.BytesIO(), "utf-8")
    monkeypatch.setattr(sys, "stdout", piped)
    for name in ("FORCE_COLOR", "TTY_COMPATIBLE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("COLUMNS", str(width))
    print_lines(lines)
    for stream in (drawn, piped):
        stream.seek(0)
    assert piped.read() == drawn.read() != ""


def test_colour_can_be_wished_for_in_a_pipe(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("FORCE_COLOR", "TTY_COMPATIBLE"):
        monkeypatch.delenv(name, raising=False)
    assert not may_have_colour(io.StringIO())
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert may_have_colour(io.StringIO())


@pytest.mark.parametrize("told", ["", "0", "wide", "-3"])
def test_a_width_that_is_none_is_passed_over(told: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", told)
    assert terminal_width() > 0


def test_a_command_into_a_pipe_does_not_load_what_draws() -> None:
    code = (
        "import sys; from tundish.command.main import main; main(['samples']);"
        "print([name for name in ('rich.console', 'rich_argparse') if name in sys.modules])"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.splitlines()[-1] == "[]"


def test_what_names_no_encoding_gets_the_page_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = list(assessment_lines(assess(Job.from_file(SAMPLE)), "all", sections=["siting"]))
    kept = io.StringIO()
    monkeypatch.setattr(sys, "stdout", kept)
    print_lines(lines)
    assert not kept.getvalue().isascii()
