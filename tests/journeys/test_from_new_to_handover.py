"""From the first file of a job to the filled sheet of its commissioning, at every stage."""

import subprocess
from itertools import product
from pathlib import Path

import pytest

from journeys.filling import blanks, filled_in, marks_off, with_none
from journeys.walking import JUDGED, Walk
from tundish.rulebook.model.choices import STAGES

NOWHERE = ""
"""No region is given, so none is known."""

# Each stage at each place: what one of them prints, another may not. A process for every step of
# all of them takes minutes, so the wheel is walked twice, and the others in this process.
PLACES = ("GB", "DE", "FR", NOWHERE)
BY_THE_WHEEL = [("survey", "DE"), ("commissioning", NOWHERE)]
IN_THIS_PROCESS = sorted(set(product(STAGES, PLACES)) - set(BY_THE_WHEEL))


def begun(walk: Walk, stage: str, region: str, more: str = "") -> str:
    """Begin a job and check it as printed; return the name of its file."""
    option = f" --region {region}" if region else ""
    new = walk(f"tundish new job.toml --stage {stage}{option}{more}")
    walk.check(new.next)
    return new.written[0]


def surveyed(walk: Walk, job: str) -> tuple[str, set[str]]:
    """Survey a job by a form that is filled in; return its name and the paths that it asked."""
    survey = walk(f"tundish survey {job} --form visit.toml")
    form = survey.written[0]
    asked = set(blanks(walk.read(form)))
    walk.save(form, filled_in(walk.read(form)))
    walk.check(survey.next)
    return form, asked


def handed_over(walk: Walk, job: str) -> None:
    """Survey and order a job, fill in its sheet, and judge them as one."""
    form, asked = surveyed(walk, job)
    joined = walk(f"tundish join {form} --to after-visit.toml").written[0]
    again = walk(f"tundish survey {joined} --form again.toml").written
    assert not asked & {path for name in again for path in blanks(walk.read(name))}
    assert walk(f"tundish order {joined}", ends=JUDGED).out.startswith("Order list: job")
    sheet = walk(f"tundish sheet {joined} --to sheet.toml")
    walk.save(sheet.written[0], filled_in(walk.read(sheet.written[0])))
    walk.check(sheet.next)
    done = walk(f"tundish join {sheet.written[0]} --to handed-over.toml").written[0]
    assert "stage: commissioning" in walk.check(f"tundish check {done}").out


def test_the_program_that_is_walked_comes_from_the_wheel(
    installed: Path, home: dict[str, str], folder: Path, walk: Walk
) -> None:
    code = "import tundish; print(tundish.__file__)"
    python = str(installed / "bin" / "python")
    done = subprocess.run(
        [python, "-c", code], cwd=folder, env=home, capture_output=True, text=True
    )
    assert Path(done.stdout.strip()).is_relative_to(installed), done
    assert f"{installed}" in walk("tundish samples").out


@pytest.mark.parametrize(("stage", "region"), BY_THE_WHEEL)
def test_a_job_is_walked_from_new_to_handover(walk: Walk, stage: str, region: str) -> None:
    handed_over(walk, begun(walk, stage, region))


@pytest.mark.parametrize(("stage", "region"), IN_THIS_PROCESS)
def test_so_it_is_at_every_stage_and_place(quick_walk: Walk, stage: str, region: str) -> None:
    handed_over(quick_walk, begun(quick_walk, stage, region))


@pytest.mark.parametrize(("stage", "region"), [("survey", "GB"), ("commissioning", NOWHERE)])
def test_a_form_says_rightly_how_to_write_that_there_is_none(
    quick_walk: Walk, stage: str, region: str
) -> None:
    job = begun(quick_walk, stage, region)
    survey = quick_walk(f"tundish survey {job} --form visit.toml")
    form, absent = with_none(quick_walk.read(survey.written[0]))
    assert absent > 5
    quick_walk.save(survey.written[0], form)
    quick_walk.check(survey.next)


def test_a_form_and_a_sheet_left_empty_are_judged(quick_walk: Walk) -> None:
    job = begun(quick_walk, "installation", "GB")
    quick_walk.check(quick_walk(f"tundish survey {job} --form visit.toml").next)
    quick_walk.check(quick_walk(f"tundish sheet {job} --to sheet.toml").next)


def taken_up(walk: Walk, job: str) -> None:
    """Take the marks off a starter and its unit sheet, and judge them."""
    for name in (job, "unit.toml"):
        walk.save(name, marks_off(walk.read(name)))
    walk.check(f"tundish check {job}")


def test_a_starter_of_all_facts_is_judged_with_its_marks_on_and_off(walk: Walk) -> None:
    taken_up(walk, begun(walk, "commissioning", "GB", " --all"))


@pytest.mark.parametrize(("stage", "region"), [("enquiry", NOWHERE), ("design", "GB")])
def test_a_starter_is_judged_with_its_marks_off(quick_walk: Walk, stage: str, region: str) -> None:
    taken_up(quick_walk, begun(quick_walk, stage, region))
