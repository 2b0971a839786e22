"""`tundish mend`, `compare`, `survey`, `join` and `new`."""

import json
import tomllib
from pathlib import Path

import pytest

from command.conftest import DANGEROUS_JOB, GOOD_JOB, OPEN_JOB, Run
from tundish.report.forms.starter_lines import taken_up

LOW = GOOD_JOB.replace('"300 mm"', '"250 mm"')


def written(name: str, text: str) -> str:
    Path(name).write_text(text)
    return name


def test_mend_tells_the_change_and_writes_the_job(run: Run) -> None:
    ran = run("mend", written("job.toml", LOW), "--to", "mended.toml", "--plain")
    assert ran.code == 0, ran.err
    assert "from 250 mm to 300 mm" in ran.out
    assert run("check", "mended.toml", "--show", "breached").code == 0
    text = Path("mended.toml").read_text()
    assert text.startswith("# Changed by tundish mend, from job.toml")
    assert tomllib.loads(text)["placement"]["height_below"] == "300 mm"
    assert Path("job.toml").read_text() == LOW


def test_mend_never_writes_over_a_file(run: Run) -> None:
    written("job.toml", LOW)
    ran = run("mend", "job.toml", "--to", "job.toml")
    assert ran.code == 2
    assert Path("job.toml").read_text() == LOW


def test_mend_ends_with_one_where_something_is_left(run: Run) -> None:
    job = DANGEROUS_JOB.replace(
        "run = []", 'run = [{ name = "flow", place = "outdoors", insulation.thickness = "2 mm" }]'
    )
    ran = run("mend", written("job.toml", job), "--plain")
    assert ran.code == 1
    assert "NOT MENDED" in ran.out


def test_a_sheet_is_named_from_where_the_mended_job_lies(run: Run) -> None:
    written("unit.toml", "[unit]\nmass = '124 kg'\n")
    written("job.toml", f"unit_sheet = 'unit.toml'\n{LOW}")
    Path("out").mkdir()
    assert run("mend", "job.toml", "--to", "out/mended.toml").code == 0
    assert tomllib.loads(Path("out/mended.toml").read_text())["unit_sheet"] == "../unit.toml"
    assert run("check", "out/mended.toml", "--show", "breached").code == 0


def test_compare_tells_what_is_new(run: Run) -> None:
    written("a.toml", GOOD_JOB)
    ran = run("compare", "a.toml", written("b.toml", LOW), "--plain")
    assert ran.code == 1
    assert "NEWLY BREACHED" in ran.out
    assert "300 mm, now 250 mm" in ran.out
    back = run("compare", "b.toml", "a.toml", "--plain")
    assert back.code == 0
    assert "BREACHED NO MORE" in back.out


def test_compare_as_data(run: Run) -> None:
    written("a.toml", GOOD_JOB)
    data = json.loads(run("compare", "a.toml", written("b.toml", LOW), "--json").out)
    assert [one["rule"] for one in data["new"]] == ["placement/snow"]
    assert data["inputs"][0]["path"] == "placement.height_below"


@pytest.mark.parametrize("jobs", [["a.toml"], ["a.toml", "a.toml", "a.toml"]])
def test_compare_takes_two_jobs(run: Run, jobs: list[str]) -> None:
    written("a.toml", GOOD_JOB)
    ran = run("compare", *jobs)
    assert ran.code == 2
    assert "Name two jobs" in ran.err


@pytest.fixture(name="open_job", params=["toy", "built-in"])
def open_but_for_one_fact(request: pytest.FixtureRequest) -> tuple[Run, str, str]:
    """Return what runs the command, and a job that waits for one fact of the site, and its key."""
    if request.param == "toy":
        return request.getfixturevalue("run"), written("job.toml", OPEN_JOB), "snow_depth"
    run: Run = request.getfixturevalue("run_built_in")
    job = request.getfixturevalue("samples") / "three-phase-barn.toml"
    lines = job.read_text().splitlines(keepends=True)
    job.write_text("".join(line for line in lines if not line.startswith("frost_depth ")))
    return run, str(job), "frost_depth"


def test_survey_asks_and_its_form_is_read_back_and_joined(open_job: tuple[Run, str, str]) -> None:
    run, job, key = open_job
    ran = run("survey", job, "--plain")
    assert ran.code == 0
    assert f"site.{key}" in ran.out
    assert run("survey", job, "--form", "visit.toml").code == 0
    form = Path("visit.toml").read_text()
    Path("visit.toml").write_text(form.replace(f'{key} = ""', f'{key} = "100 mm"'))
    assert run("check", "visit.toml", "--show", "open").code == 0
    assert run("join", "visit.toml", "--to", "after.toml").code == 0
    after = tomllib.loads(Path("after.toml").read_text())
    assert after["site"][key] == "100 mm"
    assert "of_job" not in after
    assert "Nothing is left to find out" in run("survey", "after.toml", "--plain").out


def test_survey_as_data(open_job: tuple[Run, str, str]) -> None:
    run, job, key = open_job
    data = json.loads(run("survey", job, "--json").out)
    assert [one["facts"] for one in data["questions"]] == [[f"site.{key}"]]


def test_new_writes_a_job_and_a_sheet_that_can_be_read(run_either: Run) -> None:
    ran = run_either("new", "cottage.toml", "--title", 'Cottage "B"', "--region", "gb")
    assert ran.code == 0, ran.err
    data = tomllib.loads(Path("cottage.toml").read_text())
    assert data["job"] == {"title": 'Cottage "B"', "region": "GB", "stage": "enquiry"}
    assert "# site.snow_depth = " in Path("cottage.toml").read_text()
    assert Path("unit.toml").exists()
    assert run_either("check", "cottage.toml", "--show", "breached").code == 0


def test_new_leaves_files_that_are_there(run_either: Run) -> None:
    written("unit.toml", "[unit]\nmass = '124 kg'\n")
    assert run_either("new", "a.toml").code == 0
    assert Path("unit.toml").read_text() == "[unit]\nmass = '124 kg'\n"
    assert run_either("new", "a.toml").code == 2


def test_every_commented_line_of_a_starter_can_be_taken_as_it_is(run_either: Run) -> None:
    run_either("new", "a.toml")
    text = Path("a.toml").read_text()
    bare = taken_up(text)
    assert "\nsite.snow_depth = " in bare
    Path("b.toml").write_text(bare)
    ran = run_either("check", "b.toml", "--show", "breached")
    assert ran.code in (0, 1), ran.err
