"""Words for counts, lists and sentences."""

import datetime

import pytest

from tundish.report.tell.phrases import as_sentence, counted, day, from_stage, in_words, listed


@pytest.mark.parametrize(
    ("number", "said"),
    [(0, "none"), (1, "one"), (12, "twelve"), (13, "13"), (250, "250")],
)
def test_small_numbers_are_words(number: int, said: str) -> None:
    assert in_words(number) == said


def test_one_thing_is_singular_and_others_are_not() -> None:
    assert counted(1, "quantity", "quantities") == "one quantity"
    assert counted(2, "quantity", "quantities") == "two quantities"


@pytest.mark.parametrize(
    ("parts", "text"),
    [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")],
)
def test_the_last_of_a_list_follows_and(parts: list[str], text: str) -> None:
    assert listed(parts) == text


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("free water volume 3 L", "Free water volume 3 L"),
        ("pH 7.2 is low", "pH 7.2 is low"),
        ("x 3", "x 3"),
        ("16 L is less", "16 L is less"),
        ("", ""),
    ],
)
def test_a_sentence_begins_with_a_capital_unless_that_spoils_a_symbol(
    text: str, sentence: str
) -> None:
    assert as_sentence(text) == sentence


def test_a_date_is_written_in_english_wherever_the_program_runs() -> None:
    assert day(datetime.date(2026, 3, 1)) == "1 March 2026"
    assert day(datetime.date(2026, 12, 31)) == "31 December 2026"


def test_the_first_stage_is_said_in_its_own_words() -> None:
    assert from_stage("enquiry") != from_stage("order").replace("order", "enquiry")
    assert "order" in from_stage("order")
