"""Two assessments compared: findings, facts and figures."""

from pathlib import Path
from typing import Any

from findings.judged_job import FACTS, rule
from rulebook.packs import QUANTITY, load
from tundish import Job, Verdict
from tundish.compare.compare import JobComparison, compare

HEIGHT = "placement.height_below"
FILES = {
    "snow/a.toml": rule(f"{HEIGHT} >= 120 mm"),
    "snow/b.toml": rule(f"{HEIGHT} <= 110 mm"),
    "snow/c.toml": rule(f"{HEIGHT} <= 110 mm or site.altitude > 1 m"),
    "snow/run.toml": rule("run.length <= 5 m", each='"water.run as run"'),
    "snow/quantities.toml": QUANTITY,
}


def compared(folder: Path, before: dict[str, Any], after: dict[str, Any]) -> JobComparison:
    jobs = (Job.from_data(FACTS | facts) for facts in (before, after))
    return compare(*jobs, load(folder, FILES))


def test_a_job_is_like_itself(tmp_path: Path) -> None:
    found = compared(tmp_path, {}, {})
    assert (found.findings, found.inputs, found.quantities) == ((), (), ())


def test_another_unit_is_no_difference(tmp_path: Path) -> None:
    found = compared(tmp_path, {HEIGHT: "100 mm"}, {HEIGHT: "10 cm"})
    assert (found.findings, found.inputs, found.quantities) == ((), (), ())


def test_what_is_gone_new_and_otherwise(tmp_path: Path) -> None:
    found = compared(tmp_path, {}, {HEIGHT: "130 mm"})
    assert [one.rule for one in found.gone] == ["snow/a"]
    assert [one.rule for one in found.new] == ["snow/b"]
    assert [(one.rule, one.was, one.now) for one in found.changed] == [
        ("snow/c", Verdict.MET, Verdict.UNDECIDED)
    ]
    assert [(one.path, one.was, one.now) for one in found.inputs] == [(HEIGHT, "100 mm", "130 mm")]
    assert [(one.path, one.was, one.now) for one in found.quantities] == [
        ("spare_height", "-20 mm", "10 mm")
    ]


def test_a_breach_by_another_figure_is_a_change(tmp_path: Path) -> None:
    found = compared(tmp_path, {}, {HEIGHT: "105 mm"})
    assert [(one.rule, one.was, one.now) for one in found.changed] == [
        ("snow/a", Verdict.BREACHED, Verdict.BREACHED)
    ]


def test_list_items_are_told_apart_by_name(tmp_path: Path) -> None:
    runs = [{"name": "flow", "length": "3 m"}, {"name": "return", "length": "7 m"}]
    found = compared(tmp_path, {"water.run": runs}, {"water.run": runs[::-1]})
    assert (found.findings, found.inputs) == ((), ())
    fewer = compared(tmp_path, {"water.run": runs}, {"water.run": runs[:1]})
    assert [(one.rule, one.item, one.now) for one in fewer.gone] == [("snow/run", "return", None)]
    assert ("water.run[return].length", "7 m", "") in [
        (one.path, one.was, one.now) for one in fewer.inputs
    ]


def test_one_job_under_two_rulebooks(tmp_path: Path) -> None:
    job = Job.from_data(FACTS)
    stricter = FILES | {"snow/b.toml": rule(f"{HEIGHT} <= 90 mm")}
    before, after = load(tmp_path / "a", FILES), load(tmp_path / "b", stricter)
    found = compare(job, job, before, after)
    assert [one.rule for one in found.new] == ["snow/b"]
    assert found.inputs == ()
    assert found.before.rulebook_digest != found.after.rulebook_digest
