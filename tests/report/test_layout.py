"""Lines on pages of every width."""

import re

import pytest
from rich.cells import cell_len

from report.made import assessment, everything, finding
from tundish.report.page.glyphs import DRAWN, TYPED, Look
from tundish.report.page.layout import WIDEST, lay_out
from tundish.report.page.line import Line
from tundish.report.tell.assessment import assessment_lines


def page(lines: list[Line], width: int, look: Look = TYPED) -> str:
    """Return lines as text."""
    return "\n".join("".join(piece for _, piece in row) for row in lay_out(lines, width, look))


def words(text: str) -> list[str]:
    """Return the letters of a text, wherever its rows were broken and bars were drawn."""
    return re.findall(r"[a-z]", text.lower())


@pytest.mark.parametrize("width", [20, 33, 40, 59, 60, 72, 80, 120, 200])
@pytest.mark.parametrize("look", [TYPED, DRAWN])
def test_no_row_is_wider_than_the_page(width: int, look: Look) -> None:
    lines = list(assessment_lines(everything(), "all"))
    for row in page(lines, width, look).split("\n"):
        assert cell_len(row) <= min(width, WIDEST)


@pytest.mark.parametrize("width", [40, 60, 120, 200])
def test_every_text_is_whole_on_every_width(width: int) -> None:
    lines = list(assessment_lines(everything(), "all"))
    shown = "".join(words(page(lines, width)))
    for line in lines:
        assert "".join(words(line.text)) in shown


@pytest.mark.parametrize("width", [40, 80])
def test_no_word_that_fits_is_broken(width: int) -> None:
    lines = list(assessment_lines(everything(), "all"))
    shown = set(page(lines, width).lower().split())
    for line in lines:
        for word in line.text.lower().split():
            if len(word) <= 14:
                assert word in shown


def test_severities_differ_without_colour_and_without_words() -> None:
    for look in (TYPED, DRAWN):
        gauges = {look.gauge(severity) for severity in ("danger", "fault", "caution", "note", None)}
        assert len(gauges) == 5


def test_the_worse_a_severity_the_fuller_its_gauge() -> None:
    full = [TYPED.gauge(severity).count("#") for severity in ("danger", "fault", "caution", "note")]
    assert full == sorted(full, reverse=True)


def test_an_expression_keeps_its_rows() -> None:
    lines = [Line("code", "a\n  + b\n  + c", "formula")]
    assert [row.strip() for row in page(lines, 80).split("\n")] == ["formula     a", "+ b", "+ c"]


def test_only_the_first_of_several_texts_has_the_label() -> None:
    lines = [Line("source", "one", "source"), Line("source", "two")]
    assert page(lines, 80).count("source") == 1


def test_a_path_to_be_copied_is_never_broken() -> None:
    path = "/home/" + "folder/" * 30 + "job.toml"
    assert path in page([Line("verbatim", path)], 40)


def test_a_bar_goes_where_there_is_no_room_and_its_numbers_stay() -> None:
    one = assessment(finding(statement="16.2 L is less than 20 L"))
    shown = page(list(assessment_lines(one)), 20)
    assert "|" not in shown
    assert "16.2 L" in shown
