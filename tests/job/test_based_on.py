"""A job merged over its base: what it states stands, what it leaves out is the base's."""

from pathlib import Path
from typing import Any

import pytest

from job.based import BASE, HEAD, laid, refused, values, written
from tundish.findings.assess import digest_of
from tundish.job.facts import flatten
from tundish.job.job import Job


def test_what_the_job_states_stands_over_what_the_base_states(tmp_path: Path) -> None:
    found = values(tmp_path, "[job]\ntitle = 'Ours'\n[site]\naltitude = '40 m'")
    assert found["job.title"] == "Ours"
    assert found["job.region"] == "GB"
    assert found["site.snow_depth"] == 0.12
    assert found["site.altitude"] == 40


def test_a_job_that_says_nothing_more_is_what_its_base_is(tmp_path: Path) -> None:
    job = laid(tmp_path, "")
    assert digest_of(flatten(job)) == digest_of(flatten(Job.from_toml(BASE)))


def test_an_item_is_laid_over_the_one_of_its_name(tmp_path: Path) -> None:
    runs = values(tmp_path, "[[water.run]]\nname = ' return '\nbends = 4")["water.run"]
    assert [run.get("bends") for run in runs] == [2, 4]
    assert [run["length"] for run in runs] == [3, 4]


def test_an_item_of_a_new_name_comes_behind_the_others(tmp_path: Path) -> None:
    job = "[[water.run]]\nname = 'loft'\nlength = '1 m'\n[[water.run]]\nname = 'flow'\nbends = 9"
    runs = values(tmp_path, job)["water.run"]
    assert [(run["name"], run["length"], run.get("bends")) for run in runs] == [
        ("flow", 3, 9),
        ("return", 4, None),
        ("loft", 1, None),
    ]


@pytest.mark.parametrize(
    ("job", "lengths"),
    [
        ("[[water.run]]\nlength = '9 m'", [9]),
        ("[[water.run]]\nname = 'flow'\n[[water.run]]\nlength = '9 m'", [None, 9]),
        ("[water]\nrun = []", []),
    ],
)
def test_a_list_with_an_item_without_a_name_stands_alone(
    tmp_path: Path, job: str, lengths: list[float | None]
) -> None:
    assert [run.get("length") for run in values(tmp_path, job)["water.run"]] == lengths


def test_a_named_item_comes_behind_those_of_the_base_without_a_name(tmp_path: Path) -> None:
    base = "[[water.run]]\nlength = '1 m'\n[[water.run]]\nlength = '2 m'"
    runs = values(tmp_path, "[[water.run]]\nname = 'loft'\nlength = '3 m'", base)["water.run"]
    assert [run["length"] for run in runs] == [1, 2, 3]


@pytest.mark.parametrize("word", ["'none'", "false"])
def test_none_takes_a_table_of_the_base_away(tmp_path: Path, word: str) -> None:
    found = values(tmp_path, f"[water]\nvolume_vessel = {word}")
    assert found["water.volume_vessel"] is False
    assert "water.volume_vessel.volume" not in found


def test_a_table_stands_in_the_place_of_none(tmp_path: Path) -> None:
    found = values(
        tmp_path, "[water.volume_vessel]\nvolume = '9 L'", "[water]\nvolume_vessel = 'none'"
    )
    assert found["water.volume_vessel.volume"] == pytest.approx(0.009)


def test_tolerances_and_facts_of_packs_are_those_of_the_base_too(tmp_path: Path) -> None:
    job = laid(tmp_path, "[more]\ncolour = 'green'", BASE + "[more]\nheight = '2 m'\n")
    assert job.tolerance is not None and job.tolerance[0].of == "site.snow_depth"
    assert job.more == {"height": "2 m", "colour": "green"}


def test_waivers_of_a_base_are_refused_and_those_of_the_job_hold(tmp_path: Path) -> None:
    waiver = "[[waiver]]\nrule = 'clearances/left'\n"
    assert laid(tmp_path, waiver).waiver
    (problem,) = refused(written(tmp_path, job=HEAD, types__base="[site]\n" + waiver))
    assert (Path(problem.file).name, problem.line) == ("base.toml", 2)
    assert "answered for in one job" in problem.sentence
    assert not laid(tmp_path, "", "waiver = []\n[site]").waiver


