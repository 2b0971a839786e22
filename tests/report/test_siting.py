"""The plan of a place: everything told is drawn on its side, everything unknown is told."""

from typing import Any

import pytest

from tundish.findings.figures import Figure
from tundish.findings.siting import Siting, siting_of
from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.report.page.glyphs import DRAWN, TYPED
from tundish.report.page.plain_text import as_plain
from tundish.report.page.site_plan import plan
from tundish.report.tell.siting import siting_lines

PLACE: dict[str, Any] = {
    "unit.size": {"width": "1200 mm", "depth": "400 mm"},
    "unit.clearance": {"back": "250 mm", "front": "700 mm"},
    "unit.placing.protective_zone": [
        {"side": "front", "reach": "2 m"},
        {"side": "all sides", "reach": "1 m"},
    ],
    "placement.clearance": {"back": "320 mm", "left": "2 m", "front": "4 m"},
    "placement.around": {"back": "house wall", "left": "fence", "front": "open"},
    "placement.faces": "south",
    "placement.distance_to_boundary": "3 m",
    "placement.openings": [
        {"name": "kitchen window", "kind": "window", "side": "right", "distance": "1.8 m"},
        {"name": "gully", "kind": "drain"},
    ],
    "placement.hears": [{"name": "bedroom opposite", "side": "front", "distance": "9 m"}],
    "placement.other_units": [{"name": "second unit", "side": "left", "distance": "1 m"}],
}


def place(*figures: Figure, **changes: Any) -> Siting:
    """Return the siting of a job, some of its facts changed or, with None, left out."""
    facts = {path: value for path, value in (PLACE | changes).items() if value is not None}
    siting = siting_of(flatten(Job.from_data(facts)), figures)
    assert siting is not None
    return siting


def drawn(siting: Siting, columns: int = 70) -> list[str]:
    return plan(siting, columns, TYPED)


def position(rows: list[str], text: str) -> tuple[int, int]:
    """Return the row and column of a text in a plan."""
    row = next(at for at, line in enumerate(rows) if text in line)
    return row, rows[row].index(text)


def test_each_place_is_drawn_on_its_side() -> None:
    rows = drawn(place())
    unit_row, unit_column = position(rows, "+---")
    assert position(rows, "[1]v")[0] > unit_row
    assert position(rows, "[2]")[1] > unit_column
    assert position(rows, "[4]")[1] < unit_column
    assert position(rows, "####")[0] < unit_row


def test_a_place_farther_out_than_is_drawn_has_an_arrow() -> None:
    near = place(**{"placement.hears": [{"name": "a", "side": "front", "distance": "5 m"}]})
    far = place(**{"placement.hears": [{"name": "a", "side": "front", "distance": "5.01 m"}]})
    assert not any("[1]v" in row for row in drawn(near))
    assert any("[1]v" in row for row in drawn(far))


def test_a_place_twice_as_far_is_drawn_twice_as_far() -> None:
    def gap(distance: str) -> int:
        spots = [
            {"name": "a", "side": "right", "distance": distance},
            {"name": "b", "side": "left", "distance": "4.8 m"},
            {"name": "c", "side": "right", "distance": "4.8 m"},
        ]
        rows = drawn(place(**{"placement.hears": spots, "placement.openings": None}), 98)
        unit = next(row for row in rows if "[1]" in row)
        return unit.index("[1]") - unit.rindex("|")

    assert gap("4 m") == pytest.approx(2 * gap("2 m"), abs=2)


def test_nothing_is_drawn_where_a_side_is_open() -> None:
    wall = drawn(place(**{"placement.around": {"front": "wall"}}))
    open_side = drawn(place(**{"placement.around": {"front": "open"}}))
    assert sum("#####" in row for row in wall) == sum("#####" in row for row in open_side) + 1


def test_the_farthest_zone_of_a_side_counts() -> None:
    flanks = {flank.side: flank.zone.written for flank in place().flanks}
    assert flanks == {"front": "2 m", "back": "1 m", "left": "1 m", "right": "1 m"}


@pytest.mark.parametrize("columns", [20, 40, 70, 98])
@pytest.mark.parametrize("look", [TYPED, DRAWN])
def test_a_plan_keeps_to_its_page(columns: int, look: Any) -> None:
    for siting in (place(), place(**{"placement.hears": [{"name": "a"}] * 1})):
        rows = plan(siting, columns, look)
        assert max(len(row) for row in rows) <= columns
        assert len(rows) <= 40


def test_many_places_on_one_side_stay_apart() -> None:
    spots = [{"name": f"p{n}", "side": "back", "distance": "3 m"} for n in range(5)]
    rows = drawn(place(**{"placement.hears": spots, "placement.openings": []}))
    assert all(any(f"[{n}]" in row for row in rows) for n in range(1, 6))


def test_what_is_known_is_told() -> None:
    figure = Figure("siting", "level", "by night", "placement.hears[1]", "33.2 dB", True)
    whole = Figure("siting", "volume", "volume of the unit", "", "", False)
    elsewhere = Figure("siting", "other", "nowhere", "building.rooms[1]", "1", False)
    told = " ".join(as_plain(siting_lines(place(figure, whole, elsewhere))).split())
    for text in (
        "looks south",
        "back: 320 mm, house wall (asked 250 mm)",
        "right: not known (asked: not known)",
        "3 m to the boundary",
        "[1] heard at bedroom opposite, 9 m to the front: by night 33.2 dB",
        "kitchen window, 1.8 m to the right",
        "gully (drain), at a distance not known on a side not known",
        "unit second unit, 1 m to the left",
        "volume of the unit: not known",
        "from memory",
    ):
        assert text in told
    assert "nowhere" not in told


def test_an_unknown_zone_is_not_no_zone() -> None:
    unknown = place(**{"unit.placing.protective_zone": None})
    none = place(**{"unit.placing.protective_zone": []})
    assert "protective zone: not known" in as_plain(siting_lines(unknown))
    assert "no protective zone is asked for" in as_plain(siting_lines(none))


def test_an_unknown_size_is_told() -> None:
    for size, number in (("1200 mm", 0), (None, 1)):
        facts = {"unit.size": size and {"width": size, "depth": "400 mm"}}
        told = " ".join(as_plain(siting_lines(place(**facts))).split())
        assert told.count("size of the unit is not known") == number


def test_without_a_placement_there_is_no_plan() -> None:
    assert siting_of(flatten(Job.from_data({"site.snow_depth": "1 m"})), ()) is None
    assert "Nothing is told of the place" in as_plain(siting_lines(None))
