"""Survey forms and commissioning sheets of every sample job and house type, at three stages."""

from __future__ import annotations

import re
import shutil
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from sample_jobs.filling import filled, lines
from tundish import Job, Refused, Rulebook, Verdict, assess
from tundish.command.main import main
from tundish.findings.finding import Assessment
from tundish.job.facts import own_names
from tundish.report.forms.commissioning_sheet import commissioning_sheet
from tundish.report.forms.survey_form import survey_form
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.survey import survey_lines
from tundish.survey.survey import Inquiry, inquiries
from tundish.text.bundled_folders import bundled_folder

BOOK = Rulebook.built_in()
SAMPLES = bundled_folder("sample_jobs")
JOBS = sorted(
    path.relative_to(SAMPLES).as_posix()
    for pattern in ("*.toml", "house_types/*.toml")
    for path in SAMPLES.glob(pattern)
)
STAGES = ("survey", "design", "commissioning")
each = pytest.mark.parametrize("name", JOBS)


@pytest.fixture(name="folder")
def samples_copied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Go to a folder with all sample jobs and what they name, and return it."""
    folder = tmp_path / "jobs"
    shutil.copytree(SAMPLES, folder)
    monkeypatch.chdir(folder)
    monkeypatch.setenv("COLUMNS", "80")
    return folder


@cache
def surveyed(name: str, stage: str) -> tuple[Assessment, tuple[Inquiry, ...]]:
    """Return a sample judged at a stage, and what is left to find out."""
    assessment = judged(SAMPLES / name, stage)
    return assessment, inquiries(assessment, BOOK)


def blank_forms(name: str) -> Iterator[tuple[str, Path]]:
    """Give the form of a job at each stage that asks anything, written beside it, and its sheet."""
    job = Job.from_file(name)
    beside, names = Path(name).name, own_names(job.facts)
    texts = {}
    for stage in STAGES:
        assessment, found = surveyed(name, stage)
        if found:
            texts[stage, "survey"] = survey_form(assessment, found, beside, names, BOOK)
    texts["commissioning", "sheet"] = commissioning_sheet(assessment, beside, names, BOOK) or ""
    for (stage, kind), text in texts.items():
        path = Path(name).with_suffix(f".{kind}.{stage}.toml")
        if text:
            path.write_text(text, encoding="utf-8")
            yield stage, path


def judged(path: str | Path, stage: str) -> Assessment:
    return assess(Job.from_file(path), BOOK, stage=stage, verdicts=(Verdict.UNDECIDED,))


def verdicts(assessment: Assessment) -> list[tuple[str, str, str]]:
    return [(one.rule, one.item, one.verdict) for one in assessment.judgements]


@each
def test_a_survey_fits_its_page_at_every_stage(name: str) -> None:
    for stage in STAGES:
        assessment, found = surveyed(name, stage)
        lines = list(survey_lines(assessment, found, BOOK))
        for width in (72, 80):
            rows = as_plain(lines, width).splitlines()
            assert rows[0].startswith("To find out: ")
            assert f"stage: {stage}" in rows[1:3]
            assert max(map(len, rows)) <= width


@each
def test_a_form_changes_nothing_while_blank_and_answers_itself_once_filled_in(
    name: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for stage, path in blank_forms(name):
        before, blank = surveyed(name, stage)[0], path.read_text(encoding="utf-8")
        after = judged(path, stage)
        assert verdicts(after) == verdicts(before)
        if ".sheet." not in path.name:  # a sheet says that it is commissioning
            assert after.job_digest == before.job_digest
        path.write_text(filled(blank), encoding="utf-8")
        if stage == STAGES[0]:
            assert main(["check", str(path)]) in (0, 1), capsys.readouterr().err
        answered = judged(path, stage).of(Verdict.UNDECIDED)
        asked = set(flat(tomllib.loads(blank)))
        assert asked.isdisjoint(fact.path for finding in answered for fact in finding.open)


def flat(data: object, path: str = "") -> Iterator[str]:
    """Give the paths of the blank lines outside lists."""
    if data == "":
        yield path
    elif isinstance(data, dict):
        for key, inner in data.items():
            yield from flat(inner, f"{path}.{key}".removeprefix("."))


WRONG = {
    "true or false": '"perhaps"',
    "a number": '"several"',
    "a list": '"anything"',
    "one of": '"whatever it is"',
    "a size": '"wide"',
    "such as": '"5 furlong"',
}


def test_every_wrong_answer_in_a_form_is_told_at_its_place(folder: Path) -> None:
    (_, path) = next(blank_forms("surveyed-townhouse.toml"))
    rows = path.read_text(encoding="utf-8").splitlines()
    wrong = list[int]()
    for number, (key, hint) in lines("\n".join(rows)).items():
        if re.match(r"such as (?!-?[\d.]+ \S+$)", hint) and "without quotes" not in hint:
            continue  # any text is right
        said = next(said for start, said in WRONG.items() if hint.startswith(start))
        rows[number - 1] = f"{key} = {said}"
        wrong.append(number)
    path.write_text("\n".join(rows), encoding="utf-8")
    with pytest.raises(Refused) as refused:
        Job.from_file(path)
    problems = refused.value.problems
    assert len(wrong) > 50
    assert [problem.line for problem in problems] == wrong
    assert {Path(problem.file).name for problem in problems} == {path.name}


@pytest.mark.parametrize("kind", [".survey.", ".sheet."])
def test_a_wrong_answer_is_refused_by_check_with_its_place(
    kind: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = next(path for _, path in blank_forms("surveyed-townhouse.toml") if kind in path.name)
    text = path.read_text(encoding="utf-8")
    number, (key, _) = next(
        (at, line) for at, line in lines(text).items() if line[1].startswith("true or false")
    )
    rows = text.splitlines()
    rows[number - 1] = f'{key} = "perhaps"'
    path.write_text("\n".join(rows), encoding="utf-8")
    capsys.readouterr()
    assert main(["check", str(path)]) == 2
    ran = capsys.readouterr()
    assert ran.out == ""
    assert f"{path.name}, line {number}" in " ".join(ran.err.split())
    assert "perhaps" in ran.err
