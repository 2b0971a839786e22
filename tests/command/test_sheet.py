"""`tundish sheet`: written blank, filled in, read back."""

from pathlib import Path

from command.conftest import OPEN_JOB, Run
from report.packs import write_pack


def late(run: Run) -> None:
    """Let the rule on snow be due at commissioning."""
    pack = write_pack(Path("../built_in"))
    for path in pack.rglob("*.toml"):
        path.write_text(path.read_text().replace('"design"', '"commissioning"'))
    Path("job.toml").write_text(OPEN_JOB.replace('"commissioning"', '"design"'))


def test_a_sheet_is_written_filled_in_and_read_back(run: Run) -> None:
    late(run)
    ran = run("sheet", "job.toml", "--to", "sheet.toml")
    assert (ran.code, ran.out) == (0, "")
    assert "tundish check sheet.toml" in ran.err
    blank = Path("sheet.toml").read_text()
    assert 'of_job = "job.toml"' in blank
    assert run("check", "sheet.toml", "--show", "open").out.count("snow") > 0
    Path("sheet.toml").write_text(blank.replace('snow_depth = ""', 'snow_depth = "2 m"'))
    ran = run("check", "sheet.toml", "--plain")
    assert ran.code == 1
    assert "2 m" in ran.out
    assert "sheet.toml" in ran.out


def test_a_sheet_goes_to_standard_output(run: Run) -> None:
    late(run)
    assert run("sheet", "job.toml").out.startswith("# Commissioning sheet of: Invented cottage")


def test_a_sheet_elsewhere_names_its_job_from_there(run: Run) -> None:
    late(run)
    Path("sheets").mkdir()
    assert run("sheet", "job.toml", "--to", "sheets/a.toml").code == 0
    assert 'of_job = "../job.toml"' in Path("sheets/a.toml").read_text()
    assert run("check", "sheets/a.toml", "--show", "breached").code == 0


def test_nothing_is_written_over(run: Run) -> None:
    late(run)
    Path("sheet.toml").write_text("mine")
    ran = run("sheet", "job.toml", "--to", "sheet.toml")
    assert ran.code == 2
    assert "is there already" in ran.err
    assert Path("sheet.toml").read_text() == "mine"


def test_a_folder_that_is_not_there_is_told(run: Run) -> None:
    late(run)
    ran = run("sheet", "job.toml", "--to", "no/sheet.toml")
    assert ran.code == 2
    assert "cannot be written" in ran.err


def test_a_job_with_nothing_left_to_read_has_no_sheet(run: Run) -> None:
    Path("job.toml").write_text(OPEN_JOB)
    ran = run("sheet", "job.toml", "--to", "sheet.toml")
    assert ran.code == 0
    assert "Nothing is left" in ran.err
    assert not Path("sheet.toml").exists()
