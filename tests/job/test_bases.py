"""The bases of a job: how many, which files, their unit sheets, and what is wrong with them."""

from pathlib import Path

import pytest

from job.based import BASE, HEAD, laid, refused, values, written
from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.text.bounds import LONGEST_LIST, MOST_BASES
from tundish.text.problem import Refused


def chain(folder: Path, bases: int) -> Path:
    for at in range(bases + 1):
        named = f"based_on = 'b{at + 1}.toml'\n" if at < bases else "[site]\naltitude = '5 m'\n"
        (folder / f"b{at}.toml").write_text(named)
    return folder / "b0.toml"


def test_as_many_bases_as_the_bound_and_no_more(tmp_path: Path) -> None:
    assert flatten(Job.from_file(chain(tmp_path, MOST_BASES))).values["site.altitude"] == 5
    (problem,) = refused(chain(tmp_path, MOST_BASES + 1))
    assert problem.file == str(tmp_path / f"b{MOST_BASES}.toml")
    assert "at most 4 others" in problem.sentence


def test_a_circle_is_told_with_all_who_are_in_it(tmp_path: Path) -> None:
    path = written(
        tmp_path,
        job="based_on = 'a.toml'",
        a="based_on = './b.toml'",
        b="based_on = 'a.toml'",
    )
    (problem,) = refused(path)
    assert "'job.toml' -> 'a.toml' -> 'b.toml' -> 'a.toml'" in problem.sentence
    assert (problem.file, problem.line, problem.column) == (str(tmp_path / "b.toml"), 1, 13)
    (problem,) = refused(written(tmp_path, job="based_on = 'job.toml'"))
    assert "'job.toml' -> 'job.toml'" in problem.sentence


def test_what_is_wrong_with_job_base_and_sheet_is_told_in_one_run(tmp_path: Path) -> None:
    path = written(
        tmp_path,
        job=HEAD + "unit_sheet = 'unit.toml'\n[site]\naltitude = 3",
        types__base="based_on = 'under.toml'\n[site]\nsnow_depht = '1 m'",
        types__under="[site]\nsnow_depth = '1 kg'",
        unit="[unit]\nmass = '1 m'",
    )
    told = [(Path(one.file).name, one.line, one.key) for one in refused(path)]
    assert told == [
        ("job.toml", 4, "site.altitude"),
        ("base.toml", 3, "site.snow_depht"),
        ("under.toml", 2, "site.snow_depth"),
        ("unit.toml", 2, "unit.mass"),
    ]


def test_what_does_not_go_together_is_told_of_the_file_above(tmp_path: Path) -> None:
    path = written(
        tmp_path,
        job=HEAD + "[placement]\n[placement.clearance]\ntop = '300 mm'",
        types__base="[placement.clearance]\nopen_above = true",
    )
    (problem,) = refused(path)
    assert (problem.file, problem.line) == (str(path), 3)


def test_a_conflict_between_two_bases_is_told_of_the_upper_one(tmp_path: Path) -> None:
    path = written(
        tmp_path,
        job=HEAD,
        types__base="based_on = 'under.toml'\n[placement.clearance]\ntop = '300 mm'",
        types__under="[placement.clearance]\nopen_above = true",
    )
    (problem,) = refused(path)
    assert Path(problem.file).name == "base.toml"


def test_a_list_that_grows_past_the_bound_is_refused(tmp_path: Path) -> None:
    def runs(many: int, word: str) -> str:
        return "".join(f"[[water.run]]\nname = '{word} {at}'\n" for at in range(many))

    base = runs(LONGEST_LIST - 1, "base")
    assert len(laid(tmp_path, runs(1, "own"), base).water.run) == LONGEST_LIST  # type: ignore[union-attr, arg-type]
    (problem,) = refused(written(tmp_path, job=HEAD + runs(2, "own"), types__base=base))
    assert problem.file == str(tmp_path / "job.toml")
    assert f"the most is {LONGEST_LIST}" in problem.sentence


