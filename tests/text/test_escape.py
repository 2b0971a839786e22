"""Text of strangers reaches no terminal raw."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.text.escape import escape, escape_aligned


@given(st.text())
def test_whatever_comes_out_is_printable(text: str) -> None:
    assert escape(text).isprintable()
    assert escape_aligned(text).isprintable()


@given(st.text())
def test_a_line_keeps_its_length_above_a_caret(text: str) -> None:
    assert len(escape_aligned(text)) == len(text)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[2J", "\\x1b[2J"),
        ("left\u202eright", "left\\u202eright"),
        ("two\nrows\tand more", "two rows and more"),
        ("no\u00a0break", "no break"),
        ("\x9b31m", "\\x9b31m"),
        ("caf\u00e9 \u4e2d", "caf\u00e9 \u4e2d"),
        ("\ud800", "\\ud800"),
    ],
)
def test_what_moves_a_cursor_is_written_as_an_escape(text: str, shown: str) -> None:
    assert escape(text) == shown


def test_nothing_is_cut_however_long() -> None:
    assert escape("a" * 5_000) == "a" * 5_000
