"""A whole assessment: its order, its heading, and that equal input gives equal output."""

from __future__ import annotations

import dataclasses
import datetime
import hashlib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import FACTS, book, finding, rule
from rulebook.packs import QUANTITY, load
from tundish import Assessment, Job, Rulebook, Verdict, assess
from tundish.findings.assess import digest_of, program_version
from tundish.findings.finding import SEVERITIES, STAGES
from tundish.job.facts import flatten

BREACH, OPEN, MET, OFF = (
    "site.snow_depth > 1 m",
    "site.altitude > 1 m",
    "site.snow_depth < 1 m",
    "true",
)


def many(folder: Path) -> Rulebook:
    files = {"snow/quantities.toml": QUANTITY}
    for severity in SEVERITIES:
        for stage in ("survey", "commissioning"):
            for name, requires in (("a", BREACH), ("b", OPEN), ("c", MET)):
                keys = {"severity": f'"{severity}"', "stage": f'"{stage}"'}
                files[f"{name}-{severity}/{stage}.toml"] = rule(requires, **keys)
    files["z/off.toml"] = rule(OFF, applies='"false"', severity='"danger"')
    return load(folder, files)


def test_findings_come_worst_first(tmp_path: Path) -> None:
    assessment = assess(Job.from_data({**FACTS, "job.stage": "design"}), many(tmp_path))
    order = [(each.verdict, each.severity) for each in assessment.findings]
    by_severity = [severity for severity in SEVERITIES for _ in range(2)]
    assert order[:8] == [(Verdict.BREACHED, severity) for severity in by_severity]
    # What is open and due comes before what can wait.
    undecided = assessment.findings[8:16]
    assert [(each.due, each.severity) for each in undecided] == [
        *((True, severity) for severity in SEVERITIES),
        *((False, severity) for severity in SEVERITIES),
    ]
    assert order[16:24] == [(Verdict.MET, severity) for severity in by_severity]
    assert order[24:] == [(Verdict.NOT_APPLICABLE, "danger")]


def test_the_worst_breach_is_the_most_serious_whether_due_or_not(tmp_path: Path) -> None:
    files = {
        "a/fault.toml": rule(BREACH, severity='"fault"', stage='"survey"'),
        "b/danger.toml": rule(BREACH, severity='"danger"', stage='"commissioning"'),
    }
    assessment = assess(Job.from_data({**FACTS, "job.stage": "design"}), load(tmp_path, files))
    assert assessment.worst() == "danger"
    assert assessment.findings[0].rule == "b/danger"


def test_nothing_is_worst_where_nothing_is_breached(tmp_path: Path) -> None:
    assessment = assess(Job.from_data(FACTS), book(tmp_path, MET))
    assert assessment.worst() is None
    assert len(assessment.of(Verdict.MET)) == 1 and not assessment.of(Verdict.BREACHED)


def test_findings_alike_stay_in_the_order_of_rules_and_items(tmp_path: Path) -> None:
    files = {
        f"{name}/r.toml": rule("run.length > 50 m", each='"water.run as run"') for name in "cab"
    }
    assessment = assess(Job.from_data(FACTS), load(tmp_path, files))
    assert [(each.rule, each.item) for each in assessment.findings] == [
        (f"{name}/r", item) for name in "abc" for item in ("flow", "run 2")
    ]


# -- stage and region -----------------------------------------------------------------------


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("asked", STAGES)
def test_a_rule_is_due_from_its_stage_on(tmp_path: Path, stage: str, asked: Any) -> None:
    rulebook = book(tmp_path, MET, stage=f'"{stage}"')
    (found,) = assess(Job.from_data(FACTS), rulebook, stage=asked).findings
    assert found.due == (STAGES.index(asked) >= STAGES.index(found.stage))
    assert found.stage == stage


def test_everything_is_due_where_no_stage_is_said(tmp_path: Path) -> None:
    assert finding(tmp_path, MET, stage='"commissioning"').due


def test_the_stage_asked_for_stands_in_place_of_the_jobs(tmp_path: Path) -> None:
    rulebook = book(tmp_path, "job.stage == 'order'")
    job = Job.from_data({"job.stage": "survey"})
    assert assess(job, rulebook).findings[0].verdict is Verdict.BREACHED
    asked = assess(job, rulebook, stage="order")
    assert asked.findings[0].verdict is Verdict.MET and asked.stage == "order"
    assert job.stage == "survey"


def test_a_stage_that_is_none_is_refused_with_the_ones_there_are(tmp_path: Path) -> None:
    stage: Any = "later"
    with pytest.raises(ValueError, match="no stage 'later'; there are enquiry, survey"):
        assess(Job.from_data({}), book(tmp_path, MET), stage=stage)


