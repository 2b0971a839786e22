"""The plot of growth shows every count and time where its axes say it is."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

HERE = Path(__file__).parent


def test_points_stand_where_the_axes_say(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(HERE))
    from plot import drawn

    linear = [(1, 1e-6), (100, 1e-4), (10_000, 1e-2)]
    names = ("rules", "items", "jobs", "rows")
    root = ElementTree.fromstring(drawn(dict.fromkeys(names, linear)))
    said = {text.text: text for text in root.iter("{http://www.w3.org/2000/svg}text")}
    assert set(names) <= set(said)
    lines = list(root.iter("{http://www.w3.org/2000/svg}polyline"))
    assert len(lines) == len(names)
    points = [tuple(map(float, one.split(","))) for one in lines[0].attrib["points"].split()]
    counts, times = ("1", "100", "10,000"), ("1 us", "0.1 ms", "10 ms")
    for (across, down), count, time in zip(points, counts, times, strict=True):
        assert across == pytest.approx(float(said[count].attrib["x"]), abs=0.1)
        # A time is written at the foot of its letters, a little below its line.
        assert down == pytest.approx(float(said[time].attrib["y"]) - 4, abs=0.1)
