from pathlib import Path

import pytest

from job.sample import JOB, SHEET
from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.text.problem import Problem, Refused


def refused(path: Path) -> tuple[Problem, ...]:
    with pytest.raises(Refused) as caught:
        Job.from_file(path)
    return caught.value.problems


def test_the_sample_is_read_with_its_sheet(job_file: Path) -> None:
    job = Job.from_file(job_file)
    assert (job.title, job.region, job.stage) == (
        "Bungalow at the end of an invented lane",
        "GB",
        "design",
    )
    assert job.unit is not None and str(job.unit.mass) == "124 kg"


def test_the_job_wins_over_the_sheet_key_by_key(job_file: Path) -> None:
    job_file.write_text(JOB + "[unit]\nmass = '130 kg'\n[unit.water]\nminimum_flow = '18 L/min'\n")
    written = flatten(Job.from_file(job_file)).written
    assert written["unit.mass"] == "130 kg"
    assert written["unit.water.minimum_flow"] == "18 L/min"
    assert written["unit.water.minimum_free_volume"] == "24 L"


def test_a_list_in_the_job_replaces_the_whole_list_of_the_sheet(job_file: Path) -> None:
    job_file.write_text(JOB + "[unit]\nrating = [{ air = '2 degC' }]\n")
    job = Job.from_file(job_file)
    assert flatten(job).values["unit.rating"] == [{"air": pytest.approx(275.15)}]
    assert job.source is not None
    assert job.source.place("unit.rating[1].output") is None
    assert job.source.place("unit.rating[2]") is None


def test_none_in_the_job_wins_over_a_record_in_the_sheet(job_file: Path) -> None:
    job_file.write_text(JOB + "[unit.electricity]\nbackup_heater = 'none'\n")
    values = flatten(Job.from_file(job_file)).values
    assert values["unit.electricity.backup_heater"] is False
    assert "unit.electricity.backup_heater.power" not in values


def test_each_fact_knows_its_file_and_place(job_file: Path) -> None:
    job_file.write_text(JOB + "[unit]\nmass = '130 kg'\n")
    source = Job.from_file(job_file).source
    assert source is not None
    sheet = str(job_file.parent / "unit-sheet.toml")
    lines = JOB.count("\n")
    assert source.place("unit.mass") == (str(job_file), lines + 2, 1)
    assert source.place("unit.size.depth") == (sheet, 6, 39)
    assert source.place("electricity.circuit[2].device.type") == (str(job_file), 66, 38)
    assert source.place("water.run[1].pipe.wall") == source.place("water.run[1].pipe")
    assert source.place("placement.clearance.open_above") == (str(job_file), 22, 50)
    assert source.place("site.altitude") is None
    assert source.place("water.run[2].pipe") is None


def test_where_facts_were_written_does_not_make_jobs_differ(job_file: Path) -> None:
    other = job_file.with_name("other.toml")
    other.write_text("# the same\n" + JOB)
    assert Job.from_file(job_file) == Job.from_file(other)
    assert hash(Job.from_file(job_file)) == hash(Job.from_file(other))
    assert Job.from_file(job_file) != Job()


def test_mistakes_of_job_and_sheet_are_told_in_one_run(job_file: Path) -> None:
    sheet = job_file.with_name("unit-sheet.toml")
    sheet.write_text(SHEET.replace('"124 kg"', '"124 km"').replace("phases ", "phase "))
    job_file.write_text(JOB.replace('"120 mm"', "120"))
    told = [(Path(p.file).name, p.line, p.column, p.key) for p in refused(job_file)]
    assert told == [
        ("job.toml", 13, 21, "site.snow_depth"),
        ("unit-sheet.toml", 5, 19, "unit.mass"),
        ("unit-sheet.toml", 23, 1, "unit.electricity.phase"),
    ]


def test_a_mistake_of_the_sheet_is_told_even_where_the_job_wins(job_file: Path) -> None:
    job_file.with_name("unit-sheet.toml").write_text(SHEET.replace('"124 kg"', "124"))
    job_file.write_text(JOB + "[unit]\nmass = '130 kg'\n")
    (problem,) = refused(job_file)
    assert problem.key == "unit.mass" and problem.file.endswith("unit-sheet.toml")


@pytest.mark.parametrize("path", ["/etc/hosts", "C:\\\\sheets\\\\a.toml", "\\\\a.toml"])
def test_an_absolute_path_is_refused_at_its_place(job_file: Path, path: str) -> None:
    job_file.write_text(f'unit_sheet = "{path}"\n')
    (problem,) = refused(job_file)
    assert (problem.line, problem.column) == (1, 15)
    assert "absolute path" in problem.sentence


def test_a_missing_sheet_is_refused_at_its_place(job_file: Path) -> None:
    job_file.write_text("[site]\nsnow_depth = 3\n" + "[job]\n")
    job_file.write_text('unit_sheet = "none.toml"\n[site]\nsnow_depth = 3\n')
    missing, other = refused(job_file)
    assert (missing.line, missing.column) == (1, 15)
    assert "no file 'none.toml'" in missing.sentence
    assert other.key == "site.snow_depth"


def test_a_sheet_in_a_neighbouring_folder_is_read(tmp_path: Path) -> None:
    for name in ("jobs", "sheets"):
        (tmp_path / name).mkdir()
    (tmp_path / "sheets/unit.toml").write_text(SHEET)
    (tmp_path / "jobs/job.toml").write_text('unit_sheet = "../sheets/unit.toml"\n')
    assert Job.from_file(tmp_path / "jobs/job.toml").unit is not None


def test_a_text_without_a_folder_has_no_sheet() -> None:
    with pytest.raises(Refused, match="folder of a job file"):
        Job.from_toml('unit_sheet = "unit-sheet.toml"\n')


def test_a_text_with_a_folder_finds_its_sheet(job_file: Path) -> None:
    assert Job.from_toml(JOB, "job.toml", job_file.parent) == Job.from_file(job_file)


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("[site]\n[unit]\n", 1, "holds one table, [unit]"),
        ("", None, "needs the table [unit]"),
        ("unit = 3\n", 1, "Write a table"),
        ("[unit\n", 1, "The header is not closed; write [unit]."),
    ],
)
def test_a_sheet_that_is_none_is_refused(
    job_file: Path, text: str, line: int | None, said: str
) -> None:
    job_file.with_name("unit-sheet.toml").write_text(text)
    (problem,) = refused(job_file)
    assert problem.file.endswith("unit-sheet.toml")
    assert problem.line == line and said in problem.sentence


def test_a_sheet_that_is_no_text_is_told_once(job_file: Path) -> None:
    job_file.write_text("unit_sheet = 3\n")
    (problem,) = refused(job_file)
    assert problem.key == "unit_sheet"
