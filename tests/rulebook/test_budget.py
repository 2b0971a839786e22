"""The worst legal packs and jobs, made small: what they may take is counted, not timed."""

import contextlib
from pathlib import Path
from typing import Any

import pytest

from rulebook.packs import RULE, load
from tundish import Job, assess
from tundish.findings.trials import Trials
from tundish.language.budget.budget import Budget, TooManySteps
from tundish.language.evaluate.session import Session
from tundish.language.operations.table import RowsOfTables
from tundish.rulebook.evaluate.judge import Verdict
from tundish.rulebook.rulebook import Rulebook
from tundish.text.bounds import MOST_EXPLAINED_STEPS_OF_ALL, MOST_STEPS_OF_ALL

CONDITION = '"placement.height_below >= site.snow_depth"'
LOOP = "all(run.length > 0 m for run in water.run)"
PAIRS = "all(all(one.length > 0 m for one in water.run) for two in water.run)"
EACH = 'each = "water.run as run"\n'
OTHER = 'each = "placement.other_units as other"\n'


def rule(requires: str, head: str = "") -> str:
    return head + RULE.partition("[[case]]")[0].replace(CONDITION, f'"{requires}"')


def rules(count: int, requires: str, head: str = "") -> dict[str, str]:
    return {f"snow/r-{number}.toml": rule(requires, head) for number in range(count)}


def quantity_of(path: str, formula: str) -> str:
    return (
        f'[double]\nlabel = "d"\nabout = "a"\nformula = "{formula}"\nunit = "m"\n'
        f'of = "{path} as it"\ncite = [{{ source = "practice" }}]\nreviewed = 2026-11-25\n'
    )


def runs(count: int) -> Job:
    items: list[dict[str, Any]] = [{"length": "1 m", "name": f"run {at}"} for at in range(count)]
    return Job.from_data({"water.run": items})


def bound(monkeypatch: pytest.MonkeyPatch, name: str, value: int) -> None:
    monkeypatch.setattr(f"tundish.rulebook.evaluate.budget.{name}", value)


def verdicts(job: Job, book: Rulebook) -> list[Verdict]:
    return [one.verdict for one in assess(job, book).findings]


def test_steps_are_shared_among_those_that_loop_and_no_others(tmp_path: Path) -> None:
    files = {**rules(40, LOOP), "snow/plain.toml": rule("site.snow_depth > 1 m")}
    assert load(tmp_path, files).budget.steps == MOST_STEPS_OF_ALL // 40


