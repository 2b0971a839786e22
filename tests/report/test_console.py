"""The console: colour adds nothing that the words do not say."""

import io
import re

import pytest
from rich.console import Console

from report.made import assessment, everything, finding
from tundish.findings.finding import Assessment
from tundish.report.page.console import print_lines
from tundish.report.tell.assessment import assessment_lines

ESCAPE = re.compile(r"\x1b\[[0-9;]*m")


def printed(one: Assessment, encoding: str = "utf-8", **options: object) -> str:
    """Return what a console of some sort is sent."""
    raw = io.BytesIO()
    file = io.TextIOWrapper(raw, encoding=encoding, errors="backslashreplace")
    settings: dict[str, object] = {"width": 80, "highlight": False, **options}
    print_lines(assessment_lines(one, "all"), Console(file=file, **settings))  # type: ignore[arg-type]
    file.flush()
    return raw.getvalue().decode(encoding)


def test_a_terminal_is_shown_colour() -> None:
    assert "\x1b[1;31m" in printed(everything(), force_terminal=True, color_system="standard")


def test_a_pipe_is_sent_no_escapes() -> None:
    assert "\x1b" not in printed(everything())


def test_no_color_takes_the_colours_away(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    text = printed(everything(), force_terminal=True, color_system="standard")
    assert not re.search(r"\x1b\[[0-9;]*3[0-7]m", text)


def test_without_colour_not_a_character_is_missing() -> None:
    colour = printed(everything(), force_terminal=True, color_system="truecolor")
    assert ESCAPE.sub("", colour) == printed(everything())
    for word in ("DANGER", "FAULT", "CAUTION", "[from memory]"):
        assert word in ESCAPE.sub("", colour)


def test_a_terminal_that_knows_ascii_alone_is_sent_ascii_alone() -> None:
    assert printed(everything(), encoding="ascii").isascii()
    assert "\\u" not in printed(everything(), encoding="ascii")


def test_brackets_in_a_job_are_text_and_no_markup() -> None:
    title = "[red]not red[/red] [/] [link=x]y"
    for forced in (True, False):
        one = assessment(finding(item=title), job=title)
        text = printed(one, force_terminal=forced, width=120)
        assert ESCAPE.sub("", text).count("[red]not red[/red] [/]") == 2


@pytest.mark.parametrize("character", ["\x1b[2J", "\x07", "\r", "\x9b2J", "\u202e", "\x00"])
def test_nothing_in_a_job_reaches_the_terminal_raw(character: str) -> None:
    evil = f"a{character}b"
    one = finding(item=evil, statement=evil, because=evil, remedy=evil, title=evil, assumed=(evil,))
    text = printed(assessment(one, job=evil, file=evil, region=evil, cautions=(evil,)))
    assert character not in text
