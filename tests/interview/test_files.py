"""Answers go into the files that facts stand in, which else stay as they were."""

import os
import shutil
import stat
import tomllib
from pathlib import Path

import pytest

from interview.conftest import JOB, Ask
from tundish.interview.interview import Interview
from tundish.interview.job_text import AnswerConflictError, JobText
from tundish.report.forms.starter_job import FirstJob, starter_job
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bundled_folders import bundled_folder
from tundish.text.problem import Refused

SHEET = "# The maker's.\n[unit]\nmodel = 'Invented'\n\n# What mass has it?\n# mass = \"124 kg\"\n"
WITH_SHEET = f'unit_sheet = "sheets/unit.toml"\n{JOB}'


@pytest.fixture(name="sheet")
def unit_sheet(job: Path) -> Path:
    path = job.parent / "sheets" / "unit.toml"
    path.parent.mkdir()
    path.write_text(SHEET)
    return path


def until(interview: Interview, path: str) -> Interview:
    while interview.question and interview.question.path != path:
        interview.answer("")
    return interview


def test_facts_of_the_unit_go_into_its_sheet_and_that_is_told_once(
    ask: Ask, job: Path, sheet: Path
) -> None:
    interview = until(ask(text=WITH_SHEET), "unit.mass")
    assert interview.question.file == str(sheet)
    assert "other jobs may name it too" in interview.answer("118 kg").notes[0]
    assert job.read_text() == WITH_SHEET
    assert sheet.read_text() == SHEET.replace('# mass = "124 kg"', 'mass = "118 kg"')


def test_back_takes_an_answer_out_of_the_sheet_again(ask: Ask, sheet: Path) -> None:
    ask("118 kg", "back", text=WITH_SHEET, order=lambda path: path != "unit.mass")
    assert sheet.read_text() == SHEET


def test_without_a_sheet_facts_of_the_unit_go_into_the_job(ask: Ask, job: Path) -> None:
    until(ask(), "unit.mass").answer("118 kg")
    assert tomllib.loads(job.read_text())["unit"] == {"mass": "118 kg"}


def test_items_of_the_unit_stand_where_their_list_does(job: Path, sheet: Path) -> None:
    job.write_text(f"{WITH_SHEET}\n[[unit.rating]]\nair = '7 degC'\n")
    text = JobText(job, Rulebook.built_in())
    assert text.file_of("unit.rating[1].flow").path == job
    assert text.file_of("unit.water.pump_head[1].flow").path == sheet
    text.put("unit.rating[1].flow", "35 degC")
    assert sheet.read_text() == SHEET


def test_a_sheet_that_is_named_anew_meanwhile_is_the_one_that_is_written(
    ask: Ask, job: Path, sheet: Path
) -> None:
    interview = until(ask(text=JOB), "unit.mass")
    job.write_text(WITH_SHEET)
    interview.answer("118 kg")
    assert "118 kg" in sheet.read_text()
    assert job.read_text() == WITH_SHEET


def test_mode_line_ends_and_mark_of_the_encoding_stay(ask: Ask, job: Path) -> None:
    text = "\ufeff" + JOB.replace("\n", "\r\n")
    interview = ask(text=text)
    job.chmod(0o640)
    interview.answer("250 mm")
    after = job.read_bytes()
    assert stat.S_IMODE(job.stat().st_mode) == 0o640
    assert after.startswith(text.encode())
    assert after.count(b"\n") == after.count(b"\r\n") == text.count("\n") + 3


def test_a_link_is_followed_and_stays_a_link(ask: Ask, job: Path, rulebook: Rulebook) -> None:
    link = job.parent / "folder" / "link.toml"
    link.parent.mkdir()
    link.symlink_to("../job.toml")
    Interview(link, rulebook).answer("250 mm")
    assert link.is_symlink()
    assert "250 mm" in job.read_text()
    assert os.listdir(link.parent) == ["link.toml"]


