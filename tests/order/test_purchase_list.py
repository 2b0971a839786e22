"""The order list: what is needed, compared with what was ordered."""

from pathlib import Path
from typing import Any

import pytest

from rulebook.packs import PROVISIONS, RULE, load
from tundish.job.job import Job
from tundish.order.purchase_list import OrderLine, OrderList, Standing, order_list

NEEDING: dict[str, Any] = {
    "site.snow_depth": "30 cm",
    "placement.feet": "none",
    "water.run": [{"name": "flow", "place": "outdoors", "length": "2.5 m"}],
}


def listed(folder: Path, facts: dict[str, Any], **order: Any) -> OrderList:
    packs = {"snow/base.toml": RULE, "snow/provisions.toml": PROVISIONS}
    return order_list(Job.from_data({**facts, **order}), load(folder, packs))


def line(found: OrderList, name: str) -> OrderLine:
    return next(line for line in found.lines if line.name == name)


def test_without_an_order_all_that_is_needed_is_to_be_ordered(tmp_path: Path) -> None:
    found = listed(tmp_path, NEEDING)
    assert not found.compared
    assert [(one.name, one.standing, one.needed) for one in found.lines] == [
        ("frame", Standing.TO_ORDER, "2"),
        ("sun cover", Standing.TO_ORDER, "2.5 m"),
    ]


def test_the_sum_behind_an_amount_is_told_where_there_is_one(tmp_path: Path) -> None:
    found = listed(tmp_path, NEEDING)
    assert "2.5 m" in line(found, "sun cover").numbers
    assert line(found, "frame").numbers == ""


@pytest.mark.parametrize(
    ("ordered", "standing", "said"),
    [
        ([], Standing.MISSING, "was not ordered"),
        ([{"name": "frame", "number": 1}], Standing.MISSING, "short by 1."),
        ([{"name": "frame", "number": 2}], Standing.ORDERED, "as much as is needed"),
        ([{"name": "FRAME", "number": 2}], Standing.ORDERED, "as much as is needed"),
        ([{"name": "frame", "number": 3}], Standing.SURPLUS, "1 too many"),
        ([{"name": "frame"}], Standing.DOUBTFUL, "no number of it is told"),
        ([{"name": "stand", "number": 2}], Standing.ORDERED, "as much"),
        (
            [{"name": "stand", "number": 1}, {"name": "frame", "number": 1}],
            Standing.ORDERED,
            "as much",
        ),
        ([{"name": "stand", "number": 1}, {"name": "frame"}], Standing.DOUBTFUL, "no number"),
    ],
)
def test_a_needed_part_is_compared_with_the_order(
    tmp_path: Path, ordered: list[dict[str, Any]], standing: Standing, said: str
) -> None:
    frame = line(listed(tmp_path, NEEDING, order=ordered), "frame")
    assert frame.standing is standing
    assert said in frame.statement


def test_a_roll_longer_than_needed_is_no_surplus(tmp_path: Path) -> None:
    cover = line(
        listed(tmp_path, NEEDING, order=[{"name": "sun cover", "length": "10 m"}]), "sun cover"
    )
    assert (cover.standing, cover.ordered) == (Standing.ORDERED, "10 m")
    assert "7.5 m more" in cover.statement


@pytest.mark.parametrize(
    ("facts", "ordered", "standing"),
    [
        ({"site.snow_depth": "10 cm"}, False, None),
        ({"site.snow_depth": "10 cm"}, True, Standing.SURPLUS),
        ({"placement.feet": {"count": 4}}, False, Standing.WITH_UNIT),
        ({"placement.feet": {"count": 4}}, True, Standing.SURPLUS),
        ({"site.snow_depth": None}, False, Standing.DOUBTFUL),
        ({"site.snow_depth": None}, True, Standing.DOUBTFUL),
    ],
)
def test_a_part_that_is_not_needed_or_in_doubt(
    tmp_path: Path, facts: dict[str, Any], ordered: bool, standing: Standing | None
) -> None:
    known = {key: value for key, value in (NEEDING | facts).items() if value is not None}
    order = [{"name": "frame", "number": 2}] if ordered else []
    found = listed(tmp_path, known, order=order)
    standings = [one.standing for one in found.lines if one.name == "frame"]
    assert standings == ([] if standing is None else [standing])


def test_what_is_in_doubt_says_what_would_decide_it(tmp_path: Path) -> None:
    frame = line(listed(tmp_path, {"site.snow_depth": "30 cm"}), "frame")
    assert [one.path for one in frame.open] == ["placement.feet"]


def test_a_part_that_nobody_knows_is_doubtful(tmp_path: Path) -> None:
    found = listed(tmp_path, NEEDING, order=[{"name": "sun kover", "length": "3 m"}])
    unknown = line(found, "sun kover")
    assert unknown.standing is Standing.DOUBTFUL
    assert "Did you mean 'sun cover'?" in unknown.statement


def test_who_supplies_it_is_as_the_order_says(tmp_path: Path) -> None:
    order = [{"name": "frame", "number": 2, "supplied_by": "customer"}]
    found = listed(tmp_path, NEEDING, order=order)
    assert line(found, "frame").supplier == "customer"
    assert line(found, "sun cover").supplier == "heating supplier"


def test_missing_parts_come_first(tmp_path: Path) -> None:
    found = listed(tmp_path, NEEDING, order=[{"name": "frame", "number": 2}])
    assert [one.standing for one in found.lines] == [Standing.MISSING, Standing.ORDERED]
