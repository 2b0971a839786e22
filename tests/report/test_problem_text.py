"""Problems in files as text."""

import pytest

from tundish.report.page.problem_text import problems_text
from tundish.text.problem import Problem


@pytest.mark.parametrize(
    ("line", "column", "place"),
    [
        (12, 5, "sample.toml, line 12, column 5"),
        (12, None, "sample.toml, line 12"),
        (None, None, "sample.toml"),
    ],
)
def test_a_problem_says_its_place_then_its_sentence(
    line: int | None, column: int | None, place: str
) -> None:
    text = problems_text([Problem("sample.toml", line, column, "'22 lmin' has no such unit.")])
    assert text == f"{place}\n  '22 lmin' has no such unit.\n"


def test_a_caret_stays_below_its_place_on_a_narrow_page() -> None:
    expression = "free_water_volume >= unit.water.minimum_free_volume + 3 furlongs"
    sentence = f"There is no unit.\n    {expression}\n    {' ' * 56}^^^^^^^^"
    rows = problems_text([Problem("a.toml", 1, 1, sentence)], width=30).splitlines()
    assert rows[-1].index("^") == rows[-2].index("furlongs")


def test_a_control_character_neither_shows_nor_shifts_the_caret() -> None:
    sentence = "Wrong.\n    a\x1bb\tc\n        ^"
    rows = problems_text([Problem("a.toml", 1, 1, sentence)]).splitlines()
    assert "\x1b" not in rows[2]
    assert rows[3].index("^") == rows[2].index("c")


def test_a_file_name_is_escaped() -> None:
    assert "\x1b" not in problems_text([Problem("\x1b[2J.toml", None, None, "No such file.")])


def test_a_long_sentence_is_broken_and_stays_below_its_place() -> None:
    rows = problems_text([Problem("a.toml", 1, 1, "word " * 40)], width=40).splitlines()
    assert len(rows) > 4
    assert all(row.startswith("  ") and len(row) <= 40 for row in rows[1:])


def test_no_problem_is_no_text() -> None:
    assert problems_text([]) == ""