def test_the_region_asked_for_stands_in_place_of_the_jobs(tmp_path: Path) -> None:
    rulebook = book(tmp_path, MET, regions='["GB"]')
    job = Job.from_data({**FACTS, "job.region": "FR"})
    assert assess(job, rulebook).findings[0].verdict is Verdict.NOT_APPLICABLE
    asked = assess(job, rulebook, region="GB")
    assert asked.findings[0].verdict is Verdict.MET and asked.region == "GB"


# -- heading --------------------------------------------------------------------------------


def test_an_assessment_says_what_it_was_made_from(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(
        '[job]\ntitle = "Cottage"\nregion = "GB"\nstage = "survey"\ndate = 2026-11-02\n'
    )
    rulebook = book(tmp_path / "rules", MET)
    assessment = assess(Job.from_file(path), rulebook)
    assert (assessment.job, assessment.file) == ("Cottage", str(path))
    assert (assessment.stage, assessment.region) == ("survey", "GB")
    assert assessment.date == datetime.date(2026, 11, 2)
    assert assessment.rulebook_digest == rulebook.digest
    assert assessment.version == program_version()
    told = " ".join(assessment.cautions).lower()
    for word in ("competent", "codes", "electric", "pressure", "refrigerant", "water", "lift"):
        assert word in told


def test_an_empty_job_is_assessed_too() -> None:
    assessment = assess(Job.from_data({}))
    assert (assessment.job, assessment.file, assessment.stage, assessment.region) == ("",) * 4
    assert not assessment.of(Verdict.BREACHED)
    for each in assessment.of(Verdict.UNDECIDED):
        assert each.open, each


def test_the_digest_is_of_facts_not_of_how_they_are_written() -> None:
    one = flatten(Job.from_data({"site.snow_depth": "120 mm", "site.altitude": "40 m"}))
    other = flatten(Job.from_data({"site.altitude": "4000 cm", "site.snow_depth": "12 cm"}))
    more = flatten(Job.from_data({"site.snow_depth": "121 mm", "site.altitude": "40 m"}))
    assert digest_of(one) == digest_of(other) != digest_of(more)
    assert len(digest_of(one)) == hashlib.sha256().digest_size * 2


def test_a_version_is_unknown_where_nothing_is_installed(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "tundish-\x1b[31m.dist-info").mkdir()  # no version, whoever made it
    monkeypatch.setattr("sys.path", [str(tmp_path)])
    assert program_version.__wrapped__() == "unknown"
    (tmp_path / "tundish-9.8.7rc1.dist-info").mkdir()
    assert program_version.__wrapped__() == "9.8.7rc1"


# -- equal input, equal output --------------------------------------------------------------

SAMPLES = sorted((Path(__file__).parents[2] / "sample_jobs").glob("*.toml"))


def jobs() -> list[Job]:
    return [Job.from_data({}), Job.from_data(FACTS), *(Job.from_file(path) for path in SAMPLES)]


def test_equal_input_gives_equal_output() -> None:
    for one, other in zip(jobs(), jobs(), strict=True):
        assert assess(one) == assess(other)


def test_a_rulebook_read_twice_gives_equal_output(tmp_path: Path) -> None:
    job = Job.from_data({**FACTS, "job.stage": "design"})
    assert assess(job, many(tmp_path / "a")) == assess(job, many(tmp_path / "b"))


def test_threads_give_the_same_as_one_by_one() -> None:
    rulebook, waiting = Rulebook.built_in(), jobs() * 2
    one_by_one = [assess(job, rulebook) for job in waiting]
    with ThreadPoolExecutor(max_workers=4) as pool:
        at_once: list[Assessment] = list(pool.map(lambda job: assess(job, rulebook), waiting))
    assert at_once == one_by_one


def test_assessing_changes_neither_job_nor_rulebook(tmp_path: Path) -> None:
    job, rulebook = Job.from_data(FACTS), many(tmp_path)
    before = (job.as_data(), repr(rulebook.rules))
    assess(job, rulebook, stage="order", region="GB")
    assert (job.as_data(), repr(rulebook.rules)) == before


def test_findings_and_assessments_are_frozen(tmp_path: Path) -> None:
    assessment = assess(Job.from_data(FACTS), book(tmp_path, BREACH))
    (found,) = assessment.findings
    assert found.margin is not None
    for value, name in (
        (assessment, "job"),
        (found, "verdict"),
        (found.inputs[0], "value"),
        (found.margin, "amount"),
    ):
        with pytest.raises(dataclasses.FrozenInstanceError):
            setattr(value, name, "other")
    assert hash(found) == hash(assess(Job.from_data(FACTS), book(tmp_path, BREACH)).findings[0])
