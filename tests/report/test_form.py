"""Forms: blank sheets in TOML, whatever is asked."""

import tomllib

import pytest

from tundish.job.overlay import without_blanks
from tundish.job.schema import Items, job_schema
from tundish.report.form import Asked, form

QUESTION = Asked("What is it?", "By looking.", ["at least 22 L/min"], ["It is enough"])


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


def test_a_question_says_all_there_is_to_it() -> None:
    told = text("readings.water.flow_temperature")
    for said in ("What is it?", "By looking.", "Held against: at least 22 L/min", "It is enough"):
        assert said in told


@pytest.mark.parametrize(
    ("path", "hint"),
    [
        ("readings.filter_cleaned", "true or false"),
        ("readings.day", "such as 2026-12-04, without quotes"),
        ("placement.units_on_plot", "a number such as 1"),
        ("placement.on", "one of ground, wall"),
        ("sound.measures", 'a list out of ["screen", '),
        ("site.altitude", "such as 85 m"),
        ("documents.handover", '"none", or a table'),
        ("placement.hears", "[] for none"),
        ("placement.condensate.pipe", 'a size such as "polypropylene 40 x 1.8"'),
    ],
)
def test_a_hint_says_how_an_answer_is_written(path: str, hint: str) -> None:
    (line,) = [row for row in text(path).splitlines() if ' = ""  # ' in row]
    assert hint in line


def test_any_fact_outside_lists_can_be_asked_for() -> None:
    lists = [name for name, part in job_schema().fields.items() if isinstance(part, Items)]
    paths = [fact.path for fact in job_schema().facts()]
    found = data(*(path for path in paths if path.split(".")[0] not in [*lists, "of_job"]))
    assert len(found) > 10


def test_a_form_of_all_facts_in_lists_is_toml() -> None:
    tomllib.loads(text("placement.hears[2].also_hears[1].distance", "placement.hears[1].side"))


def test_rows_of_comments_are_not_too_long() -> None:
    long = Asked("Why? " * 60, "", [], ["so " * 90])
    rows = form(["word " * 60], {}, {"site.altitude": long}, {}).splitlines()
    assert all(len(row) <= 98 for row in rows)
