"""A bar is shown to whoever sits at a terminal, and takes nothing from what is worked on."""

import io
import sys

import pytest

from tundish.command.progress import counting, with_progress


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("count", [0, 3, 12, 13, 100])
def test_every_item_comes_once_and_in_order(count: int, monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    assert list(with_progress(range(count), "Judging")) == list(range(count))
    assert ("Judging" in screen.getvalue()) is (count > 12)


def test_nothing_is_drawn_where_nobody_looks(capsys: pytest.CaptureFixture[str]) -> None:
    assert list(with_progress(range(100), "Judging")) == list(range(100))
    assert capsys.readouterr().err == ""


def test_steps_of_several_are_counted_for_whoever_looks(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    for total in (20, None):
        with counting(total, "Judging") as advance:
            advance(8)
            advance(12)
    assert "Judging" in screen.getvalue()
    assert "20" in screen.getvalue()


def test_nothing_is_counted_where_nobody_looks(capsys: pytest.CaptureFixture[str]) -> None:
    with counting(20, "Judging") as advance:
        advance(20)
    assert capsys.readouterr().err == ""