def test_a_blank_text_is_refused_as_in_any_job(tmp_path: Path) -> None:
    path = written(tmp_path, job=HEAD + "[site]\nsnow_depth = ''", types__base=BASE)
    (problem,) = refused(path)
    assert (problem.file, problem.line) == (str(path), 3)


def test_each_fact_knows_in_which_file_it_stands(tmp_path: Path) -> None:
    job = "[[water.run]]\nname = 'loft'\nbends = 1\n[[water.run]]\nname = 'return'\nbends = 9\n"
    source = laid(tmp_path, job + "[site]\nsnow_depth = '9 mm'\n[water]\nvolume_vessel = false\n")
    assert source.source is not None
    place = source.source.place
    own, base = str(tmp_path / "job.toml"), str(tmp_path / "types/base.toml")
    assert place("site.snow_depth") == (own, 9, 1)
    assert place("water.run[1].bends") == (base, 11, 1)
    assert place("water.run[2].length") == (base, 14, 1)
    assert place("water.run[2].bends") == (own, 7, 1)
    assert place("water.run[3].bends") == (own, 4, 1)
    assert place("job.title") == (base, 2, 1)
    assert place("tolerance[1].share") == (base, 19, 1)
    assert place("water.volume_vessel.volume") is None
    assert place("site.altitude") is None


def test_nothing_is_told_of_a_list_that_another_stands_in_place_of(tmp_path: Path) -> None:
    job = laid(tmp_path, "[[water.run]]\npipe = 'copper 28 x 0.9'")
    assert job.source is not None
    assert job.source.place("water.run[1].bends") is None
    assert job.source.place("water.run[2]") is None
    assert job.source.place("water.run[1].pipe.wall") == (str(tmp_path / "job.toml"), 3, 1)


def test_a_chain_is_laid_together_from_below(tmp_path: Path) -> None:
    path = written(
        tmp_path,
        job="based_on = 'a.toml'\n[[water.run]]\nname = 'one'\nbends = 3",
        a="based_on = 'b/b.toml'\n[[water.run]]\nname = 'two'\nbends = 2\n[site]\naltitude = '2 m'",
        b__b="[[water.run]]\nname = 'one'\nlength = '1 m'\n[site]\naltitude = '1 m'",
    )
    job = Job.from_file(path)
    found = flatten(job).values
    assert found["site.altitude"] == 2
    assert found["water.run"] == [
        {"name": "one", "length": 1, "bends": 3},
        {"name": "two", "bends": 2},
    ]
    assert job.source is not None
    assert job.source.place("water.run[1].length") == (str(tmp_path / "b/b.toml"), 3, 1)
    assert job.source.place("water.run[2].bends") == (str(tmp_path / "a.toml"), 4, 1)


def test_a_sheet_is_laid_over_a_job_with_its_base(tmp_path: Path) -> None:
    written(
        tmp_path,
        job=HEAD + "[[water.run]]\nname = 'loft'",
        types__base=BASE,
        sheet="of_job = 'job.toml'\n[[water.run]]\nname = 'return'\nbends = 7\n"
        "[[water.run]]\nname = 'loft'\nbends = 8\n[site]\nsnow_depth = ''\n"
        "[water]\nvolume_vessel = ''\n",
    )
    job = Job.from_file(tmp_path / "sheet.toml")
    runs: Any = flatten(job).values["water.run"]
    assert [run["bends"] for run in runs] == [2, 7, 8]
    assert job.source is not None
    assert job.source.place("water.run[2].bends") == (str(tmp_path / "sheet.toml"), 4, 1)
    assert job.source.place("water.run[1].bends") == (str(tmp_path / "types/base.toml"), 11, 1)
    assert job.source.place("site.snow_depth") == (str(tmp_path / "types/base.toml"), 5, 1)
    assert job.source.place("water.volume_vessel.volume") == (
        str(tmp_path / "types/base.toml"),
        7,
        19,
    )


def test_a_sheet_is_not_based_on_a_job_itself(tmp_path: Path) -> None:
    written(tmp_path, job="", types__base=BASE, sheet="of_job = 'job.toml'\n" + HEAD)
    (problem,) = refused(tmp_path / "sheet.toml")
    assert (problem.line, problem.column) == (2, 13)
    assert "write this line in the job" in problem.sentence
