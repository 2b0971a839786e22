"""Answers are read by the kind of the fact, and what is wrong is told with what would be right."""

import datetime

import pytest

from tundish.interview.answer import Answer, Misread, chosen, read_answer
from tundish.interview.question import Question, form_of
from tundish.job.schema import job_schema
from tundish.rulebook.model.declared_facts import kind_of
from tundish.rulebook.rulebook import Rulebook


def question(path: str, *limits: str) -> Question:
    asked = job_schema().find(path)
    kind = kind_of(path, Rulebook.built_in().declared)
    return Question(form_of(asked, kind), path, asked, kind=kind, limits=limits)


def read(path: str, text: str) -> object:
    answer = read_answer(text, question(path))
    assert isinstance(answer, Answer), answer
    return answer.value


def misread(path: str, text: str, *limits: str) -> Misread:
    answer = read_answer(text, question(path, *limits))
    assert isinstance(answer, Misread), answer
    return answer


@pytest.mark.parametrize(
    ("path", "text", "value"),
    [
        ("site.snow_depth", "25 cm", "25 cm"),
        ("site.snow_depth", "2,5 cm", "2.5 cm"),
        ("site.design_air_temperature", "-3 °C", "-3 °C"),
        ("site.drifting", "y", True),
        ("site.drifting", "No", False),
        ("site.drifting", "TRUE", True),
        ("electricity.phases", "3", 3),
        ("readings.water.ph", "7,5", 7.5),
        ("job.date", "2026-11-30", datetime.date(2026, 11, 30)),
        ("job.date", "30.11.2026", datetime.date(2026, 11, 30)),
        ("job.date", "1.2.2026", datetime.date(2026, 2, 1)),
        ("placement.on", "wall", "wall"),
        ("placement.on", "2", "wall"),
        ("placement.on", "Flat", "flat roof"),
        ("placement.on", "fl", "flat roof"),
        ("placement.fixings", "none", "none"),
        ("electricity.surge_protection.type", "1+2", "1+2"),
        ("electricity.circuit.cable.method", "100", "100"),
        ("site.pollution", "none", []),
        ("site.pollution", "ind, 2", ["industry", "road salt"]),
        ("water.run.pipe", "copper 28 x 0.9", "copper 28 x 0.9"),
        ("water.run.name", "flow to hall", "flow to hall"),
        ("water.filter", "none", "none"),
        ("water.filter", "n", "none"),
        ("water.filter", "y", {}),
        ("water.run", "none", []),
        ("water.run", "[]", []),
        ("water.run", "flow", {"name": "flow"}),
        ("unit.rating", "yes", {}),
    ],
)
def test_an_answer_is_what_stands_in_the_file(path: str, text: str, value: object) -> None:
    assert read(path, text) == value
    assert type(read(path, text)) is type(value)


@pytest.mark.parametrize(
    ("path", "text", "says"),
    [
        ("site.snow_depth", "250 mmm", "Did you mean 'mm'?"),
        ("site.snow_depth", "250 kg", "not a length but of the kind mass"),
        ("site.snow_depth", "-1 mm", "the least possible is 0 mm"),
        ("site.snow_depth", "deep", "'deep' is not a length; write one such as '150 mm'."),
        ("site.snow_depth", "1,000 mm", "can be read two ways"),
        (
            "site.snow_depth",
            "none",
            "'none' is no answer here; press Enter alone while it is not known.",
        ),
        ("site.drifting", "perhaps", "answer y or n"),
        ("electricity.phases", "2", "write 1 or 3"),
        ("electricity.phases", "3 kW", "no whole number"),
        ("electricity.phases", "9" * 1_500, "cannot be"),
        ("readings.water.ph", "15", "not above 14"),
        ("readings.water.ph", "neutral", "no plain number"),
        ("job.date", "31.2.2026", "no day of the calendar"),
        ("job.date", "30/11/2026", "Write a date such as 2026-11-02"),
        ("placement.on", "9", "a number from 1 to 6"),
        ("placement.base.kind", "concrete", "'concrete slab' or 'concrete strips'"),
        ("site.pollution", "industry, industry", "twice"),
        ("water.run.pipe", "28", "is no pipe size"),
        ("water.run.name", "a\x1b[2J", "control characters"),
        ("water.run.name", "\udcff", "control characters"),
        ("water.run.name", "x" * 2_001, "the most is 2000"),
        ("water.filter", "40 L", "yes or none"),
        ("water.run", "3", "Give the run a name"),
        ("water.run", "no", "Write none if there are none, or the name of the first."),
        ("water.run", "N", "Write none if there are none, or the name of the first."),
        ("unit.rating", "no", "Write none if there are none, or yes for the first."),
        ("unit.rating", "one", "yes for one rating more, or none"),
    ],
)
def test_what_is_wrong_is_told_in_a_sentence(path: str, text: str, says: str) -> None:
    sentence = misread(path, text).sentence
    assert says in sentence
    assert sentence.endswith((".", "?"))


def test_a_bare_number_is_offered_with_the_unit_of_its_limit() -> None:
    assert misread("site.distance_to_coast", "3").offer == "3 mm"
    assert misread("site.distance_to_coast", "3", "more than 5 km").offer == "3 km"
    assert misread("site.distance_to_coast", "3", "not inland", "at least 5 kg").offer == "3 mm"


def test_a_bare_number_that_cannot_be_is_not_offered() -> None:
    assert misread("site.snow_depth", "-3").offer == ""


def test_the_nearest_choice_is_offered() -> None:
    assert misread("placement.on", "grund").offer == "ground"
    assert misread("site.pollution", "industri, road salt").offer == "industry, road salt"
    assert misread("site.pollution", "industri, qqq").offer == ""


def test_none_in_quotes_is_the_text_itself() -> None:
    assert read_answer("none", question("water.run.name"), literal=True) == Answer("none")
    assert "in quotes" in misread("water.run.name", "none").sentence
    assert read_answer("none", question("water.run"), literal=True) == Answer({"name": "none"})


@pytest.mark.parametrize("text", ["", "0", "4", "²", "१"])
def test_a_number_past_the_choices_is_none(text: str) -> None:
    assert not chosen(text or "0", ["ground", "wall", "roof"]).word


def test_a_choice_in_other_case_is_that_choice() -> None:
    assert chosen("a", ["A", "A1"]).word == "A"
    assert chosen("PE-rt", ["PEX", "PE-RT"]).word == "PE-RT"