SHEET = "[unit]\nmass = '124 kg'\n[unit.water]\ncontent = '3 L'\n"


def test_a_unit_sheet_is_found_from_the_folder_of_the_base_that_names_it(tmp_path: Path) -> None:
    path = written(
        tmp_path,
        job=HEAD + "[unit.water]\ncontent = '4 L'",
        types__base="unit_sheet = '../sheets/unit.toml'\n[unit]\nmass = '125 kg'",
        sheets__unit=SHEET + "minimum_flow = '20 L/min'",
    )
    job = Job.from_file(path)
    written_as = flatten(job).written
    assert written_as["unit.mass"] == "125 kg"
    assert written_as["unit.water.content"] == "4 L"
    assert written_as["unit.water.minimum_flow"] == "20 L/min"
    assert job.unit_sheet == "sheets/unit.toml"
    assert job.source is not None
    assert job.source.place("unit.mass") == (str(tmp_path / "types/base.toml"), 3, 1)
    assert [Path(file.name).name for file in job.source.files] == [
        "job.toml",
        "base.toml",
        "unit.toml",
    ]


def test_the_unit_sheet_of_the_job_stands_in_the_place_of_the_base_s(tmp_path: Path) -> None:
    path = written(
        tmp_path,
        job=HEAD + "unit_sheet = 'own.toml'",
        types__base="unit_sheet = 'unit.toml'",
        types__unit=SHEET,
        own="[unit]\nmass = '90 kg'",
    )
    found = flatten(Job.from_file(path)).written
    assert found["unit.mass"] == "90 kg"
    assert "unit.water.content" not in found


def test_a_unit_sheet_that_is_not_there_is_told_of_the_base_that_names_it(tmp_path: Path) -> None:
    path = written(tmp_path, job=HEAD, types__base="\nunit_sheet = 'none.toml'")
    (problem,) = refused(path)
    assert (Path(problem.file).name, problem.line) == ("base.toml", 2)


@pytest.mark.parametrize(
    ("base", "said"),
    [
        (SHEET, "'base.toml' is a unit sheet; name it as unit_sheet"),
        ("of_job = 'other.toml'\n[readings]", "'base.toml' is a sheet or form"),
        ("[tool.login]\nword = 'hunter2'", "'base.toml' is no job"),
    ],
)
def test_a_base_that_is_no_job_is_told_where_it_is_named(
    tmp_path: Path, base: str, said: str
) -> None:
    path = written(tmp_path, job=HEAD, types__base=base)
    (problem,) = refused(path)
    assert said in problem.sentence
    assert (problem.file, problem.line, problem.column) == (str(path), 1, 13)


@pytest.mark.parametrize(
    ("named", "said"),
    [
        ("'bass.toml'", "There is no file 'bass.toml'"),
        ("'types'", "is a folder"),
        ("3", "Write text in quotes"),
        ("''", "blank"),
        ("['types/base.toml']", "Write text in quotes"),
    ],
)
def test_what_names_no_file_is_told(tmp_path: Path, named: str, said: str) -> None:
    (problem,) = refused(written(tmp_path, job=f"based_on = {named}", types__base=BASE))
    assert said in problem.sentence
    assert problem.key == "based_on"


def test_a_text_finds_its_base_from_the_folder_that_is_given(tmp_path: Path) -> None:
    written(tmp_path, types__base=BASE)
    job = Job.from_toml(HEAD, "standard input", tmp_path)
    assert job.title == "Invented house type"
    with pytest.raises(Refused, match="based_on"):
        Job.from_toml(HEAD)
    with pytest.raises(Refused, match="based_on"):
        Job.from_data({"based_on": "types/base.toml"})


def test_a_base_may_be_empty(tmp_path: Path) -> None:
    assert values(tmp_path, "[site]\naltitude = '1 m'", "")["site.altitude"] == 1
