"""Mending a whole job: few changes, none of which can be left out."""

from pathlib import Path
from typing import Any

from findings.judged_job import FACTS, rule
from rulebook.packs import load
from tundish import Job, Verdict, assess
from tundish.job.changes import changed
from tundish.job.facts import flatten
from tundish.remedy.mend import Mending, mend

HEIGHT = "placement.height_below"
UP = f'"{HEIGHT}"'


def mending(folder: Path, files: dict[str, str], facts: dict[str, Any] | None = None) -> Mending:
    return mend(Job.from_data(FACTS | (facts or {})), load(folder, files))


def test_one_change_may_clear_several_breaches(tmp_path: Path) -> None:
    files = {
        "snow/a.toml": rule(f"{HEIGHT} >= 120 mm", adjust=UP),
        "snow/b.toml": rule(f"{HEIGHT} >= 150 mm", adjust=UP),
        "snow/c.toml": rule(f"{HEIGHT} >= 110 mm"),
    }
    found = mending(tmp_path, files)
    (made,) = found.made
    assert (made.change.path, made.was, made.change.written) == (HEIGHT, "100 mm", "150 mm")
    assert {one.rule for one in made.clears} == {"snow/a", "snow/b", "snow/c"}
    assert not found.left


def test_changes_that_pull_apart_leave_what_is_less_serious(tmp_path: Path) -> None:
    files = {
        "snow/high.toml": rule(f"{HEIGHT} >= 150 mm", adjust=UP, severity='"danger"'),
        "snow/low.toml": rule(f"{HEIGHT} <= 120 mm", adjust=UP, severity='"note"'),
    }
    found = mending(tmp_path, files)
    assert [made.change.written for made in found.made] == ["150 mm"]


def test_what_no_change_clears_is_left(tmp_path: Path) -> None:
    files = {
        "snow/a.toml": rule(f"{HEIGHT} >= 120 mm", adjust=UP),
        "snow/b.toml": rule("site.exposure == 'inland'"),
    }
    found = mending(tmp_path, files)
    assert [one.rule for one in found.left] == ["snow/b"]
    assert len(found.made) == 1


def test_a_sound_job_needs_no_change(tmp_path: Path) -> None:
    found = mending(tmp_path, {"snow/a.toml": rule(f"{HEIGHT} >= 20 mm", adjust=UP)})
    assert (found.made, found.left) == ((), ())


def test_a_change_that_breaks_as_much_as_it_mends_is_not_made(tmp_path: Path) -> None:
    files = {
        "snow/a.toml": rule(f"{HEIGHT} >= 120 mm", adjust=UP),
        "snow/b.toml": rule(f"{HEIGHT} <= 110 mm", adjust=UP),
    }
    found = mending(tmp_path, files)
    assert not found.made
    assert [one.rule for one in found.left] == ["snow/a"]


def test_the_changes_do_clear_what_they_say(tmp_path: Path) -> None:
    files = {
        "snow/a.toml": rule(f"{HEIGHT} >= site.snow_depth", adjust=UP),
        "snow/run.toml": rule(
            "run.length <= 2 m", each='"water.run as run"', adjust='"water.run.length"'
        ),
    }
    book = load(tmp_path, files)
    job = Job.from_data(FACTS)
    found = mend(job, book)
    facts = changed(flatten(job), [made.change for made in found.made])
    assert len(found.made) == 3
    assert facts.values[HEIGHT] == 0.12
    assert not found.left
    assert assess(job, book).of(Verdict.BREACHED), "the job itself is left as it was"


def test_what_is_waived_is_not_mended(tmp_path: Path) -> None:
    waiver = {"rule": "snow/a", "reason": "r", "by": "designer", "until": "2027-01-01"}
    files = {"snow/a.toml": rule(f"{HEIGHT} >= 120 mm", adjust=UP)}
    found = mending(tmp_path, files, {"waiver": [waiver]})
    assert (found.made, found.left) == ((), ())
