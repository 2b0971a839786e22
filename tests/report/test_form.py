"""Forms: blank sheets in TOML, whatever is asked."""

import tomllib
from pathlib import Path

import pytest

from rulebook.packs import RULE, load
from tundish import Job, Rulebook, assess
from tundish.job.hints import hint
from tundish.job.merge import without_blanks
from tundish.job.model.schema import Items
from tundish.job.schema import job_schema
from tundish.report.forms.form import FormLine, form
from tundish.report.forms.survey_form import survey_form
from tundish.report.tell.survey import survey_lines
from tundish.survey.survey import inquiries

QUESTION = FormLine("What is it?", "By looking.", None, ["at least 22 L/min"], ["It is enough"])


def text(*paths: str, names: dict[str, str] | None = None) -> str:
    asked = dict.fromkeys(paths, QUESTION)
    return form(["A form", ""], {"": {"of_job": 'a "b".toml'}}, asked, names or {})


def data(*paths: str, names: dict[str, str] | None = None) -> dict[str, object]:
    return tomllib.loads(text(*paths, names=names))


def test_a_line_for_each_question_in_its_table() -> None:
    found = data("readings.water.flow_temperature", "readings.day", "site.altitude")
    assert found == {
        "of_job": 'a "b".toml',
        "readings": {"day": "", "water": {"flow_temperature": ""}},
        "site": {"altitude": ""},
    }


def test_a_blank_form_says_nothing() -> None:
    assert without_blanks(data("readings.day", "site.altitude")) == {"of_job": 'a "b".toml'}


def test_items_are_told_by_name() -> None:
    names = {"electricity.circuit[2]": "heater", "electricity.circuit[1]": "unit"}
    found = data("electricity.circuit[2].loop_impedance", names=names)
    assert found["electricity"] == {"circuit": [{"name": "heater", "loop_impedance": ""}]}


def test_items_without_names_keep_their_positions() -> None:
    found = data("water.run[3].length")
    assert found["water"] == {"run": [{}, {}, {"length": ""}]}


def test_a_group_that_is_asked_for_hides_what_is_in_it() -> None:
    found = data("water.bypass", "water.bypass.pipe", "placement.hears", "placement.hears[1].side")
    assert found["water"] == {"bypass": ""}
    assert found["placement"] == {"hears": ""}


def test_the_measures_of_a_pipe_stand_in_one_text() -> None:
    found = data("water.bypass.pipe.wall", "water.bypass.pipe.outside_diameter")
    assert found["water"] == {"bypass": {"pipe": ""}}


@pytest.mark.parametrize(
    ("path", "line"),
    [
        ("hot_water.dead_leg_pipe.wall", 'dead_leg_pipe = ""  # a size such as "copper 15 x 0.7"'),
        ("water.run[1].pipe.outside_diameter", 'pipe = ""  # a size such as "copper 28 x 0.9"'),
        ("placement.clearance.open_above", 'top = ""  # such as 1 m'),
    ],
)
def test_what_is_written_in_place_of_a_fact_is_what_is_asked_for(path: str, line: str) -> None:
    fact = job_schema().find(path.replace("[1]", ""))
    written = form([], {}, {path: FormLine("Of the fact?", "Of it.", fact, ["at least 2"])}, {})
    assert line in written.splitlines()
    assert "Of the fact?" not in written
    assert "Held against: at least 2." in written


def test_what_waits_for_several_measures_of_a_pipe_is_told_at_the_pipe() -> None:
    asked = {
        f"water.bypass.pipe.{name}": FormLine("Which?", "", None, [], [f"the {name} suits"])
        for name in ("wall", "outside_diameter")
    }
    assert "Decides: the wall suits; the outside_diameter suits." in form([], {}, asked, {})


def test_words_with_commas_in_them_can_be_told_apart() -> None:
    said = hint(job_schema().find("water.volume_vessel.connection"))
    assert said == "one of in series, flow; in series, return; in parallel; hydraulic separator"


def test_a_question_says_all_there_is_to_it() -> None:
    told = text("readings.water.flow_temperature")
    for said in ("What is it?", "By looking.", "Held against: at least 22 L/min", "It is enough"):
        assert said in told


def test_a_question_that_decides_much_names_a_few_requirements() -> None:
    many = FormLine("Why?", "", None, [], [f"requirement {number}" for number in range(40)])
    assert "requirement 2; and 37 more." in form([], {}, {"site.altitude": many}, {})


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("readings.filter_cleaned", "true or false"),
        ("readings.day", "such as 2026-12-04, without quotes"),
        ("placement.units_on_plot", "a number such as 1"),
        ("placement.on", "one of ground, wall"),
        ("water.volume_vessel.connection", "one of in series, flow; in series, return; in p"),
        ("sound.measures", 'a list out of ["screen", '),
        ("site.altitude", "such as 85 m"),
        ("documents.handover", '"none", or a table'),
        ("placement.hears", "[] for none"),
        ("placement.condensate.pipe", 'a size such as "polypropylene 40 x 1.8"'),
    ],
)
def test_a_hint_says_how_an_answer_is_written(path: str, said: str) -> None:
    assert said in hint(job_schema().find(path))


def test_any_fact_outside_lists_can_be_asked_for() -> None:
    lists = [name for name, part in job_schema().fields.items() if isinstance(part, Items)]
    paths = [fact.path for fact in job_schema().facts()]
    found = data(*(path for path in paths if path.split(".")[0] not in [*lists, "of_job"]))
    assert len(found) > 10


def test_a_form_of_all_facts_in_lists_is_toml() -> None:
    tomllib.loads(text("placement.hears[2].also_hears[1].distance", "placement.hears[1].side"))


def test_rows_of_comments_are_not_too_long() -> None:
    long = FormLine("Why? " * 60, "", None, [], ["so " * 90])
    rows = form(["word " * 60], {}, {"site.altitude": long}, {}).splitlines()
    assert all(len(row) <= 98 for row in rows)


def test_a_form_hints_at_the_example_of_a_pack(book_with_facts: Rulebook) -> None:
    book = book_with_facts
    assessment = assess(Job.from_data({}), book)
    asked = inquiries(assessment, book, later=True)
    written = survey_form(assessment, asked, "job.toml", {}, book)
    assert 'crane_reach = ""  # such as 30 m' in written
    assert 'colour = ""  # one of white, grey' in written


def test_a_survey_tells_how_to_answer_for_a_pack(book_with_facts: Rulebook) -> None:
    book = book_with_facts
    assessment = assess(Job.from_data({}), book)
    lines = survey_lines(assessment, inquiries(assessment, book, later=True), book)
    answers = {line.text for line in lines if line.label == "answer in"}
    assert any(text.startswith("a quantity in m with its unit, such as 30 m") for text in answers)
    assert "one of white, grey" in answers


def test_a_survey_asks_for_a_list_where_several_words_may_be_written() -> None:
    book = Rulebook.built_in()
    assessment = assess(Job.from_data({}), book)
    lines = survey_lines(assessment, inquiries(assessment, book, later=True), book)
    answers = [line.text for line in lines if line.label == "answer in"]
    assert any(each.startswith("a list out of trolley, stair climber") for each in answers)
    assert not any(each.startswith("one of trolley") for each in answers)


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
def test_a_hint_says_how_each_kind_is_written(path: str, said: str) -> None:
    assert said in hint(job_schema().find(path))
