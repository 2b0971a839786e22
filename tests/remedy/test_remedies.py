"""The least change that mends a breach, verified by asking the rule again."""

from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import FACTS, rule
from rulebook.packs import QUANTITY, load
from tundish import Job, Verdict, assess
from tundish.findings.finding import Finding, Remedy
from tundish.rulebook.rulebook import Rulebook

HEIGHT = "placement.height_below"
TWO_FEET = {"placement.feet": {"count": 2}}

SIZES = """\
[vessels]
facts = ["water.volume_vessel.volume"]
sizes = ["30 L", "18 L", "50 L"]
cite = [{ source = "practice" }]
reviewed = 2026-11-25
[heights]
facts = ["placement.height_below"]
step = "50 mm"
cite = [{ source = "practice" }]
reviewed = 2026-11-25
"""


def mended(book: Rulebook, facts: dict[str, Any]) -> Finding:
    job = Job.from_data(facts)
    found = assess(job, book, changes=True)
    return found.of(Verdict.BREACHED)[0]


def changes(
    folder: Path, requires: str, adjust: str, facts: dict[str, Any] | None = None, **more: str
) -> tuple[Remedy, ...]:
    """Return what would mend one breached rule of FACTS."""
    files = {"snow/base.toml": rule(requires, adjust=adjust), **more}
    return mended(load(folder, files), FACTS | (facts or {})).changes


@pytest.mark.parametrize(
    ("requires", "then"),
    [
        (f"{HEIGHT} >= site.snow_depth", "120 mm"),
        (f"{HEIGHT} >= site.snow_depth + 3.4 mm", "130 mm"),
        (f"{HEIGHT} > site.snow_depth", "130 mm"),
        (f"{HEIGHT} <= 51 mm", "51 mm"),
        (f"{HEIGHT} <= 48.6 mm", "48 mm"),
        (f"{HEIGHT} ^ 2 >= 4 m2", "2000 mm"),
        (f"90 mm < 0.5 * {HEIGHT} < 100 mm", "190 mm"),
        (f"{HEIGHT} < 20 mm or {HEIGHT} > 130 mm", "140 mm"),
        (f"{HEIGHT} < 90 mm or {HEIGHT} > 130 mm", "89 mm"),
        ("spare_height >= 40 mm", "160 mm"),
    ],
)
def test_the_nearest_value_that_mends(tmp_path: Path, requires: str, then: str) -> None:
    more = {"snow/quantities.toml": QUANTITY}
    (change,) = changes(tmp_path, requires, f'"{HEIGHT}"', **more)
    assert (change.path, change.now, change.then) == (HEIGHT, "100 mm", then)


def test_nothing_within_range_is_said_by_an_empty_answer(tmp_path: Path) -> None:
    files = {"snow/base.toml": rule(f"{HEIGHT} >= 1e9 m", adjust=f'"{HEIGHT}"')}
    finding = mended(load(tmp_path, files), FACTS)
    assert finding.changes == ()
    assert finding.tried == ("height below the unit",)


def test_a_value_that_cannot_be_mends_nothing(tmp_path: Path) -> None:
    assert not changes(tmp_path, f"{HEIGHT} < 0 mm", f'"{HEIGHT}"')


def test_a_rule_that_names_nothing_to_change_is_not_tried(tmp_path: Path) -> None:
    finding = mended(load(tmp_path, {"snow/base.toml": rule(f"{HEIGHT} >= 1 m")}), FACTS)
    assert (finding.changes, finding.tried) == ((), ())


@pytest.mark.parametrize(
    ("requires", "then"),
    [
        ("water.volume_vessel.volume >= 25 L", "30 L"),
        ("water.volume_vessel.volume >= 30 L", "30 L"),
        ("water.volume_vessel.volume <= 19 L", "18 L"),
        ("water.volume_vessel.volume >= 51 L", None),
    ],
)
def test_what_is_sold_in_sizes_is_changed_to_one(
    tmp_path: Path, requires: str, then: str | None
) -> None:
    found = changes(tmp_path, requires, '"water.volume_vessel.volume"', **{"sizes.toml": SIZES})
    assert [one.then for one in found] == ([] if then is None else [then])


