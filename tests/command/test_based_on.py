"""Jobs based on another, the user's way: begun, judged, mended, joined, verified, compared."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest

from command.conftest import BROKEN_JOB, GOOD_JOB, Run, Write
from tundish.findings.assess import digest_of
from tundish.job.facts import flatten
from tundish.job.job import Job

TYPE = (
    "unit_sheet = '../sheets/unit.toml'\n"
    + GOOD_JOB.replace('snow_depth = "100 mm"', "").replace("run = []", "")
    + "[[water.run]]\nname = 'flow'\nplace = 'outdoors'\ninsulation.thickness = '40 mm'\n"
)
BASED = "based_on = 'types/type.toml'\n[job]\ntitle = 'Ours'\n[site]\nsnow_depth = '100 mm'\n"
LOW = BASED.replace("100 mm", "200 mm")


@pytest.fixture(autouse=True)
def house_type(write: Write) -> None:
    write("types/type.toml", TYPE)
    write("sheets/unit.toml", "[unit]\nmass = '124 kg'\n")


def facts(path: str) -> str:
    return digest_of(flatten(Job.from_file(path)))


def test_a_finding_names_the_file_in_which_each_value_stands(run: Run, write: Write) -> None:
    write("job.toml", LOW)
    ran = run("check", "job.toml", "--plain")
    assert ran.code == 1
    assert "Ours" in ran.out and "200 mm" in ran.out
    assert "job.toml, line 5" in ran.out
    assert "types/type.toml, line" in ran.out


def test_standard_input_finds_its_base_from_where_the_command_runs(run: Run) -> None:
    assert run("check", "-", stdin=LOW.encode()).code == 1
    ran = run("check", "-", stdin=b"based_on = '../x.toml'")
    assert ran.code == 2
    assert "beside the job" in " ".join(ran.err.split())


def test_a_folder_of_jobs_and_house_types_is_judged(run: Run, write: Write) -> None:
    write("job.toml", BASED)
    ran = run("check", ".", "--plain")
    assert ran.code in (0, 1)
    assert "Ours" in ran.out and "Invented cottage" in ran.out
    assert "sheets/unit.toml:" not in ran.err


def test_a_mistake_of_the_house_type_is_told_where_it_stands(run: Run, write: Write) -> None:
    write("types/broken.toml", BROKEN_JOB)
    write("job.toml", BASED.replace("type.toml", "broken.toml"))
    ran = run("check", "job.toml")
    assert ran.code == 2
    assert "types/broken.toml, line" in ran.err


def test_what_mend_writes_stands_by_itself_and_holds_the_same_facts(run: Run, write: Write) -> None:
    write("job.toml", LOW)
    Path("out").mkdir()
    ran = run("mend", "job.toml", "--to", "out/mended.toml", "--plain")
    assert ran.code == 0, ran.err
    text = Path("out/mended.toml").read_text()
    assert text.startswith("# Changed by tundish mend, from job.toml and type.toml;")
    data = tomllib.loads(text)
    assert "based_on" not in data
    assert data["unit_sheet"] == "../sheets/unit.toml"
    assert run("check", "out/mended.toml", "--show", "breached").code == 0
    changed = data["placement"].pop("height_below")
    write("job.toml", f"{LOW}[placement]\nheight_below = '{changed}'\n")
    assert facts("out/mended.toml") == facts("job.toml")


def test_mend_writes_a_sheet_and_its_job_as_one(run: Run, write: Write) -> None:
    write("job.toml", BASED)
    write("sheet.toml", "of_job = 'job.toml'\n[site]\nsnow_depth = '200 mm'\naltitude = ''\n")
    assert run("mend", "sheet.toml", "--to", "mended.toml").code == 0
    data = tomllib.loads(Path("mended.toml").read_text())
    assert "of_job" not in data and "altitude" not in data["site"]
    assert run("check", "mended.toml", "--show", "breached").code == 0


def test_join_writes_a_job_that_needs_no_house_type(run: Run, write: Write) -> None:
    write("job.toml", BASED)
    sheet = "of_job = 'job.toml'\n[site]\nsnow_depth = ''\naltitude = '40 m'\n"
    write("visit.toml", sheet + "[[water.run]]\nname = 'flow'\nbends = 3\n")
    Path("out").mkdir()
    for name in ("job", "visit"):
        assert run("join", f"{name}.toml", "--to", f"out/{name}.toml").code == 0
        assert facts(f"out/{name}.toml") == facts(f"{name}.toml")
        data = tomllib.loads(Path(f"out/{name}.toml").read_text())
        assert not {"based_on", "of_job", "unit"} & set(data)


def test_join_keeps_what_a_sheet_says_of_one_item_of_the_unit_sheet(run: Run, write: Write) -> None:
    write("sheets/unit.toml", "[unit]\nrating = [{ air = '2 degC' }, { air = '7 degC' }]\n")
    write("job.toml", BASED)
    write("visit.toml", "of_job = 'job.toml'\n[[unit.rating]]\n[[unit.rating]]\noutput = '8 kW'\n")
    assert run("join", "visit.toml", "--to", "after.toml").code == 0
    assert facts("after.toml") == facts("visit.toml")


def test_a_form_over_a_job_with_a_house_type_is_read_back(run_either: Run, write: Write) -> None:
    write("job.toml", BASED.replace("snow_depth", "# snow_depth"))
    assert run_either("survey", "job.toml", "--form", "visit.toml").code == 0
    blank = Path("visit.toml").read_text()
    write("filled.toml", blank.replace('snow_depth = ""', 'snow_depth = "2 m"'))
    assert run_either("check", "filled.toml").code == 1


def test_a_result_is_verified_until_the_house_type_changes(run: Run, write: Write) -> None:
    write("job.toml", LOW)
    write("result.json", run("check", "job.toml", "--json").out)
    assert run("verify", "result.json", "job.toml").code == 0
    write("types/type.toml", TYPE.replace("300 mm", "310 mm"))
    assert run("verify", "result.json", "job.toml").code == 1


def test_a_job_and_what_it_comes_to_do_not_differ(run: Run, write: Write) -> None:
    write("job.toml", BASED)
    run("join", "job.toml", "--to", "flat.toml")
    data = json.loads(run("compare", "job.toml", "flat.toml", "--json").out)
    assert (data["new"], data["inputs"]) == ([], [])


def test_a_portfolio_is_judged_over_a_job_with_a_house_type(run: Run, write: Write) -> None:
    write("job.toml", BASED)
    write("homes.csv", "job,site.snow_depth\na,100 mm\nb,2 m\n")
    ran = run("portfolio", "homes.csv", "--base", "job.toml", "--plain")
    assert ran.code == 0, ran.err
    assert "placement/snow" in ran.out or "snow" in ran.out


def test_new_names_its_base_first_and_asks_only_what_that_leaves_open(
    run_either: Run, write: Write
) -> None:
    ran = run_either("new", "a.toml", "--title", "Ours", "--based-on", "types/type.toml")
    assert ran.code == 0, ran.err
    text = Path("a.toml").read_text()
    first = next(row for row in text.splitlines() if row and not row.startswith("#"))
    assert first == 'based_on = "types/type.toml"'
    data = tomllib.loads(text)
    assert data["job"] == {"title": "Ours"}
    assert "unit_sheet" not in data and not Path("unit.toml").exists()
    assert "# site.snow_depth = " in text
    assert "placement.height_below = " not in text and "# insulation.thickness = " not in text
    assert run_either("check", "a.toml", "--show", "breached").code == 0
    assert flatten(Job.from_file("a.toml")).values["job.region"] == "GB"


def test_new_states_what_its_base_does_not(run_either: Run, write: Write) -> None:
    write("types/bare.toml", "[site]\naltitude = '4 m'\n")
    ran = run_either("new", "a.toml", "--based-on", "types/bare.toml", "--stage", "design")
    assert ran.code == 0, ran.err
    data = tomllib.loads(Path("a.toml").read_text())
    assert data["job"] == {"title": "a", "stage": "design"}
    assert "# job.region = " in Path("a.toml").read_text()
    assert data["unit_sheet"] == "unit.toml" and Path("unit.toml").exists()


def test_new_takes_a_stage_and_a_sheet_of_its_own(run_either: Run) -> None:
    named = ("--stage", "survey", "--sheet", "sheets/own.toml")
    assert run_either("new", "a.toml", "--based-on", "types/type.toml", *named).code == 0
    data = tomllib.loads(Path("a.toml").read_text())
    assert data["job"] == {"title": "a", "stage": "survey"}
    assert data["unit_sheet"] == "sheets/own.toml" and Path("sheets/own.toml").exists()


@pytest.mark.parametrize(
    ("new", "other", "said"),
    [
        ("types/a.toml", "job.toml", "leads out of the folder of the job"),
        ("a.toml", "none.toml", "There is no file 'none.toml'"),
        ("a.toml", "sheets/unit.toml", "is a unit sheet"),
        ("a.toml", "types", "is a folder"),
        ("a.toml", "a.toml", "There is no file"),
        ("a.toml", "broken.toml", "mmm"),
    ],
)
def test_new_refuses_what_no_job_can_be_based_on(
    run_either: Run, write: Write, new: str, other: str, said: str
) -> None:
    write("broken.toml", BROKEN_JOB)
    write("job.toml", GOOD_JOB)
    ran = run_either("new", new, "--based-on", other)
    assert ran.code == 2
    assert said in " ".join(ran.err.split())
    assert not Path(new).exists()


def test_a_house_type_of_the_program_is_put_beside_the_job(run_built_in: Run) -> None:
    ran = run_built_in("new", "mine.toml", "--based-on", "thirties-semi", "--stage", "design")
    assert ran.code == 0, ran.err
    assert Path("house_types/thirties-semi.toml").exists()
    assert Path("unit_sheets/invented-8-kw.toml").exists()
    assert 'based_on = "house_types/thirties-semi.toml"' in Path("mine.toml").read_text()
    assert run_built_in("check", "mine.toml", "--show", "breached").code in (0, 1)


def test_the_path_that_samples_prints_can_be_named(run_built_in: Run) -> None:
    printed = run_built_in("samples", "--plain").out
    path = next(row.strip() for row in printed.splitlines() if "new-detached.toml" in row)
    assert run_built_in("new", "mine.toml", "--based-on", path).code == 0
    assert run_built_in("check", "mine.toml", "--show", "breached").code in (0, 1)


def test_a_house_type_that_lies_there_already_is_left_as_it_is(run_built_in: Run) -> None:
    run_built_in("new", "mine.toml", "--based-on", "thirties-semi")
    own = Path("house_types/thirties-semi.toml")
    own.write_text(own.read_text().replace("[job]", "# ours\n[job]"))
    assert run_built_in("new", "other.toml", "--based-on", "thirties-semi").code == 0
    assert "# ours" in own.read_text()
