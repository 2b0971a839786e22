"""Starters, forms and surveys show what would usually be written."""

import re
import tomllib
from pathlib import Path

import pytest

from rulebook.packs import RULE, load
from rulebook.test_declared_facts import FACTS, FILES
from tundish import Job, assess
from tundish.assessment.survey import inquiries
from tundish.job.facts import flatten
from tundish.job.schema import job_schema
from tundish.report.commissioning_sheet import questions_by_path
from tundish.report.form import hint
from tundish.report.starter import starter_job, starter_sheet
from tundish.report.survey_form import survey_form
from tundish.report.survey_lines import survey_lines
from tundish.rulebook.rulebook import Rulebook

ALL = [fact.path for fact in job_schema().facts()]
HEADING = {"title": "A house", "region": "GB", "stage": "design"}


def taken(text: str) -> str:
    """Return a starter with the marks of its facts and tables taken off."""
    return re.sub(r"^# (\[+[a-z]|[a-z0-9_]+ = )", r"\1", text, flags=re.MULTILINE)


@pytest.fixture(scope="module")
def whole() -> Job:
    return Job.from_toml(taken(starter_job(HEADING, "unit.toml", ALL)).replace("unit_sheet", "# "))


def test_a_starter_of_all_facts_is_read_as_it_stands(whole: Job) -> None:
    values = flatten(whole).values
    assert values["site.muggy_air_temperature"] == pytest.approx(273.15 + 24)
    assert values["site.distance_to_coast"] == pytest.approx(12000)
    assert values["hot_water.dead_leg_pipe.size"] == "15 x 0.7"


def test_the_built_in_rules_judge_it_without_a_word_of_complaint(whole: Job) -> None:
    assert len(assess(whole).findings) > 300


def test_a_starter_sheet_of_all_facts_is_read_as_it_stands() -> None:
    data = tomllib.loads(taken(starter_sheet(ALL)))
    values = flatten(Job.read(data)).values
    assert values["unit.refrigerant.charge"] == pytest.approx(1.3)
    assert values["unit.refrigerant.name"] == "R290"


def test_a_pipe_is_one_text_in_a_starter() -> None:
    text = starter_job(HEADING, "unit.toml", ["water.bypass.pipe.wall"])
    assert '# pipe = "copper 22 x 0.9"' in text
    assert "bypass.pipe]" not in text


WITH_EXAMPLE = FILES | {
    "facts.toml": FACTS.replace('how      = "From', 'example  = "30 m"\nhow      = "From')
}


@pytest.fixture
def rulebook(tmp_path: Path) -> Rulebook:
    return load(tmp_path, WITH_EXAMPLE)


def test_a_starter_asks_for_the_facts_of_packs(rulebook: Rulebook) -> None:
    declared = [one.fact for one in rulebook.declared.values()]
    text = starter_job(HEADING, "unit.toml", ["more.crane_reach"], declared)
    assert tomllib.loads(text)["more"] == {}
    assert tomllib.loads(taken(text))["more"] == {"crane_reach": "30 m"}


def test_a_form_hints_at_the_example_of_a_pack(rulebook: Rulebook) -> None:
    assessment = assess(Job.from_data({}), rulebook)
    found = inquiries(assessment, rulebook, later=True)
    text = survey_form(assessment, found, "job.toml", {}, rulebook)
    assert 'crane_reach = ""  # such as 30 m' in text
    assert 'colour = ""  # one of white, grey' in text
    facts = questions_by_path(assessment.findings, rulebook)
    assert facts["site.snow_depth"].fact is None


def test_a_survey_tells_how_to_answer_for_a_pack(rulebook: Rulebook) -> None:
    assessment = assess(Job.from_data({}), rulebook)
    lines = survey_lines(assessment, inquiries(assessment, rulebook, later=True), rulebook)
    told = {line.text for line in lines if line.label == "answer in"}
    assert "any unit of length, such as 30 m" in told
    assert "one of white, grey" in told
    assert "any unit of length, such as 250 mm" in told


def test_a_hint_stays_in_its_row(tmp_path: Path) -> None:
    facts = "[note]\nkind = 'text'\nquestion = 'Which?'\nexample = \"two\\nrows\"\n"
    book = load(tmp_path, {"snow/base.toml": RULE, "facts.toml": facts})
    assert hint(book.declared["note"].fact) == "such as two rows"


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("water.flow", "a table { … } in place of the quotes, with any of heating, defrost"),
        ("water.run.feeds", 'a list such as ["living room", "hall"]; [] for none'),
        ("water.emitter.loops.pipe", 'a size such as "PE-RT 16 x 2"'),
        ("placement.condensate.to", "one of soakaway, drain"),
        ("job.title", "such as House in an invented lane"),
    ],
)
def test_a_hint_says_how_each_is_written(path: str, said: str) -> None:
    assert said in hint(job_schema().find(path))
