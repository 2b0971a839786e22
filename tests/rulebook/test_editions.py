"""Editions: rules and tables that hold between two days, chosen by the day of the job."""

import datetime
from pathlib import Path
from typing import Any

import pytest

from rulebook.packs import RULE, load, problems
from tundish import Job, Verdict, assess

OLD = RULE.replace("stage ", "holds_until = 2020-12-31\nstage ").replace(
    ">= site.snow_depth", ">= 0.5 * site.snow_depth"
)
NEW = RULE.replace("stage ", "holds_from = 2021-01-01\nstage ")
JOB: dict[str, Any] = {"placement.height_below": "100 mm", "site.snow_depth": "120 mm"}

TABLE = """\
title    = "Height by kind of ground"
keys     = [{ name = "ground" }]
gives    = [{ name = "height", unit = "mm" }]
cite     = [{ source = "code" }]
reviewed = 2026-11-25
rows     = [["clay", 150]]
"""
OLD_TABLE = TABLE.replace("150", "90").replace(
    "rows ", "edition_of = 'heights'\nholds_until = 2020-12-31\nrows "
)
LOOKED_UP = RULE.replace(">= site.snow_depth", ">= lookup('heights', site.ground)").partition(
    "[[case]]"
)[0]


def verdicts(folder: Path, files: dict[str, str], day: str, **facts: Any) -> dict[str, Verdict]:
    dated = {"job.date": datetime.date.fromisoformat(day)} if day else {}
    found = assess(Job.from_data(JOB | dated | facts), load(folder, files)).findings
    return {one.rule: one.verdict for one in found}


@pytest.mark.parametrize(
    ("day", "old", "new"),
    [
        ("2020-12-31", Verdict.MET, Verdict.NOT_APPLICABLE),
        ("2021-01-01", Verdict.NOT_APPLICABLE, Verdict.BREACHED),
        ("", Verdict.NOT_APPLICABLE, Verdict.BREACHED),
    ],
)
def test_the_day_of_the_job_chooses_the_rule(
    tmp_path: Path, day: str, old: Verdict, new: Verdict
) -> None:
    found = verdicts(tmp_path, {"snow/old.toml": OLD, "snow/new.toml": NEW}, day)
    assert found == {"snow/old": old, "snow/new": new}


def test_nobody_is_asked_for_the_day(tmp_path: Path) -> None:
    found = assess(Job.from_data({}), load(tmp_path, {"snow/new.toml": NEW})).findings
    assert [one.path for one in found[0].open] == ["placement.height_below", "site.snow_depth"]


@pytest.mark.parametrize(
    ("day", "verdict"),
    [
        ("2020-12-31", Verdict.MET),
        ("2021-01-01", Verdict.BREACHED),
        ("", Verdict.BREACHED),
    ],
)
def test_the_day_of_the_job_chooses_the_table(tmp_path: Path, day: str, verdict: Verdict) -> None:
    files = {
        "snow/base.toml": LOOKED_UP,
        "tables/heights.toml": TABLE.replace("rows ", "holds_from = 2021-01-01\nrows "),
        "tables/heights-2010.toml": OLD_TABLE,
    }
    found = verdicts(tmp_path, files, day, **{"site.ground": "clay"})
    assert found == {"snow/base": verdict}


def test_where_no_edition_holds_it_says_so(tmp_path: Path) -> None:
    table = TABLE.replace("rows ", "holds_from = 2021-01-01\nrows ")
    book = load(tmp_path, {"snow/base.toml": LOOKED_UP, "tables/heights.toml": table})
    day = datetime.date(2019, 1, 1)
    job = Job.from_data({**JOB, "site.ground": "clay", "job.date": day})
    (finding,) = assess(job, book).findings
    assert finding.verdict is Verdict.UNDECIDED
    assert "no edition holds on the day of the job" in finding.statement


@pytest.mark.parametrize(
    ("other", "said"),
    [
        (OLD_TABLE.replace("'heights'", "'hights'"), "There is no table 'hights'"),
        (OLD_TABLE.replace('name = "height"', 'name = "size"'), "has the keys and columns of"),
        (OLD_TABLE.replace("2020-12-31", "2021-06-30"), "hold on one day"),
    ],
)
def test_editions_that_do_not_fit_are_refused(tmp_path: Path, other: str, said: str) -> None:
    files = {
        "snow/base.toml": RULE,
        "tables/heights.toml": TABLE.replace("rows ", "holds_from = 2021-01-01\nrows "),
        "tables/heights-2010.toml": other,
    }
    assert any(said in one.sentence for one in problems(tmp_path, files))


def test_a_pack_says_which_format_it_needs(tmp_path: Path) -> None:
    files = {"snow/base.toml": RULE, "pack.toml": 'title = "House rules"\nformat = 2\n'}
    (problem,) = problems(tmp_path, files)
    assert "written for rule format 2; this program reads 1" in problem.sentence
    load(tmp_path / "ok", files | {"pack.toml": 'title = "House rules"\nformat = 1\n'})
