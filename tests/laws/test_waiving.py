"""A waiver sets one breach aside and changes no other finding."""

from __future__ import annotations

import datetime
from typing import Any

import pytest

from laws.sample_data import WHOLE, sample_data
from laws.thinning import SAMPLES
from tundish import Job, Verdict, assess
from tundish.findings.finding import Finding
from tundish.results.as_data import as_data

WAIVER = {"reason": "It is looked after.", "by": "designer", "person": "An invented person"}


def findings(data: dict[str, Any]) -> dict[tuple[str, str], Finding]:
    told = assess(Job.from_data(data))
    found = {(finding.rule, finding.item): finding for finding in told.findings}
    assert len(found) == len(told.findings)
    return found


def told_of(data: dict[str, Any]) -> dict[tuple[str, str], Any]:
    found = as_data(assess(Job.from_data(data)))["findings"]
    return {(one["rule"], one.get("item") or ""): one for one in found}


@pytest.mark.parametrize("at", WHOLE, ids=[SAMPLES[at].stem for at in WHOLE])
def test_a_waiver_changes_no_other_finding(at: int) -> None:
    data = {**sample_data(at), "waiver": []}
    data["job"] = {**data["job"], "date": datetime.date(2026, 11, 25)}
    # What breaches nothing is made to, by a base far too low in the snow.
    data["site"] = {**data.get("site", {}), "snow_depth": "5 m"}
    before = told_of(data)
    breaches = [key for key, one in before.items() if one["verdict"] == Verdict.BREACHED]
    assert breaches
    for rule, item in breaches[:4]:
        waiver = {**WAIVER, "rule": rule, "until": datetime.date(2027, 1, 1)}
        after = told_of({**data, "waiver": [waiver | ({"item": item} if item else {})]})
        assert after.keys() == before.keys()
        changed = {key for key in before if after[key] != before[key]}
        assert changed == {(rule, item)}
        assert after[rule, item]["verdict"] == Verdict.WAIVED


def test_a_waiver_of_what_is_met_changes_nothing() -> None:
    data = sample_data(WHOLE[0])
    before = findings(data)
    met = next(key for key, one in before.items() if one.verdict is Verdict.MET and not key[1])
    waivers = [*data.get("waiver", ()), {**WAIVER, "rule": met[0]}]
    after = findings({**data, "waiver": waivers})
    assert {key: one.verdict for key, one in after.items()} == {
        key: one.verdict for key, one in before.items()
    }
