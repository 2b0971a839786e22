"""`tundish sheet`: written blank, filled in, read back."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from command.conftest import OPEN_JOB, Run
from report.packs import write_pack


@dataclass(frozen=True)
class Late:
    """A rulebook with something due at commissioning, and a reading that breaches it.

    Attributes:
        run: Runs the command.
        key: The key of the reading.
        answer: What is read.
        decided: Where no requirement waits any more, a job.
    """

    run: Run
    key: str
    answer: str
    decided: str


@pytest.fixture(name="late", params=["toy", "built-in"])
def late_rules(request: pytest.FixtureRequest) -> Late:
    if request.param == "built-in":
        run: Run = request.getfixturevalue("run_built_in")
        Path("job.toml").write_text(OPEN_JOB)
        samples = request.getfixturevalue("samples")
        decided = str(samples / "three-phase-barn.toml")
        return Late(run, "insulation_resistance", "0.2 Mohm", decided)
    run = request.getfixturevalue("run")
    pack = write_pack(Path("../built_in"))
    for path in pack.rglob("*.toml"):
        path.write_text(path.read_text().replace('"design"', '"commissioning"'))
    Path("job.toml").write_text(OPEN_JOB)
    Path("decided.toml").write_text(OPEN_JOB.replace("[site]", '[site]\nsnow_depth = "1 mm"'))
    return Late(run, "snow_depth", "2 m", "decided.toml")


def test_a_sheet_is_written_filled_in_and_read_back(late: Late) -> None:
    run = late.run
    ran = run("sheet", "job.toml", "--to", "sheet.toml")
    assert (ran.code, ran.out) == (0, "")
    assert "tundish check sheet.toml" in ran.err
    blank = Path("sheet.toml").read_text()
    assert 'of_job = "job.toml"' in blank
    assert f".{late.key} " in run("check", "sheet.toml", "--show", "open").out
    filled = blank.replace(f'{late.key} = ""', f'{late.key} = "{late.answer}"')
    Path("sheet.toml").write_text(filled)
    ran = run("check", "sheet.toml", "--plain")
    assert ran.code == 1
    assert late.answer in ran.out
    assert "sheet.toml" in ran.out


def test_a_sheet_goes_to_standard_output(late: Late) -> None:
    assert late.run("sheet", "job.toml").out.startswith(
        "# Commissioning sheet of: Invented cottage"
    )


def test_a_sheet_elsewhere_names_its_job_from_there(late: Late) -> None:
    Path("sheets").mkdir()
    assert late.run("sheet", "job.toml", "--to", "sheets/a.toml").code == 0
    assert 'of_job = "../job.toml"' in Path("sheets/a.toml").read_text()
    assert late.run("check", "sheets/a.toml", "--show", "breached").code == 0


def test_nothing_is_written_over(late: Late) -> None:
    Path("sheet.toml").write_text("mine")
    ran = late.run("sheet", "job.toml", "--to", "sheet.toml")
    assert ran.code == 2
    assert "is there already" in ran.err
    assert Path("sheet.toml").read_text() == "mine"


def test_a_folder_that_is_not_there_is_told(late: Late) -> None:
    ran = late.run("sheet", "job.toml", "--to", "no/sheet.toml")
    assert ran.code == 2
    assert "cannot be written" in ran.err


def test_a_job_with_nothing_left_to_read_has_no_sheet(late: Late) -> None:
    ran = late.run("sheet", late.decided, "--to", "sheet.toml")
    assert ran.code == 0
    assert "Nothing is left" in ran.err
    assert not Path("sheet.toml").exists()
