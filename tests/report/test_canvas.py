"""What is drawn on a canvas, and what falls off it."""

from tundish.report.page.canvas import Canvas


def test_later_strokes_lie_over_earlier_ones() -> None:
    canvas = Canvas(5, 1)
    canvas.across(0, 4, 0, "-")
    canvas.put(2, 0, "x")
    assert canvas.lines() == ["--x--"]


def test_a_box_has_its_corners() -> None:
    canvas = Canvas(4, 3)
    canvas.box(0, 0, 3, 2, "-|abcd")
    assert canvas.lines() == ["a--b", "|  |", "d--c"]


def test_what_falls_off_is_left_out() -> None:
    canvas = Canvas(3, 2)
    canvas.put(-1, 0, "abcde")
    canvas.put(0, 2, "below")
    canvas.down(2, -3, 9, "|")
    assert canvas.lines() == ["bc|", "  |"]


def test_rows_end_without_blanks() -> None:
    assert Canvas(4, 2).lines() == ["", ""]
