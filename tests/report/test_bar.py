"""Bars: a value drawn against its limit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.findings.finding import Margin
from tundish.report.page.bar import NARROWEST, bar


def drawn(value: str, limit: str, width: int = 11) -> str:
    """Return a bar as text, or an empty text where there is none."""
    found = bar(Margin("", 0.1, value, limit), width)
    return found.drawn("=", ".", "|") if found else ""


@pytest.mark.parametrize(
    ("value", "limit", "text"),
    [
        ("0 L", "20 L", "..........|"),
        ("10 L", "20 L", "=====.....|"),
        ("20 L", "20 L", "==========|"),
        ("40 L", "20 L", "=====|====="),
        ("150 mm", "0.3 m", "=====.....|"),
        ("3", "6", "=====.....|"),
    ],
)
def test_a_bar_shows_the_value_against_the_limit(value: str, limit: str, text: str) -> None:
    assert drawn(value, limit) == text


@pytest.mark.parametrize(
    ("value", "limit"),
    [("19.999 L", "20 L"), ("20.001 L", "20 L")],
)
def test_a_hair_beside_the_limit_does_not_look_like_the_limit(value: str, limit: str) -> None:
    assert drawn(value, limit) != drawn("20 L", "20 L")


@pytest.mark.parametrize(
    ("value", "limit"),
    [
        ("-3 K", "5 K"),
        ("5 K", "0 K"),
        ("5 K", "5 L"),
        ("5", "5 L"),
        ("not known", "5 L"),
        ("", "5 L"),
    ],
)
def test_there_is_no_bar_where_lengths_mean_nothing(value: str, limit: str) -> None:
    assert drawn(value, limit) == ""


def test_there_is_no_bar_on_a_scale_of_points() -> None:
    assert bar(Margin("2 K", None, "8 degC", "10 degC"), 30) is None


def test_there_is_no_bar_without_room() -> None:
    assert drawn("1 L", "2 L", NARROWEST)
    assert not drawn("1 L", "2 L", NARROWEST - 1)


@given(
    st.floats(0, 1e9, allow_nan=False),
    st.floats(1e-3, 1e9, allow_nan=False),
    st.integers(NARROWEST, 80),
)
def test_a_bar_takes_exactly_its_room(value: float, limit: float, width: int) -> None:
    text = drawn(f"{value:.6f} L", f"{limit:.6f} L", width)
    assert len(text) == width
    assert text.count("|") == 1


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("20 L", "at the limit"),
        ("16.2 L", "19 % below"),
        ("24 L", "20 % above"),
        ("19.99 L", "less than 1 % below"),
        ("44 L", "2.2 times the limit"),
        ("400 L", "20 times the limit"),
    ],
)
def test_a_bar_says_in_words_how_far(value: str, words: str) -> None:
    found = bar(Margin("", 0.1, value, "20 L"), 20)
    assert found is not None
    assert found.words == words