def test_a_practical_step_is_kept_to(tmp_path: Path) -> None:
    requires = f"{HEIGHT} >= site.snow_depth"
    (change,) = changes(tmp_path, requires, f'"{HEIGHT}"', **{"sizes.toml": SIZES})
    assert change.then == "150 mm"


def test_a_window_narrower_than_the_step_is_met_all_the_same(tmp_path: Path) -> None:
    requires = f"121 mm <= {HEIGHT} <= 124 mm"
    (change,) = changes(tmp_path, requires, f'"{HEIGHT}"', **{"sizes.toml": SIZES})
    assert change.then in ("121 mm", "122 mm", "123 mm", "124 mm", "125 mm")


def test_something_absent_is_put_in(tmp_path: Path) -> None:
    facts = {"water.volume_vessel": "none"}
    requires = "present(water.volume_vessel) and water.volume_vessel.volume >= 25 L"
    found = changes(tmp_path, requires, '"water.volume_vessel.volume"', facts)
    assert [(one.now, one.then) for one in found] == [("none", "25 L")]


def test_what_is_not_known_is_not_changed(tmp_path: Path) -> None:
    requires = f"{HEIGHT} >= 1 m or site.altitude > 1 m and {HEIGHT} > 1 m"
    assert not changes(tmp_path, requires, '"site.altitude"')


@pytest.mark.parametrize(
    ("requires", "adjust", "facts", "then"),
    [
        ("placement.anchored", "placement.anchored", {"placement.anchored": False}, "true"),
        ("placement.on == 'frame'", "placement.on", {"placement.on": "wall"}, "frame"),
        (
            "placement.feet.count >= 4",
            "placement.feet.count",
            {"placement.feet": {"count": 2}},
            "4",
        ),
        (
            "placement.feet.count == 1",
            "placement.feet.count",
            {"placement.feet": {"count": 2}},
            "1",
        ),
    ],
)
def test_truths_words_and_counts_can_be_changed(
    tmp_path: Path, requires: str, adjust: str, facts: dict[str, Any], then: str
) -> None:
    (change,) = changes(tmp_path, requires, f'"{adjust}"', facts)
    assert change.then == then


def test_of_a_list_the_item_that_is_judged_is_changed(tmp_path: Path) -> None:
    files = {
        "snow/base.toml": rule(
            "run.length <= 5 m", each='"water.run as run"', adjust='"water.run.length"'
        )
    }
    finding = mended(load(tmp_path, files), FACTS)
    assert [(one.path, one.then) for one in finding.changes] == [("water.run[2].length", "5 m")]


def test_of_a_sum_over_a_list_each_item_is_an_alternative(tmp_path: Path) -> None:
    requires = "sum(run.length for run in water.run) <= 8 m"
    found = changes(tmp_path, requires, '"water.run.length"')
    assert {(one.path, one.then) for one in found} == {
        ("water.run[1].length", "1 m"),
        ("water.run[2].length", "5 m"),
    }


def test_what_else_a_change_would_do_is_told(tmp_path: Path) -> None:
    files = {
        "snow/base.toml": rule(f"{HEIGHT} >= 120 mm", adjust=f'"{HEIGHT}"'),
        "snow/other.toml": rule(f"{HEIGHT} >= 110 mm"),
        "snow/low.toml": rule(f"{HEIGHT} <= 105 mm"),
        "snow/open.toml": rule(f"{HEIGHT} <= 115 mm or site.altitude > 1 m"),
    }
    job = Job.from_data(FACTS)
    book = load(tmp_path, files)
    finding = next(one for one in assess(job, book, changes=True).findings if one.tried)
    (change,) = finding.changes
    assert [one.rule for one in change.mends] == ["snow/other"]
    assert [one.rule for one in change.breaks] == ["snow/low"]
    assert [one.rule for one in change.opens] == ["snow/open"]
