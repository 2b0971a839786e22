from hypothesis import given
from hypothesis import strategies as st

from tundish.text.quoted import quoted


@given(st.text())
def test_nothing_shown_can_move_a_cursor(text: str) -> None:
    assert quoted(text).isprintable()


def test_long_text_is_cut() -> None:
    assert len(quoted("x" * 1000)) < 70


def test_a_huge_number_is_shown_without_trouble() -> None:
    assert quoted(10**10_000) == "a very large number"
