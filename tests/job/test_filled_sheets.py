"""A sheet merged over a job: what was filled in on the spot, and nothing else, is put over it."""

from pathlib import Path

import pytest

from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.text.problem import Problem, Refused

BASE = """\
[job]
title = "Invented job"
stage = "installation"
[site]
snow_depth = "120 mm"
[[electricity.circuit]]
name = "outdoor unit"
phases = 1
[[electricity.circuit]]
name = "booster heater"
phases = 1
[[water.run]]
length = "3 m"
[[water.run]]
length = "4 m"
"""


def laid(folder: Path, sheet: str, base: str = BASE) -> Job:
    """Read a sheet that lies over a job beside it."""
    (folder / "job.toml").write_text(base)
    path = folder / "sheet.toml"
    path.write_text(sheet)
    return Job.from_file(path)


def refused(folder: Path, sheet: str, base: str = BASE) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        laid(folder, sheet, base)
    return caught.value.problems


HEAD = "of_job = 'job.toml'\n"


def test_the_sheet_is_put_over_the_job(tmp_path: Path) -> None:
    job = laid(tmp_path, HEAD + "[job]\nstage = 'commissioning'\n[readings]\nfilter_cleaned = true")
    values = flatten(job).values
    assert values["job.stage"] == "commissioning"
    assert values["job.title"] == "Invented job"
    assert values["site.snow_depth"] == 0.12
    assert values["readings.filter_cleaned"] is True


def test_a_line_that_nobody_filled_in_says_nothing(tmp_path: Path) -> None:
    job = laid(tmp_path, HEAD + "[site]\nsnow_depth = ''\n[readings.water]\nflow = ''")
    values = flatten(job).values
    assert values["site.snow_depth"] == 0.12
    assert "readings.water" not in values


def test_an_item_is_found_by_its_name(tmp_path: Path) -> None:
    sheet = HEAD + "[[electricity.circuit]]\nname = 'booster heater'\nloop_impedance = '0.6 ohm'"
    job = laid(tmp_path, sheet)
    circuits = flatten(job).values["electricity.circuit"]
    assert isinstance(circuits, list)
    assert [one.get("loop_impedance") for one in circuits] == [None, 0.6]
    assert [one["phases"] for one in circuits] == [1, 1]


def test_an_item_without_a_name_is_found_by_its_position(tmp_path: Path) -> None:
    job = laid(tmp_path, HEAD + "[[water.run]]\n[[water.run]]\nbends = 2")
    runs = flatten(job).values["water.run"]
    assert isinstance(runs, list)
    assert [one.get("bends") for one in runs] == [None, 2.0]


def test_a_list_the_job_does_not_have_comes_whole_from_the_sheet(tmp_path: Path) -> None:
    job = laid(tmp_path, HEAD + "[[water.emitter]]\nname = 'hall'")
    emitters = flatten(job).values["water.emitter"]
    assert emitters == [{"name": "hall"}]
    assert job.source is not None
    assert job.source.place("water.emitter[1].name") == (str(tmp_path / "sheet.toml"), 3, 1)


def test_each_fact_knows_in_which_of_the_files_it_stands(tmp_path: Path) -> None:
    sheet = HEAD + "[[electricity.circuit]]\nname = 'booster heater'\nloop_impedance = '0.6 ohm'"
    source = laid(tmp_path, sheet).source
    assert source is not None
    over, own = str(tmp_path / "sheet.toml"), str(tmp_path / "job.toml")
    assert source.place("electricity.circuit[2].loop_impedance") == (over, 4, 1)
    assert source.place("electricity.circuit[2].phases") == (own, 11, 1)
    assert source.place("electricity.circuit[1].phases") == (own, 8, 1)
    assert source.place("site.snow_depth") == (own, 5, 1)


@pytest.mark.parametrize(
    ("sheet", "place", "said"),
    [
        ("[[electricity.circuit]]\nname = 'boster heater'", (2, 3), "Did you mean 'booster"),
        ("[[water.run]]\n[[water.run]]\n[[water.run]]\nbends = 1", (4, 3), "has 2 of these"),
        ("[readings]\nfilter_cleaned = 'perhaps'", (3, 19), "true or false"),
        ("[readings]\nfilter_cleened = true", (3, 1), "Did you mean 'filter_cleaned'"),
    ],
)
def test_what_fits_nowhere_is_told_with_its_place(
    tmp_path: Path, sheet: str, place: tuple[int, int], said: str
) -> None:
    problem, *_ = refused(tmp_path, HEAD + sheet)
    assert (problem.line, problem.column) == place
    assert said in problem.sentence


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("of_job = 'jop.toml'", "There is no file 'jop.toml'"),
        ("of_job = '/etc/job.toml'", "absolute path"),
        ("of_job = 'sheet.toml'", "This is a sheet itself"),
        ("of_job = 3", "Write text in quotes"),
        ("of_job = ''", "Name the file of the job"),
    ],
)
def test_a_sheet_names_a_job_beside_it(tmp_path: Path, head: str, said: str) -> None:
    assert said in " ".join(problem.sentence for problem in refused(tmp_path, head))


def test_what_is_wrong_with_the_job_is_told_of_the_job(tmp_path: Path) -> None:
    (problem,) = refused(tmp_path, HEAD, BASE.replace("120 mm", "120"))
    assert problem.file == str(tmp_path / "job.toml")
    assert problem.line == 5


def test_a_text_without_a_folder_has_no_job_to_lie_over() -> None:
    with pytest.raises(Refused, match="of_job"):
        Job.from_toml(HEAD)
    with pytest.raises(Refused, match="of_job"):
        Job.from_data({"of_job": "job.toml"})