def test_what_cannot_be_written_is_left_whole(
    ask: Ask, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    interview = ask()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("tundish.interview.written_file.os.fsync", full)
    with pytest.raises(OSError, match="No space left"):
        interview.answer("250 mm")
    assert job.read_text() == JOB
    assert os.listdir(job.parent) == ["job.toml"]


def test_a_file_that_may_only_be_read_is_not_replaced(
    ask: Ask, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    interview = ask()
    monkeypatch.setattr("tundish.interview.written_file.os.access", lambda *_: False)
    with pytest.raises(PermissionError):
        interview.answer("250 mm")
    assert job.read_text() == JOB


def test_what_does_not_go_with_the_rest_is_refused_before_it_is_written(
    ask: Ask, job: Path
) -> None:
    text = f'{JOB}\n[placement.clearance]\ntop = "1 m"\n'
    job.write_text(text)
    with pytest.raises(Exception, match="leave one out"):
        JobText(job, Rulebook.built_in()).put("placement.clearance.open_above", True)
    assert job.read_text() == text


def test_a_starter_is_filled_in_line_by_line(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    keys = {"job.title": "Cottage", "job.region": "GB", "job.stage": "design"}
    asked = [
        "site.snow_depth",
        "site.drifting",
        "water.filter.mesh",
        "water.run.name",
        "water.run.length",
        "water.run.pipe.wall",
        "water.run.insulation.thickness",
    ]
    job.write_text(starter_job(FirstJob(keys, asked)))
    before = job.read_text()
    text = JobText(job, Rulebook.built_in())
    for path, value in {
        "site.snow_depth": "250 mm",
        "site.drifting": True,
        "water.filter": {},
        "water.filter.mesh": "1 mm",
        "water.run[1]": {"name": "flow"},
        "water.run[1].pipe": "copper 28 x 0.9",
        "water.run[1].insulation": {},
        "water.run[1].insulation.thickness": "20 mm",
    }.items():
        text.put(path, value)
    after = job.read_text()
    assert len(after.splitlines()) == len(before.splitlines())
    changed = set(after.splitlines()) - set(before.splitlines())
    assert {line.partition("  #")[0] for line in changed} == {
        'site.snow_depth = "250 mm"',
        "site.drifting = true",
        'water.filter.mesh = "1 mm"',
        "[[water.run]]",
        'name = "flow"',
        'pipe = "copper 28 x 0.9"',
        'insulation.thickness = "20 mm"',
    }
    assert "# What is the run called?" in after  # a remark stays behind its line


def test_who_takes_a_mark_off_below_an_empty_group_is_told_which_line_goes(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    keys = {"job.title": "Cottage", "job.region": "GB", "job.stage": "design"}
    line = 'controls.second_heat_source.kind = "gas boiler"'
    job.write_text(starter_job(FirstJob(keys, ["controls.second_heat_source.kind"])))
    JobText(job, Rulebook.built_in()).put("controls.second_heat_source", {})
    by_hand = job.read_text().replace(f"# {line}", line)
    number = by_hand.splitlines().index("controls.second_heat_source = {}") + 1
    job.write_text(by_hand)
    with pytest.raises(Refused) as caught:
        JobText(job, Rulebook.built_in())
    (problem,) = caught.value.problems
    assert problem.line == by_hand.splitlines().index(line) + 1
    said = f"Line {number} says {{}} of 'controls.second_heat_source'; take that line away."
    assert said in problem.sentence


def test_a_starter_gets_no_header_of_a_table(tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    keys = {"job.title": "Cottage", "job.region": "GB", "job.stage": "design"}
    job.write_text(starter_job(FirstJob(keys, ["site.snow_depth", "water.run.name"])))
    text = JobText(job, Rulebook.built_in())
    for path, value in {
        "controls.second_heat_source": {},
        "controls.second_heat_source.kind": "gas boiler",
        "controls.room_controller": "none",
        "electricity.phases": 3,
        "water.run[1]": {"name": "flow"},
        "handling.gear": [],
    }.items():
        text.put(path, value)
    lines = job.read_text().splitlines()
    assert [line for line in lines if line.startswith("[")] == ["[[water.run]]"]
    at = lines.index('controls.second_heat_source.kind = "gas boiler"')
    assert lines[at + 1] == 'controls.room_controller = "none"'
    assert {"electricity.phases = 3", "handling.gear = []"} <= set(
        lines[: lines.index("[[water.run]]")]
    )


BASE = """\
[[electricity.circuit]]
name = "A"
power = "1 kW"
[[electricity.circuit]]
name = "B"
[[placement.openings]]
kind = "window"
"""


@pytest.fixture(name="based")
def job_on_a_base(tmp_path: Path) -> JobText:
    (tmp_path / "base.toml").write_text(BASE)
    job = tmp_path / "job.toml"
    job.write_text('based_on = "base.toml"\n[[electricity.circuit]]\nname = "D"\n')
    return JobText(job, Rulebook.built_in())


def own(text: JobText) -> dict:
    return tomllib.loads(text.path.read_text())


def test_what_the_base_states_is_left_in_the_base(based: JobText) -> None:
    assert [file.path.name for file in based.files] == ["job.toml"]
    based.put("unit.mass", "100 kg")
    assert own(based)["unit"] == {"mass": "100 kg"}
    assert (based.path.parent / "base.toml").read_text() == BASE


def test_an_item_of_the_base_is_told_by_its_name(based: JobText) -> None:
    based.put("electricity.circuit[2].power", "2 kW")
    assert own(based)["electricity"]["circuit"] == [{"name": "D"}, {"name": "B", "power": "2 kW"}]
    assert str(based.job.electricity.circuit[1].power) == "2 kW"


def test_an_item_of_the_job_itself_is_found_behind_those_of_the_base(based: JobText) -> None:
    based.put("electricity.circuit[3].power", "3 kW")
    assert own(based)["electricity"]["circuit"] == [{"name": "D", "power": "3 kW"}]


def test_a_new_item_is_added_to_those_of_the_base(based: JobText) -> None:
    based.put("electricity.circuit[4]", {"name": "E"})
    assert [circuit.name for circuit in based.job.electricity.circuit] == ["A", "B", "D", "E"]


def test_a_list_that_only_the_job_has_is_written_as_ever(based: JobText) -> None:
    based.put("water.run[1]", {"name": "flow"})
    based.put("water.run[1].length", "7 m")
    assert own(based)["water"]["run"] == [{"name": "flow", "length": "7 m"}]


def test_a_nameless_item_of_the_base_is_left_alone(based: JobText) -> None:
    before = based.path.read_text()
    with pytest.raises(AnswerConflictError, match="no name"):
        based.put("placement.openings[1].distance", "2 m")
    assert based.path.read_text() == before


def test_an_interview_about_a_house_type_of_the_program_ends(tmp_path: Path) -> None:
    shutil.copytree(bundled_folder("sample_jobs"), tmp_path, dirs_exist_ok=True)
    job = tmp_path / "mine.toml"
    job.write_text('based_on = "house_types/thirties-semi.toml"\njob.stage = "design"\n')
    interview = Interview(job, Rulebook.built_in())
    for _ in range(60):
        if interview.question is None:
            break
        hint = interview.question.example
        interview.answer(hint if isinstance(hint, str) and hint else "")
    assert Interview(job, Rulebook.built_in()).summary().open < 200
