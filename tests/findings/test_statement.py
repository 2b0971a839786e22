"""The sentence of a finding: its wording loosely, its numbers exactly."""

from pathlib import Path

import pytest

from findings.judged_job import FACTS, finding
from tundish.rulebook.evaluate.judge import Verdict

MET, BREACHED, UNDECIDED = Verdict.MET, Verdict.BREACHED, Verdict.UNDECIDED

SAID: list[tuple[str, Verdict, list[str]]] = [
    (
        "placement.height_below >= site.snow_depth",
        BREACHED,
        ["100 mm", "less than", "120 mm", "short by 20 mm"],
    ),
    ("site.snow_depth <= 100 mm", BREACHED, ["120 mm", "more than 100 mm", "over by 20 mm"]),
    ("site.snow_depth > 1 m", BREACHED, ["120 mm", "1 m", "short by 0.88 m"]),
    ("site.snow_depth < 10 cm", BREACHED, ["120 mm", "10 cm", "over by 2 cm"]),
    ("site.snow_depth < 200 mm", MET, ["120 mm", "less than 200 mm", "80 mm to spare"]),
    ("site.snow_depth >= 12 cm", MET, ["120 mm", "12 cm", "exactly at the limit"]),
    ("0.1 m + 0.02 m >= site.snow_depth", MET, ["0.12 m", "120 mm", "exactly at the limit"]),
    ("0.1 m + 0.2 m <= 0.3 m", MET, ["exactly at the limit"]),
    ("site.snow_depth > 12 cm", BREACHED, ["120 mm", "12 cm", "exactly at the limit"]),
    ("site.snow_depth > 0.11999999 m", MET, ["120 mm", "0.11999999 m", "to spare"]),
    ("site.snow_depth == 1 m", BREACHED, ["120 mm", "1 m"]),
    ("site.snow_depth != 12 cm", BREACHED, ["120 mm", "12 cm"]),
    ("site.snow_depth != 1 m", MET, ["120 mm", "1 m"]),
    (
        "placement.height_below + 50 mm >= site.snow_depth",
        MET,
        ["100 mm + 50 mm = 150 mm", "120 mm", "30 mm to spare"],
    ),
    (
        "(placement.height_below + 1 m) * 2 >= site.snow_depth / 2 + 3 m",
        BREACHED,
        ["(", "100 mm + 1 m) x 2 = 2200 mm", "120 mm / 2 + 3 m = 3060 mm", "short by 860 mm"],
    ),
    (
        "site.snow_depth - (1 m - 20 cm) >= 0 m",
        BREACHED,
        ["- (1 m - 20 cm) = -680 mm", "short by 0.68 m"],
    ),
    ("site.design_air_temperature >= 5 degC", BREACHED, ["-3 degC", "5 degC", "short by 8 K"]),
    (
        "site.design_air_temperature - site.coldest_air_temperature <= 3 K",
        BREACHED,
        ["-3 degC", "-12 degC", "9 K", "over by 6 K"],
    ),
    (
        "unit.sound_power.day - 5 dB <= 40 dB",
        BREACHED,
        ["60 dB", "5 dB", "55 dB", "40 dB", "over by 15 dB"],
    ),
    ("unit.sound_power.day - unit.sound_power.night <= 5 dB", BREACHED, ["6 dB", "over by 1 dB"]),
    ("site.exposure == 'open shore'", MET, ["open shore"]),
    ("site.exposure != 'open shore'", BREACHED, ["open shore"]),
    ("site.exposure in ['open shore']", MET, ["is one of", "open shore"]),
    ("not (site.exposure in ['open shore'])", BREACHED, ["is one of", "open shore"]),
    ("'biocide' in water.treatment", BREACHED, ["iocide", "not among", "inhibitor"]),
    ("'inhibitor' in water.treatment", MET, ["inhibitor"]),
    ("present(water.volume_vessel)", MET, ["there is one"]),
    ("present(water.bypass)", BREACHED, ["there is none"]),
    ("known(site.snow_depth)", MET, ["is known"]),
    ("known(site.altitude)", BREACHED, ["is not known"]),
    ("false", BREACHED, ["does not hold"]),
    ("true", MET, ["holds"]),
    ("assume(site.altitude, 5 m) > 7 m", BREACHED, ["5 m", "7 m", "short by 2 m"]),
    ("assume(site.snow_depth, 5 m) > 7 m", BREACHED, ["120 mm", "7 m", "short by 6.88 m"]),
    ("assume(known(site.altitude), true)", BREACHED, ["is not known"]),
    (
        "(if site.snow_depth > 1 cm then water.volume_vessel.volume else 3 L)"
        " >= unit.water.minimum_free_volume",
        MET,
        ["volume vessel 20.0 L is", "20 L", "exactly at the limit"],
    ),
    (
        "(if site.altitude > 1 m then site.snow_depth else site.snow_depth) > 1 m",
        BREACHED,
        ["120 mm", "short by 0.88 m"],
    ),
    (
        "if site.snow_depth > 1 cm then site.snow_depth > 1 m else false",
        BREACHED,
        ["120 mm", "1 m", "short by 0.88 m"],
    ),
    (
        "(if site.snow_depth > 1 cm then job.date else job.date) < job.date",
        BREACHED,
        ["2026-11-02 is"],
    ),
    (
        "placement.height_below >= site.snow_depth and site.snow_depth < 1 m",
        BREACHED,
        ["short by 20 mm"],
    ),
    (
        "placement.height_below >= site.snow_depth or site.snow_depth < 1 cm",
        BREACHED,
        ["short by 20 mm", "; and ", "over by 11 cm"],
    ),
    (
        "site.snow_depth < 1 m and site.snow_depth > 1 cm",
        MET,
        ["0.88 m to spare", "; and ", "11 cm to spare"],
    ),
    ("0 m < site.snow_depth < 5 cm", BREACHED, ["120 mm", "5 cm", "over by 7 cm"]),
    ("not (placement.height_below >= site.snow_depth)", MET, ["100 mm", "120 mm"]),
    ("spare_height >= 0 mm", BREACHED, ["eight above the snow -20 mm", "0 mm", "short by 20 mm"]),
    (
        "all(run.length <= 5 m for run in water.run)",
        BREACHED,
        ["un 2: ", "7 m", "5 m", "over by 2 m"],
    ),
    (
        "any(run.length <= 1 m for run in water.run)",
        BREACHED,
        ["low: ", "3 m", "over by 2 m", "run 2: ", "7 m", "over by 6 m"],
    ),
    ("all(run.length <= 9 m for run in water.run)", MET, ["6 m to spare", "2 m to spare"]),
    ("all(run.length < 1 m for run in water.run if run.length > 20 m)", MET, ["none is looked at"]),
    (
        "any(run.length < 1 m for run in water.run if run.length > 20 m)",
        BREACHED,
        ["none is looked at"],
    ),
    (
        "sum(run.length for run in water.run) <= 5 m",
        BREACHED,
        ["otal", "10 m", "5 m", "over by 5 m"],
    ),
    (
        "greatest(run.length for run in water.run) <= 5 m",
        BREACHED,
        ["reatest", "7 m", "over by 2 m"],
    ),
    ("count(run.length > 1 m for run in water.run) <= 1", BREACHED, ["2", "1", "over by 1"]),
    ("count(water.run) <= 1", BREACHED, ["2", "over by 1"]),
    ("least(site.snow_depth, 1 m) > 2 m", BREACHED, ["120 mm", "2 m", "short by 1.88 m"]),
    ("site.snow_depth ^ 2 < 1 cm2", BREACHED, ["1 cm2", "over by 143 cm2"]),
    ("site.snow_depth > site.altitude", UNDECIDED, ["Not known yet: altitude."]),
    (
        "water.volume_vessel.volume / (site.snow_depth - 12 cm) > 1 m2",
        UNDECIDED,
        ["cannot be worked out", "divided by zero"],
    ),
    (
        "water.bypass.opens_at > 1 kPa",
        UNDECIDED,
        ["cannot be worked out", "there is no water.bypass"],
    ),
]


