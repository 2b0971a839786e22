"""`tundish check --as`: every form, for one job and for several, and what could not be read."""

import json
import re
from typing import get_args
from xml.etree import ElementTree as Xml

import pytest

from command.conftest import BROKEN_JOB, DANGEROUS_JOB, GOOD_JOB, Run
from tundish.command.option_values import FORMS
from tundish.report.formats.document import DocumentForm

DOCUMENTS = tuple(form for form in FORMS if form != "plain")


def test_the_forms_of_the_option_are_those_of_the_program() -> None:
    assert get_args(DocumentForm) == DOCUMENTS


@pytest.mark.parametrize("form", FORMS)
def test_a_form_tells_the_job_and_ends_as_ever(run: Run, write, form: str) -> None:
    write("job.toml", DANGEROUS_JOB)
    ran = run("check", "job.toml", "--as", form)
    assert (ran.code, ran.err) == (1, "")
    assert "Invented chalet" in ran.out
    assert ran.out.endswith("\n")


@pytest.mark.parametrize("form", FORMS)
def test_the_same_job_gives_the_same_bytes(run: Run, write, form: str) -> None:
    write("job.toml", DANGEROUS_JOB)
    arguments = ("check", "job.toml", "--as", form, "--show", "all", "--section", "siting")
    assert run(*arguments).out == run(*arguments).out


@pytest.mark.parametrize("form", FORMS)
def test_no_form_adds_where_the_program_runs(run: Run, write, form: str, tmp_path) -> None:
    write("jobs/a.toml", DANGEROUS_JOB)
    write("jobs/b.toml", BROKEN_JOB)
    assert str(tmp_path) not in run("check", "jobs", "--as", form).out


@pytest.mark.parametrize("form", DOCUMENTS)
def test_what_could_not_be_read_stands_in_the_form_too(run: Run, write, form: str) -> None:
    write("a.toml", GOOD_JOB)
    write("b.toml", BROKEN_JOB)
    ran = run("check", "a.toml", "b.toml", "--as", form)
    assert ran.code == 2
    assert "b.toml, line 8" in ran.err
    assert "mmm" in ran.out and "Invented cottage" in ran.out


@pytest.mark.parametrize("form", ["markdown", "html", "sarif", "junit"])
def test_one_job_that_cannot_be_read_is_a_document_too(run: Run, write, form: str) -> None:
    write("b.toml", BROKEN_JOB)
    ran = run("check", "b.toml", "--as", form)
    assert ran.code == 2
    assert "mmm" in ran.out


@pytest.mark.parametrize("form", ["plain", "json"])
def test_the_short_options_are_the_same(run: Run, write, form: str) -> None:
    write("job.toml", DANGEROUS_JOB)
    short, long = run("check", "job.toml", f"--{form}"), run("check", "job.toml", "--as", form)
    assert short == long


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--as", "htm"), "Did you mean 'html'?"),
        (("--as", "html", "--json"), "not allowed with"),
        (("--as", "json", "--plain"), "not allowed with"),
    ],
)
def test_a_wrong_form_is_a_sentence(run: Run, arguments: tuple[str, ...], said: str) -> None:
    ran = run("check", "job.toml", *arguments)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err


def test_a_folder_without_a_job_is_told_and_is_no_job(run: Run, write) -> None:
    write("jobs/notes.txt", "")
    ran = run("check", "jobs", "--as", "markdown")
    assert ran.code == 2
    assert "no job in this folder" in ran.out
    assert "jobs: could not be read" not in ran.out


@pytest.mark.parametrize("form", ["markdown", "html"])
def test_several_jobs_are_one_document_with_the_cautions_once(run: Run, write, form: str) -> None:
    write("jobs/a.toml", GOOD_JOB)
    write("jobs/b.toml", DANGEROUS_JOB)
    out = run("check", "jobs", "--as", form).out
    assert out.index("All jobs") < out.index("How it stands")
    assert out.count("Before you act on this") == 1
    assert len(re.findall("Two jobs checked", out)) == (1 if form == "markdown" else 2)


def test_sarif_of_several_jobs_is_one_run(run: Run, write) -> None:
    write("jobs/a.toml", GOOD_JOB)
    write("jobs/b.toml", DANGEROUS_JOB)
    (one,) = json.loads(run("check", "jobs", "--as", "sarif").out)["runs"]
    assert [job["title"] for job in one["properties"]["jobs"]] == [
        "Invented cottage",
        "Invented chalet",
    ]
    (result,) = one["results"]
    where = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
    assert where == "jobs/b.toml"


def test_junit_has_a_suite_for_each_job(run: Run, write) -> None:
    write("jobs/a.toml", GOOD_JOB)
    write("jobs/b.toml", DANGEROUS_JOB)
    write("jobs/c.toml", BROKEN_JOB)
    root = Xml.fromstring(run("check", "jobs", "--as", "junit").out)
    assert [suite.get("name") for suite in root] == [
        "Invented cottage, jobs/a.toml",
        "Invented chalet, jobs/b.toml",
        "jobs/c.toml",
    ]
    assert (root.get("failures"), root.get("errors")) == ("1", "1")


def test_workings_and_show_reach_a_page(run: Run, write) -> None:
    write("job.toml", DANGEROUS_JOB)
    assert "site.snow_depth + 200 mm" in run("check", "job.toml", "--as", "html", "--workings").out
    assert "In order" not in run("check", "job.toml", "--as", "html").out


def test_a_title_that_looks_like_markup_stays_text(run: Run, write) -> None:
    title = "<b onload=x> [a](b) \u202e"
    write("job.toml", GOOD_JOB.replace("Invented cottage", title.replace("\u202e", "")))
    assert "&lt;b onload=x&gt;" in run("check", "job.toml", "--as", "html").out
    assert "\\<b onload=x\\> \\[a\\](b)" in run("check", "job.toml", "--as", "markdown").out


@pytest.mark.parametrize("form", FORMS)
def test_every_form_tells_what_it_was_made_from(run: Run, write, form: str) -> None:
    write("job.toml", DANGEROUS_JOB)
    stated = json.loads(run("check", "job.toml", "--json").out)
    for arguments in (("job.toml",), ("job.toml", "job.toml")):
        told = "".join(run("check", *arguments, "--as", form).out.split())
        assert stated["job_digest"] in told
        assert stated["rulebook_digest"] in told
        assert stated["version"] in told


def test_the_console_tells_what_a_page_was_made_from(run: Run, write) -> None:
    write("job.toml", DANGEROUS_JOB)
    stated = json.loads(run("check", "job.toml", "--json").out)
    told = "".join(run("check", "job.toml").out.split())
    assert stated["job_digest"] in told
    assert stated["rulebook_digest"] in told
