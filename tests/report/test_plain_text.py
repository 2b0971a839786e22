"""Plain text says what the console says."""

import re

from report.made import everything
from tundish.report.page.plain_text import WIDTH, as_plain
from tundish.report.tell.assessment import assessment_lines


def test_plain_text_is_ascii_where_the_job_is() -> None:
    assert as_plain(assessment_lines(everything(), "all")).isascii()


def test_plain_text_keeps_its_width_and_has_no_blanks_at_row_ends() -> None:
    for row in as_plain(assessment_lines(everything(), "all")).splitlines():
        assert len(row) <= WIDTH
        assert row == row.rstrip()


def test_plain_text_ends_with_a_line_break() -> None:
    assert as_plain(assessment_lines(everything())).endswith(".\n")


def test_plain_text_has_a_bar_of_typed_characters() -> None:
    assert re.search(r"16\.2 L  =+\.+\|  limit 20 L", as_plain(assessment_lines(everything())))
