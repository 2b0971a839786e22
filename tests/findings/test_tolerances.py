"""Verdicts that the stated tolerances leave in doubt."""

from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import book
from tundish import Job, assess
from tundish.findings.finding import Finding
from tundish.text.problem import Refused

HEIGHT = "placement.height_below"
REQUIRES = f"{HEIGHT} >= site.snow_depth"


def judged(folder: Path, requires: str, height: str, *tolerances: dict[str, Any]) -> Finding:
    facts: dict[str, Any] = {HEIGHT: height, "site.snow_depth": "120 mm"}
    job = Job.from_data({**facts, "tolerance": list(tolerances)})
    (finding,) = assess(job, book(folder, requires)).findings
    return finding


@pytest.mark.parametrize(
    ("height", "tolerance", "in_doubt"),
    [
        ("130 mm", {"amount": "10 mm"}, False),
        ("130 mm", {"amount": "10.1 mm"}, True),
        ("120 mm", {"amount": "1 mm"}, True),
        ("120 mm", {"amount": "0 mm"}, False),
        ("110 mm", {"amount": "5 mm"}, False),
        ("110 mm", {"amount": "1 cm"}, True),
        ("150 mm", {"share": "20 %"}, False),
        ("150 mm", {"share": "21 %"}, True),
    ],
)
def test_a_verdict_is_doubted_within_a_tolerance(
    tmp_path: Path, height: str, tolerance: dict[str, str], in_doubt: bool
) -> None:
    finding = judged(tmp_path, REQUIRES, height, {"of": HEIGHT, **tolerance})
    assert bool(finding.doubtful) is in_doubt


def test_the_doubt_names_what_may_be_off(tmp_path: Path) -> None:
    finding = judged(tmp_path, REQUIRES, "121 mm", {"of": HEIGHT, "amount": "5 mm"})
    assert "tolerance of height below the unit" in finding.doubtful


def test_a_rule_that_rests_on_something_else_is_certain(tmp_path: Path) -> None:
    tolerance = {"of": "site.altitude", "amount": "5 m"}
    assert not judged(tmp_path, REQUIRES, "120 mm", tolerance).doubtful


@pytest.mark.parametrize(
    ("tolerance", "said"),
    [
        ({"of": "placement.hight_below", "share": "5 %"}, "Did you mean 'placement.height_below'?"),
        ({"of": HEIGHT}, "either a 'share' or an 'amount'"),
        ({"of": HEIGHT, "share": "5 %", "amount": "5 mm"}, "either a 'share' or an 'amount'"),
        ({"of": HEIGHT, "amount": "5 L"}, "is no amount of placement.height_below"),
        ({"of": HEIGHT, "amount": "5"}, "has no unit"),
        ({"of": HEIGHT, "amount": "-5 mm"}, "not below zero"),
        ({"of": "readings.air_temperature", "share": "5 %"}, "point on a scale"),
        ({"of": "placement.on", "share": "5 %"}, "is no figure of a job"),
    ],
)
def test_what_is_wrong_with_a_tolerance_is_told(
    tmp_path: Path, tolerance: dict[str, str], said: str
) -> None:
    with pytest.raises(Refused, match=said.replace("?", "[?]")):
        judged(tmp_path, REQUIRES, "130 mm", tolerance)


def test_a_temperature_is_off_by_a_difference(tmp_path: Path) -> None:
    requires = "site.design_air_temperature >= -5 degC"
    for amount, in_doubt in (("2 K", False), ("2.1 K", True)):
        tolerance = {"of": "site.design_air_temperature", "amount": amount}
        job = Job.from_data({"site.design_air_temperature": "-3 degC", "tolerance": [tolerance]})
        (finding,) = assess(job, book(tmp_path / amount, requires)).findings
        assert bool(finding.doubtful) is in_doubt
