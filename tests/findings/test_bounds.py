"""A job with more items than a rule may look at is judged as far as can be, and says so."""

from pathlib import Path
from typing import Any

import pytest

from findings.judged_job import FACTS, book
from tundish import Job, Verdict, assess

BREACH = "site.snow_depth > 1 m"
PAIRS = "all(all(one.length <= two.length for one in water.run) for two in water.run)"


def test_what_is_too_much_to_explain_is_still_judged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Judging stops at the first pair that fails; explaining would look at all of them.
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_EXPLAINED_STEPS", 100)
    facts = {"water.run": [{"length": f"{size} m"} for size in range(20, 0, -1)]}
    (found,) = assess(Job.from_data(facts), book(tmp_path, PAIRS)).findings
    assert found.verdict is Verdict.BREACHED
    assert "too many items" in found.statement
    assert found.margin is None and not found.inputs


def test_a_breach_sentence_that_takes_too_many_steps_gives_way(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_EXPLAINED_STEPS", 100)
    facts = {**FACTS, "water.run": [{"length": "1 m"}] * 20}
    breach = '"{count(count(one.length > 1 m for one in water.run) > 1 for two in water.run)}"'
    (found,) = assess(Job.from_data(facts), book(tmp_path, BREACH, breach=breach)).findings
    assert "short by 0.88 m" in found.statement


def test_what_is_too_much_to_judge_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_STEPS", 100)
    facts = {"water.run": [{"length": "1 m"}] * 20}
    (found,) = assess(Job.from_data(facts), book(tmp_path, PAIRS)).findings
    assert found.verdict is Verdict.UNDECIDED
    assert "more steps" in found.statement


def test_an_undecided_finding_too_large_to_explain_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_EXPLAINED_STEPS", 100)
    requires = "sum(sum(one.length for one in water.run) for two in water.run) > 1 m"
    facts: dict[str, Any] = {"water.run": [{}] * 20}
    (found,) = assess(Job.from_data(facts), book(tmp_path, requires)).findings
    assert found.verdict is Verdict.UNDECIDED
    assert "too many items" in found.statement


def test_the_figures_of_a_breach_sentence_share_what_is_kept_to_explain_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_EXPLAINED_STEPS", 45)
    facts = {**FACTS, "water.run": [{"length": "1 m"}] * 20}
    figure = "{sum(one.length for one in water.run)}"  # a loop of twenty rounds
    one, two = (
        assess(
            Job.from_data(facts),
            book(tmp_path / str(count), BREACH, breach=f'"{" and ".join([figure] * count)}"'),
        ).findings[0]
        for count in (1, 3)
    )
    assert one.statement == "20 m."
    assert "short by 0.88 m" in two.statement
