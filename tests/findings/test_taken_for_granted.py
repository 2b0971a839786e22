"""What a finding takes for granted until it is known: what stands in, and what waits."""

from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import finding, findings
from tundish.rulebook.evaluate.judge import Verdict

EACH, ALTITUDE = '"water.run as run"', '["site.altitude"]'
MET, BREACHED, NOT_APPLICABLE = Verdict.MET, Verdict.BREACHED, Verdict.NOT_APPLICABLE


@pytest.mark.parametrize(
    ("requires", "told"),
    [
        ("assume(site.altitude, 5 m) > 1 m", "altitude: not known, taken as 5 m"),
        (
            "assume(site.altitude, site.snow_depth) > 1 m",
            "altitude: not known, expected snow depth 120 mm stands in",
        ),
        (
            "assume(site.altitude, site.snow_depth * 2) > 1 m",
            "altitude: not known, worked out as 240 mm",
        ),
        ("assume(site.altitude > 1 m, true)", "altitude: not known, taken as yes"),
        (
            "if known(site.altitude) then false else true",
            "altitude: not known, this holds until it is",
        ),
    ],
)
def test_what_stood_in_is_told(tmp_path: Path, requires: str, told: str) -> None:
    assert finding(tmp_path, requires).assumed == (told,)


def test_nothing_is_told_where_all_is_known(tmp_path: Path) -> None:
    assert not finding(tmp_path / "a", "assume(site.snow_depth, 5 m) > 1 m").assumed
    assert not finding(tmp_path / "b", "known(site.snow_depth)").assumed
    assert not finding(tmp_path / "c", "not known(water.bypass.opens_at)").assumed


def test_a_fallback_for_something_absent_is_told_too(tmp_path: Path) -> None:
    found = finding(tmp_path, "assume(water.bypass.opens_at, 5 kPa) > 1 kPa")
    assert found.verdict == "met" and found.assumed == (
        "opening pressure difference: not known, taken as 5 kPa",
    )


def test_a_fallback_of_an_item_names_it(tmp_path: Path) -> None:
    facts: dict[str, Any] = {"water.run": [{"name": "flow"}]}
    found = finding(tmp_path, "all(assume(run.length, 5 m) > 1 m for run in water.run)", facts)
    assert found.assumed == ("length of the run (flow): not known, taken as 5 m",)


def test_what_holds_until_a_fact_is_known_tells_it(tmp_path: Path) -> None:
    found = finding(tmp_path / "a", "site.snow_depth < 1 m", until_known='["site.altitude"]')
    assert found.verdict == MET
    assert found.assumed == ("altitude: not known, this holds until it is",)
    found = finding(tmp_path / "b", "site.altitude < 1 m", until_known='["site.snow_depth"]')
    assert found.verdict == NOT_APPLICABLE and not found.assumed


def test_what_is_asked_once_a_fact_is_known_tells_it(tmp_path: Path) -> None:
    found = finding(tmp_path / "a", "site.snow_depth < 1 m", once_known='["site.altitude"]')
    assert found.verdict == NOT_APPLICABLE and found.assumed
    assert found.statement == "This is asked once it is known: altitude."
    found = finding(tmp_path / "b", "site.snow_depth < 1 cm", once_known='["site.snow_depth"]')
    assert found.verdict == BREACHED and not found.assumed


def test_items_wait_each_for_its_own_fact(tmp_path: Path) -> None:
    facts: dict[str, Any] = {"water.run": [{"name": "flow"}, {"name": "return", "length": "9 m"}]}
    back, flow = findings(
        tmp_path, "run.length < 5 m", facts, each=EACH, once_known='["run.length"]'
    )
    assert flow.statement == "This is asked once it is known: length of the run (flow)."
    assert back.verdict == BREACHED


def test_a_list_nobody_wrote_waits_for_the_fact_first(tmp_path: Path) -> None:
    found = finding(tmp_path, "run.length < 5 m", {}, each=EACH, once_known=ALTITUDE)
    assert found.verdict == NOT_APPLICABLE
    assert found.statement == "This is asked once it is known: altitude."
