"""The command as a whole: how it starts, how it fails, how it ends."""

import os
import subprocess
import sys
from pathlib import Path
from typing import get_args

import pytest

from command.conftest import DANGEROUS_JOB, GOOD_JOB, Run
from processes import started, surroundings
from tundish import Job
from tundish.command import check, option_values
from tundish.command.main import main
from tundish.findings import finding
from tundish.report.tell.assessment import SectionName, Show
from tundish.text.bundled_folders import bundled_folder

COMMANDS = ("check", "explain", "rules", "prove", "samples")


def test_words_of_options_are_those_of_the_program() -> None:
    assert option_values.STAGES == finding.STAGES
    assert option_values.SEVERITIES == finding.SEVERITIES
    assert get_args(SectionName) == option_values.SECTIONS
    assert set(option_values.SHOW) == set(get_args(Show)) - {"usual"}


@pytest.mark.parametrize("command", COMMANDS)
def test_help_shows_how_to_use_a_command(run: Run, command: str) -> None:
    ran = run(command, "--help")
    assert ran.code == 0
    assert f"tundish {command}" in ran.out
    assert "Examples:" in ran.out


def test_help_names_every_command(run: Run) -> None:
    out = run("--help").out
    assert [command for command in COMMANDS if command not in out] == []


def test_help_fits_a_narrow_terminal() -> None:
    out = started("check", "--help", env=surroundings(COLUMNS="50")).stdout
    rows = [row for row in out.splitlines() if not row.startswith("  tundish")]
    assert max(len(row) for row in rows) <= 50


def test_without_a_command_the_help_is_shown_and_it_fails(run: Run) -> None:
    ran = run()
    assert ran.code == 2
    assert "check" in ran.err
    assert ran.out == ""


def test_a_command_that_is_not_there_is_a_sentence(run: Run) -> None:
    ran = run("chekc")
    assert ran.code == 2
    assert "'chekc' is none of new, check, " in ran.err
    assert "Did you mean 'check'?" in ran.err


def test_the_version_is_said(run: Run) -> None:
    ran = run("--version")
    assert ran.code == 0
    assert ran.out.startswith("tundish ")


@pytest.mark.parametrize("arguments", [("--version",), ("--help",), ("check", "--help")])
def test_starting_up_loads_neither_the_job_model_nor_the_rules(arguments: tuple[str, ...]) -> None:
    code = (
        "import sys; from tundish.command.main import main; "
        f"main({arguments!r}); "
        "print([name for name in sys.modules if name.split('.')[0] in ('pydantic', 'tree_sitter')"
        " or name.startswith(('tundish.rulebook', 'tundish.job.'))])"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code],
        env=surroundings(),
        capture_output=True,
        text=True,
        check=True,
    )
    assert ran.stdout.splitlines()[-1] == "[]"


def test_stopping_by_hand_is_no_failure_of_the_program(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(check, "run", stop)
    ran = run("check", "job.toml")
    assert ran.code == 130
    assert "Traceback" not in ran.err


def _fail(_: object) -> int:
    raise RuntimeError("a \x1b[2Jsurprise")


def test_a_fault_of_the_program_is_a_sentence_that_asks_to_report_it(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(check, "run", _fail)
    ran = run("check", "job.toml")
    assert ran.code == 2
    assert "report" in ran.err
    assert "surprise" in ran.err
    assert "\x1b" not in ran.err
    assert "Traceback" not in ran.err


def test_where_it_failed_is_shown_to_those_who_ask(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(check, "run", _fail)
    monkeypatch.setenv("TUNDISH_TRACE", "1")
    assert "Traceback" in run("check", "job.toml").err


@pytest.mark.parametrize("form", [[], ["--plain"], ["--json"]])
def test_a_reader_that_goes_away_is_no_failure(tmp_path: Path, form: list[str]) -> None:
    job = tmp_path / "job.toml"
    job.write_text(DANGEROUS_JOB)
    reading, writing = os.pipe()
    os.close(reading)
    ran = started("check", str(job), *form, stdout=writing, stderr=subprocess.PIPE)
    os.close(writing)
    assert ran.stderr == ""
    assert ran.returncode == 141


def test_a_terminal_without_the_characters_is_shown_escapes(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(GOOD_JOB.replace("cottage", "caf\u00e9 \u96ea"), encoding="utf-8")
    ran = started("check", str(job), env=surroundings(PYTHONIOENCODING="ascii"))
    assert "caf\\xe9 \\u96ea" in ran.stdout
    assert ran.stderr == ""


def test_every_sample_is_read_and_judged(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["samples"]) == 0
    paths = [row.strip() for row in capsys.readouterr().out.splitlines() if ".toml" in row]
    assert len(paths) >= 3
    samples = bundled_folder("sample_jobs")
    for path in (each for each in paths if Path(each).parent != samples / "unit_sheets"):
        assert Path(path).parent in (samples, samples / "house_types")
        assert main(["check", path]) in (0, 1)


def test_house_types_are_listed_apart(capsys: pytest.CaptureFixture[str]) -> None:
    main(["samples"])
    jobs, types = capsys.readouterr().out.split("House types to base a job on")
    assert "shore-bungalow.toml" in jobs and "house_types" not in jobs
    assert types.count("house_types/") == 3


def test_the_unit_sheet_is_listed_below_each_sample(capsys: pytest.CaptureFixture[str]) -> None:
    main(["samples"])
    rows = [row.strip() for row in capsys.readouterr().out.splitlines()]
    for at, row in enumerate(rows):
        if Path(row).parent.name in ("sample_jobs", "house_types"):
            named = Job.from_file(row).unit_sheet
            sheet = rows[at + 1]
            assert bool(named) == bool(sheet)
            assert not named or (Path(row).parent / named).samefile(sheet)
