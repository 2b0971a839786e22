"""A search for changes that is given up says so, and claims nothing of what it did not try."""

from __future__ import annotations

from pathlib import Path

import pytest

from findings.judged_job import FACTS, book
from tundish import Job, Rulebook, assess
from tundish.findings.trials import Trials
from tundish.remedy.mend import mend
from tundish.report.tell.finding import change_lines
from tundish.report.tell.mending import mending_lines

BREACH = "placement.height_below >= site.snow_depth + 1 m"


@pytest.fixture(name="rulebook")
def breached_rulebook(tmp_path: Path) -> Rulebook:
    return book(tmp_path, BREACH, adjust='"placement.height_below"')


def give_up_after(monkeypatch: pytest.MonkeyPatch, steps: int) -> None:
    for module in ("remedy.mend", "findings.trials"):  # the second is read when it is needed
        name = f"tundish.{module}.Trials"
        monkeypatch.setattr(name, lambda rulebook: Trials(rulebook, steps))


@pytest.mark.parametrize("steps", [1, 3_000])
def test_a_finding_says_that_changes_were_not_looked_for_to_the_end(
    rulebook: Rulebook, monkeypatch: pytest.MonkeyPatch, steps: int
) -> None:
    job = Job.from_data(FACTS)
    (whole,) = assess(job, rulebook, changes=True).findings
    assert whole.changes and not whole.stopped
    give_up_after(monkeypatch, steps)
    (found,) = assess(job, rulebook, changes=True).findings
    assert found.stopped and not found.changes
    (line,) = change_lines(found)
    assert "not looked for to the end" in line.text


def test_mending_says_that_it_was_given_up(
    rulebook: Rulebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = Job.from_data(FACTS)
    assert not mend(job, rulebook).stopped
    give_up_after(monkeypatch, 1)
    found = mend(job, rulebook)
    told = " ".join(line.text for line in mending_lines(found))
    assert found.stopped and found.left
    assert "given up" in told and "other than another figure" not in told
