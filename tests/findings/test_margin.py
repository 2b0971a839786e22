from pathlib import Path

import pytest

from findings.judged_job import finding


@pytest.mark.parametrize(
    ("requires", "amount", "share", "value", "limit"),
    [
        ("placement.height_below >= site.snow_depth", "20 mm", -1 / 6, "100 mm", "120 mm"),
        ("site.snow_depth < 200 mm", "80 mm", 0.4, "120 mm", "200 mm"),
        ("site.snow_depth > 200 mm", "80 mm", -0.4, "120 mm", "200 mm"),
        ("site.snow_depth <= 100 mm", "20 mm", -0.2, "120 mm", "100 mm"),
        ("site.snow_depth >= 12 cm", "0 cm", 0.0, "120 mm", "12 cm"),
        ("0.1 m + 0.2 m <= 0.3 m", "0 m", 0.0, "0.3 m", "0.3 m"),
        ("0.3 m >= 0.1 m + 0.2 m", "0 m", 0.0, "0.3 m", "0.3 m"),
        ("site.snow_depth > 0 m", "0.12 m", None, "120 mm", "0 m"),
        ("site.design_air_temperature >= 5 degC", "8 K", None, "-3 degC", "5 degC"),
        ("unit.sound_power.day <= 40 dB", "20 dB", None, "60 dB", "40 dB"),
        ("count(water.run) <= 1", "1", -1.0, "2", "1"),
        ("spare_height >= -10 mm", "10 mm", -1.0, "-20 mm", "-10 mm"),
        # the tightest of all that must hold, the nearest to being met of all that may
        ("site.snow_depth < 1 m and site.snow_depth < 13 cm", "1 cm", 1 / 13, "120 mm", "13 cm"),
        ("site.snow_depth < 5 cm or site.snow_depth < 11 cm", "1 cm", -1 / 11, "120 mm", "11 cm"),
        ("all(run.length <= 5 m for run in water.run)", "2 m", -0.4, "7 m", "5 m"),
        ("any(run.length <= 5 m for run in water.run)", "2 m", 0.4, "3 m", "5 m"),
        ("0 m < site.snow_depth <= 15 cm", "3 cm", 0.2, "120 mm", "15 cm"),
        (
            "if site.snow_depth > 1 cm then site.snow_depth <= 15 cm else false",
            "3 cm",
            0.2,
            "120 mm",
            "15 cm",
        ),
        (
            "site.exposure == 'open shore' and site.snow_depth <= 15 cm",
            "3 cm",
            0.2,
            "120 mm",
            "15 cm",
        ),
        # a distance without a share counts by its sign
        ("site.snow_depth > 0 m and site.snow_depth <= 15 cm", "3 cm", 0.2, "120 mm", "15 cm"),
        (
            "site.design_air_temperature > 5 degC and site.snow_depth <= 15 cm",
            "8 K",
            None,
            "-3 degC",
            "5 degC",
        ),
    ],
)
def test_a_margin_is_the_distance_from_the_limit_that_decides(
    tmp_path: Path, requires: str, amount: str, share: float | None, value: str, limit: str
) -> None:
    margin = finding(tmp_path, requires).margin
    assert margin is not None
    assert (margin.amount, margin.value, margin.limit) == (amount, value, limit)
    assert margin.share == (None if share is None else pytest.approx(share))


@pytest.mark.parametrize(
    "requires",
    [
        "site.exposure == 'open shore'",
        "site.snow_depth == 1 m",
        "'biocide' in water.treatment",
        "present(water.volume_vessel)",
        "not (site.snow_depth > 1 m)",
        "job.date <= job.date",
        "site.snow_depth > site.altitude",
        "all(run.length < 1 m for run in water.run if run.length > 20 m)",
        "if site.altitude > 1 m then site.snow_depth > 1 m else site.snow_depth < 1 m",
    ],
)
def test_no_margin_is_made_up_where_no_limit_decides(tmp_path: Path, requires: str) -> None:
    assert finding(tmp_path, requires).margin is None


@pytest.mark.parametrize("sign", [">=", "<="])
def test_a_share_is_negative_exactly_where_the_limit_is_passed(tmp_path: Path, sign: str) -> None:
    for number, limit in enumerate(("1 mm", "119 mm", "120 mm", "121 mm", "1 m")):
        found = finding(tmp_path / str(number), f"site.snow_depth {sign} {limit}")
        assert found.margin is not None and found.margin.share is not None
        assert (found.margin.share < 0) == (found.verdict == "breached")
