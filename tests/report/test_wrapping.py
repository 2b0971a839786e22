"""Breaking text into lines."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tundish.report.page.wrapping import wrap

WORDS = st.text(st.characters(categories=("L", "N", "P", "S"), max_codepoint=0x2FFF), max_size=60)


@given(WORDS, st.integers(3, 60), st.integers(-1, 10))
def test_no_line_is_wider_than_it_may_be(text: str, width: int, more: int) -> None:
    first, *others = wrap(text, width, more)
    assert cell_len(first) <= width + more
    assert all(cell_len(line) <= width for line in others)


@given(WORDS, st.integers(2, 60))
def test_no_character_is_lost(text: str, width: int) -> None:
    assert "".join(wrap(text, width)).replace(" ", "") == "".join(text.split())


@pytest.mark.parametrize(
    "text", ["short by 3.8 L", "it is -3.5 degC, so", "a loss of 18 kPa.", "at (22 L/min)"]
)
def test_a_number_stays_with_its_unit(text: str) -> None:
    for width in range(10, 30):
        for line in wrap(text, width):
            assert not line[-1].isdigit()


def test_a_number_and_a_word_that_is_no_unit_may_part() -> None:
    assert wrap("all 12 emitters", 6) == ["all 12", "emitte", "rs"]


def test_a_long_path_breaks_at_a_joint() -> None:
    assert wrap("water.run[2].insulation.thickness", 16) == [
        "water.run[2].",
        "insulation.",
        "thickness",
    ]


def test_wide_letters_count_as_two_columns() -> None:
    assert wrap("\u4e2d\u6587\u4e2d", 4) == ["\u4e2d\u6587", "\u4e2d"]


def test_an_empty_text_is_one_empty_line() -> None:
    assert wrap("", 10) == [""]
