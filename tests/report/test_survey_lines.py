"""A survey tells of every kind of question how it is answered."""

import pytest

from tundish import Job, Rulebook, assess
from tundish.report.page.plain_text import as_plain
from tundish.report.tell.survey import survey_lines
from tundish.survey.survey import inquiries

BOOK = Rulebook.built_in()


@pytest.fixture(name="page", scope="module")
def page_on_a_job_with_a_crane() -> str:
    assessment = assess(Job.from_data({"handling.gear": ["crane"]}), BOOK)
    found = inquiries(assessment, BOOK, later=True)
    return " ".join(as_plain(survey_lines(assessment, found, BOOK)).split())


@pytest.mark.parametrize(
    ("question", "answer"),
    [
        ("How is the water treated?", "a list out of inhibitor, biocide, "),
        ("What snow depth is expected at the unit?", "a length with its unit, such as 250 mm"),
        (
            "What kind of slings or straps",
            "one of rated and inspected; packing straps, used once; ",
        ),
        ("Must anyone work above the ground?", "yes or no, written true or false"),
    ],
)
def test_an_answer_is_told_by_its_kind(page: str, question: str, answer: str) -> None:
    told = page.partition(question)[2].partition(" write in ")[0]
    assert f"answer in {answer}" in told


def test_of_a_list_of_words_it_is_told_how_to_write_one_and_none(page: str) -> None:
    told = page.partition("How is the water treated?")[2].partition(" write in ")[0]
    assert 'such as ["inhibitor"' in told
    assert told.endswith("[] for none")
