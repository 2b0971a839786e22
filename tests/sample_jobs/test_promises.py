"""The sample jobs keep what their head comments and the README promise of them."""

import pytest

from tundish import Assessment, Job, Rulebook, Verdict, assess
from tundish.text.bundled_folders import bundled_folder

FAULTS_OF_THE_BUNGALOW = {
    "coastal-corrosion/treated-coil",
    "coastal-corrosion/stainless-fixings",
    "defrost-water/free-volume",
    "supply-circuits/backup-heater-circuit",
}


def assessment_of(name: str) -> Assessment:
    """Judge one sample job with the rules that travel with the program."""
    path = bundled_folder("sample_jobs") / f"{name}.toml"
    unsound = (Verdict.BREACHED, Verdict.UNDECIDED)
    return assess(Job.from_file(path), Rulebook.built_in(), verdicts=unsound)


def breached(assessment: Assessment) -> list[str]:
    """Return the names of the rules that are breached, one for each finding."""
    return [finding.rule for finding in assessment.of(Verdict.BREACHED)]


def still_due(assessment: Assessment) -> list[str]:
    """Return the names of the rules that should be decided at the job's stage and are not."""
    return [finding.rule for finding in assessment.of(Verdict.UNDECIDED) if finding.due]


@pytest.mark.parametrize("name", ["sheltered-terrace", "three-phase-barn"])
def test_a_sound_job_breaches_nothing(name: str) -> None:
    assert breached(assessment_of(name)) == []


@pytest.mark.parametrize("name", ["sheltered-terrace", "shore-bungalow", "hill-farmhouse"])
def test_a_design_leaves_open_only_what_belongs_to_a_later_stage(name: str) -> None:
    assessment = assessment_of(name)
    assert still_due(assessment) == []
    assert assessment.of(Verdict.UNDECIDED), "a design that leaves nothing open proves nothing here"


def test_the_barn_is_decided_in_every_point() -> None:
    undecided = [
        finding.rule for finding in assessment_of("three-phase-barn").of(Verdict.UNDECIDED)
    ]
    assert undecided == []


def test_the_bungalow_has_its_four_faults_and_no_other_breach() -> None:
    assessment = assessment_of("shore-bungalow")
    names = breached(assessment)
    assert len(names) == 4
    assert set(names) == FAULTS_OF_THE_BUNGALOW
    assert {finding.severity for finding in assessment.of(Verdict.BREACHED)} == {"fault"}


def test_the_townhouse_breaches_only_what_its_head_comment_says() -> None:
    assessment = assessment_of("surveyed-townhouse")
    assert breached(assessment) == ["clearances/below", "clearances/sides"]
    assert still_due(assessment), "a survey that leaves nothing to find out proves nothing here"


def test_the_farmhouse_has_a_dozen_breaches_around_its_frost_conflict() -> None:
    names = breached(assessment_of("hill-farmhouse"))
    assert "frost-protection/valves-not-with-glycol" in names
    assert len(names) <= 14