def test_all_rules_together_take_no_more_steps_than_they_may(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Each looks at all pairs of 20 items: 20 * 6 steps outside and 20 * 20 * 3 within.
    bound(monkeypatch, "MOST_STEPS_OF_ALL", 10 * (20 * 6 + 400 * 3))
    book = load(tmp_path / "n", rules(10, PAIRS))
    session = book.session(book.facts(runs(20)).values)
    book.evaluator.ask(session.values, session)
    assert session.budget.spent == 10 * 1320
    assert verdicts(runs(20), book) == [Verdict.MET] * 10
    more = load(tmp_path / "more", rules(11, PAIRS))
    assert verdicts(runs(20), more) == [Verdict.UNDECIDED] * 11
    (finding, *_) = assess(runs(20), more).findings
    assert "takes more steps over these lists than it may" in finding.statement


def test_whatever_they_ask_each_stops_at_its_share(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bound(monkeypatch, "MOST_STEPS_OF_ALL", 10_000)
    book = load(tmp_path, {**rules(5, PAIRS), "snow/short.toml": rule(LOOP)})
    session = book.session(book.facts(runs(200)).values)
    for one in book.rules.values():
        session.budget.begin()
        before = session.budget.spent
        with contextlib.suppress(TooManySteps):
            one.is_met(session.values, session)
        # One loop more may be begun than is paid for, and is not gone through.
        assert session.budget.spent - before <= 10_000 // 6 + 200 * 6
    found = {one.rule: one.verdict for one in assess(runs(200), book).findings}
    assert found.pop("snow/short") is Verdict.MET
    assert set(found.values()) == {Verdict.UNDECIDED}


def test_items_share_the_budget_of_the_rule_that_is_asked_of_each(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = "all(other.length > 0 m for other in water.run)"
    book = load(tmp_path, rules(1, asked, EACH))
    bound(monkeypatch, "MOST_STEPS", 10 * 10 * 3)
    assert verdicts(runs(10), book) == [Verdict.MET] * 10
    assert verdicts(runs(11), book) == [Verdict.UNDECIDED] * 11


def test_findings_on_items_are_bounded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    bound(monkeypatch, "MOST_FINDINGS_OF_ITEMS", 20)
    book = load(tmp_path, rules(2, "run.length > 0 m", EACH))
    assert verdicts(runs(10), book) == [Verdict.MET] * 20
    assert verdicts(runs(11), book) == [Verdict.UNDECIDED] * 2


def test_a_quantity_of_too_many_items_is_not_worked_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    quantity = quantity_of("water.run", "2 * it.length")
    asked = rule("all(run.double > 0 m for run in water.run)")
    book = load(tmp_path, {"snow/a.toml": asked, "snow/quantities.toml": quantity})
    bound(monkeypatch, "MOST_STEPS_OF_ALL", 10 * (50 + 3))
    assert verdicts(runs(10), book) == [Verdict.MET]
    assert verdicts(runs(11), book) == [Verdict.UNDECIDED]


def test_explaining_is_shared_among_findings(tmp_path: Path) -> None:
    book = load(tmp_path, rules(60, "site.snow_depth > 1 m"))
    assert book.budget.explaining({}).steps == MOST_EXPLAINED_STEPS_OF_ALL // 60


def test_of_many_findings_those_on_the_first_items_are_explained(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bound(monkeypatch, "MOST_EXPLAINED_FINDINGS", 10)
    book = load(tmp_path, rules(1, "run.length > 5 m", EACH))
    assert all("1 m" in one.statement for one in assess(runs(10), book).findings)
    told = [one.statement for one in assess(runs(11), book).findings]
    assert all("1 m" in one for one in told[:10])
    assert told[10] == "This is breached; of so many only the first 10 items are explained."


def test_changes_that_mend_are_looked_for_while_there_are_steps_left(tmp_path: Path) -> None:
    book = load(tmp_path, rules(1, LOOP))
    facts = book.facts(runs(10))
    trials = Trials(book, 1)
    assert not trials.are_over
    trials.verdicts(facts, [])
    assert trials.are_over


def test_a_session_begins_with_what_it_may_take() -> None:
    assert Session({}, {}, RowsOfTables({}), Budget(7)).budget.left == 7


def hears(outside: int, inside: int) -> Job:
    """Return a job with some places that hear the unit, each of which hears others."""
    others: list[dict[str, Any]] = [{"name": str(at), "distance": "1 m"} for at in range(inside)]
    places = [{"name": f"place {at}", "also_hears": others} for at in range(outside)]
    return Job.from_data({"placement.hears": places})


def test_items_inside_the_items_of_a_list_count_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = "all(all(it.double > 0 m for it in by.also_hears) for by in placement.hears)"
    files = {
        "snow/a.toml": rule(asked),
        "snow/quantities.toml": quantity_of("placement.hears.also_hears", "2 * it.distance"),
    }
    book = load(tmp_path, files)
    bound(monkeypatch, "MOST_STEPS_OF_ALL", 12 * (50 + 3))
    for job, found in ((hears(3, 4), Verdict.MET), (hears(1, 13), Verdict.UNDECIDED)):
        values = book.facts(job).values
        assert verdicts(job, book) == book.evaluator.verdicts(values) == [found]
    assert book.evaluator.ask(book.facts(hears(3, 4)).values) == (False, [Verdict.MET])


def test_the_evaluator_judges_long_lists_while_nothing_is_barred(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    two = {**rules(1, "run.length > 0 m", EACH), "snow/b.toml": rule("other.distance > 0 m", OTHER)}
    book = load(tmp_path, two)
    bound(monkeypatch, "MOST_FINDINGS_OF_ITEMS", 30)
    assert book.budget.few == 10  # of both lists and something to spare
    for count in (10, 11, 30):
        late, found = book.evaluator.ask(book.facts(runs(count)).values)
        assert not late
        by_name = dict(zip(book.evaluator.names, found, strict=True))
        assert by_name == {"snow/r-0": (Verdict.MET,) * count, "snow/b": Verdict.UNDECIDED}
    assert book.evaluator.ask(book.facts(runs(31)).values) == (True, [None, None])
    assert set(verdicts(runs(31), book)) == {Verdict.UNDECIDED}


def test_whoever_stops_has_paid_for_what_was_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A quantity that two ask for is worked out apart from them, on the account of each.
    of_item = "count(true for one in water.run) * it.length"
    files = {
        "snow/a.toml": rule("run.double > 0 m", EACH),
        "snow/b.toml": rule("run.double > 1 m", EACH),
        "snow/quantities.toml": quantity_of("water.run", of_item),
    }
    book = load(tmp_path, files)
    values = book.facts(runs(12)).values
    session = book.session(values)
    assert book.evaluator.ask(values, session)[0] is False
    assert session.budget.spent == 2 * 12 * 12
    bound(monkeypatch, "MOST_STEPS", 12 * 12 - 1)
    book = load(tmp_path / "again", files)
    session = book.session(values)
    assert book.evaluator.ask(values, session) == (True, [None, None])
    assert session.budget.spent >= 12
