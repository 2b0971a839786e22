from hypothesis import given
from hypothesis import strategies as st

from tundish.text.quoted import shown


@given(st.text())
def test_nothing_shown_can_move_a_cursor(text: str) -> None:
    assert shown(text).isprintable()


def test_long_text_is_cut() -> None:
    assert len(shown("x" * 1000)) < 70


def test_a_huge_number_is_shown_without_trouble() -> None:
    assert shown(10**10_000) == "a very large number"