@pytest.mark.parametrize(("requires", "verdict", "parts"), SAID, ids=[each[0] for each in SAID])
def test_a_statement_says_what_was_found_with_its_numbers(
    tmp_path: Path, requires: str, verdict: Verdict, parts: list[str]
) -> None:
    found = finding(tmp_path, requires)
    assert found.verdict is verdict
    at = 0
    for part in parts:
        assert part in found.statement[at:], found.statement
        at = found.statement.index(part, at) + len(part)
    assert found.statement[0] == found.statement[0].upper()
    assert found.statement.endswith(".") and not found.statement.endswith("..")


def test_a_breach_may_have_a_sentence_of_its_own(tmp_path: Path) -> None:
    found = finding(
        tmp_path,
        "placement.height_below >= site.snow_depth",
        breach='"only {placement.height_below} under it; {site.snow_depth + 10 cm} are needed"',
    )
    assert found.statement == "Only 100 mm under it; 220 mm are needed."


def test_that_sentence_is_for_a_breach_alone(tmp_path: Path) -> None:
    found = finding(tmp_path, "site.snow_depth < 1 m", breach='"Too deep!"')
    assert "0.88 m to spare" in found.statement


def test_that_sentence_knows_its_item(tmp_path: Path) -> None:
    found = finding(
        tmp_path,
        "run.length < 5 m",
        {**FACTS, "water.run": [{"name": "flow", "length": "700 cm"}]},
        each='"water.run as run"',
        breach='"This one is {run.length} long!"',
    )
    assert (found.item, found.statement) == ("flow", "This one is 700 cm long!")


def test_what_does_not_apply_says_so(tmp_path: Path) -> None:
    found = finding(tmp_path, "true", applies='"site.snow_depth > 1 m"')
    assert found.verdict is Verdict.NOT_APPLICABLE
    assert "does not apply" in found.statement
    assert found.margin is None and not found.open


def test_more_is_never_said_than_a_breach_by_a_hair(tmp_path: Path) -> None:
    found = finding(tmp_path, "placement.height_below * 1.19999 >= site.snow_depth")
    assert "119.999 mm" in found.statement and "short by 0.001 mm" in found.statement
