"""What an open fact will be held against is told where it is known."""

from pathlib import Path

import pytest

from findings.judged_job import book
from tundish import Job, Verdict, assess

HEIGHT = "placement.height_below"


@pytest.mark.parametrize(
    ("requires", "limits"),
    [
        (
            "placement.height_below >= site.snow_depth",
            {HEIGHT: "at least 120 mm"},
        ),
        (
            "site.snow_depth < placement.height_below",
            {HEIGHT: "more than 120 mm"},
        ),
        (
            "placement.height_below <= 2 * site.snow_depth",
            {HEIGHT: "at most 240 mm"},
        ),
        (
            "100 mm <= placement.height_below <= 1 m",
            {HEIGHT: "at least 100 mm and at most 1 m"},
        ),
        (
            "placement.height_below >= site.distance_to_coast",
            {HEIGHT: "", "site.distance_to_coast": ""},
        ),
        (f"{HEIGHT} + 50 mm >= site.snow_depth", {HEIGHT: ""}),
        ("placement.on == 'wall'", {"placement.on": "wall"}),
        ("placement.on != 'wall'", {"placement.on": ""}),
    ],
)
def test_the_limit_of_an_open_fact(tmp_path: Path, requires: str, limits: dict[str, str]) -> None:
    job = Job.from_data({"site.snow_depth": "120 mm"})
    (finding,) = assess(job, book(tmp_path, requires)).of(Verdict.UNDECIDED)
    assert {one.path: one.limit for one in finding.open} == limits


def test_what_was_not_looked_at_has_no_limit(tmp_path: Path) -> None:
    requires = f"placement.on == 'wall' and (site.snow_depth > 1 m or {HEIGHT} > 50 mm)"
    (finding,) = assess(Job.from_data({"site.snow_depth": "2 m"}), book(tmp_path, requires)).of(
        Verdict.UNDECIDED
    )
    assert [(one.path, one.limit) for one in finding.open] == [("placement.on", "wall")]
