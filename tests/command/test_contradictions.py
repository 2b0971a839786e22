"""Facts that cannot be so together are told with both places, by each command, before all else."""

from __future__ import annotations

import json
import re
from pathlib import Path
from xml.etree import ElementTree as Xml

import pytest

from command.conftest import Run, Write
from tundish.interview.interview import Interview
from tundish.job.job import Job
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bundled_folders import bundled_folder

JOB = """
[job]
title = "Invented cottage"
stage = "design"
region = "GB"

[hot_water]
storage_temperature = "8 degC"
cold_temperature = "10 degC"

[placement]
height_below = "100 mm"
"""
SENTENCE = (
    "hot_water.storage_temperature: 8 degC cannot be beside hot_water.cold_temperature: 10 degC "
    "(job.toml:9:1). Water that the mains fill in is heated in the cylinder, never cooled. "
    "Possible is hot_water.storage_temperature at least 10 degC, or hot_water.cold_temperature "
    "at most 8 degC."
)


def joined(text: str) -> str:
    return " ".join(text.split())


@pytest.fixture(name="job")
def a_job(write: Write) -> Path:
    return write("job.toml", JOB)


def test_check_tells_both_places_and_judges_the_rest(run_built_in: Run, job: Path) -> None:
    ran = run_built_in("check", "job.toml", "--plain", "--show", "all")
    assert ran.code == 2
    assert ran.err.startswith("job.toml, line 8, column 1\n")
    assert SENTENCE in joined(ran.err)
    # What does not rest on the two is judged all the same; nothing is reckoned from them.
    assert "Height below the unit 100 mm is less than 150 mm" in joined(ran.out)
    assert not re.search(r"(?<![0-9])8 degC", ran.out)


def test_data_and_documents_tell_it_too(run_built_in: Run, job: Path) -> None:
    single = json.loads(run_built_in("check", "job.toml", "--json").out)
    assert [(each["line"], each["sentence"]) for each in single["contradictions"]] == [
        (8, SENTENCE)
    ]
    several = json.loads(run_built_in("check", "job.toml", "job.toml", ".", "--json").out)
    assert [each["sentence"] for each in several["problems"]] == [SENTENCE]
    assert len(several["assessments"]) == 1
    sarif = json.loads(run_built_in("check", "job.toml", "--as", "sarif").out)
    assert not sarif["runs"][0]["invocations"][0]["executionSuccessful"]
    junit = Xml.fromstring(run_built_in("check", "job.toml", "--as", "junit").out)
    (error,) = junit.iter("error")
    assert error.get("type") == "facts contradict each other"
    assert SENTENCE in str(error.get("message"))
    for form in ("html", "markdown"):
        text = joined(run_built_in("check", "job.toml", "--as", form).out)
        assert "acts contradict each other" in text
        assert text.index("cannot be beside") < text.index("100 mm")


@pytest.mark.parametrize(
    "command",
    [
        ("survey", "job.toml"),
        ("mend", "job.toml"),
        ("order", "job.toml"),
        ("compare", "job.toml", "job.toml"),
        ("ask", "job.toml"),
    ],
)
def test_what_asks_more_of_a_job_refuses_it(
    run_built_in: Run, job: Path, command: tuple[str, ...]
) -> None:
    ran = run_built_in(*command)
    assert ran.code == 2
    assert "job.toml:9:1" in joined(ran.err)


def test_an_answer_that_contradicts_is_told_at_once_and_not_written(
    write: Write,
) -> None:
    text = JOB.replace('storage_temperature = "8 degC"\n', "")
    job = write("job.toml", f'{text}\n[hot_water.cylinder]\nvolume = "200 L"\n')
    interview = Interview(job)
    while interview.question and interview.question.path != "hot_water.storage_temperature":
        interview.answer("skip")
    reply = interview.answer("5 degC")
    assert reply.outcome == "misread"
    assert "5 degC cannot be beside hot_water.cold_temperature: 10 degC" in reply.sentence
    assert "job.toml:8:1" in reply.sentence
    assert "5 degC" not in job.read_text()
    assert interview.answer("50 degC").outcome == "written"


@pytest.mark.parametrize("ending", ["csv", "jsonl"])
def test_a_row_of_a_table_is_told_as_one_that_cannot_be_read(
    run_built_in: Run, write: Write, ending: str
) -> None:
    write("job.toml", JOB.replace("8 degC", "50 degC"))
    rows = [{"job": "Cold", "hot_water.storage_temperature": "8 degC"}]
    rows += [{"job": "Warm", "hot_water.storage_temperature": "55 degC"}]
    text = "job,hot_water.storage_temperature\nCold,8 degC\nWarm,55 degC\n"
    if ending == "jsonl":
        text = "".join(json.dumps(row) + "\n" for row in rows)
    write(f"homes.{ending}", text)
    ran = run_built_in("portfolio", f"homes.{ending}", "--base", "job.toml", "--to", "out.jsonl")
    assert ran.code == 2
    assert "row 1 (Cold): hot_water.storage_temperature: 8 degC cannot be beside" in joined(ran.err)
    assert "Not judged" in joined(ran.out)


def test_explain_tells_what_binds_a_fact(run_built_in: Run) -> None:
    text = joined(run_built_in("explain", "hot_water.cold_temperature", "--plain").out)
    assert "hot_water.storage_temperature >= hot_water.cold_temperature" in text
    assert "(hot-water/stored-above-mains)" in text
    text = joined(run_built_in("explain", "hot-water/stored-above-mains", "--plain").out)
    assert "can only be hot_water.storage_temperature >= hot_water.cold_temperature" in text
    assert "impossible: a hair colder" in text


def test_no_sample_contradicts_itself() -> None:
    rulebook = Rulebook.built_in()
    for path in sorted(bundled_folder("sample_jobs").glob("*.toml")):
        rulebook.facts(Job.from_file(path))
