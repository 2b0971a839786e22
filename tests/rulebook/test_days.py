"""Days in a pack that cannot be meant are refused: reviews still to come, editions of no day."""

import datetime
from pathlib import Path

import pytest

from rulebook.packs import PROVISIONS, QUANTITY, RULE, TABLE, load, only_problem
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Refused

FAR = "9999-01-01"


@pytest.mark.parametrize(
    ("name", "text", "line"),
    [
        ("snow/base.toml", RULE, 8),
        ("snow/quantities.toml", QUANTITY, 7),
        ("snow/provisions.toml", PROVISIONS, 10),
        ("tables/ratings.toml", TABLE, 5),
    ],
)
def test_a_review_still_to_come_is_refused(tmp_path: Path, name: str, text: str, line: int) -> None:
    problem = only_problem(
        tmp_path, {"snow/read.toml": RULE, name: text.replace("2026-11-25", FAR, 1)}
    )
    assert (problem.file, problem.line) == (name, line)
    assert problem.sentence == (
        "'reviewed' is 9999-01-01, which is still to come: write the day on which it was last "
        "read against its sources."
    )


@pytest.mark.parametrize(("later", "is_read"), [(0, True), (1, True), (2, False)])
def test_a_review_may_be_of_tomorrow_as_it_is_so_elsewhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, later: int, is_read: bool
) -> None:
    today = datetime.date(2031, 3, 31)
    monkeypatch.setattr("tundish.rulebook.files.days.today", lambda: today)
    day = today + datetime.timedelta(days=later)
    files = {"snow/base.toml": RULE.replace("2026-11-25", day.isoformat())}
    if is_read:
        assert load(tmp_path, files).rules
    else:
        assert "2031-04-02" in only_problem(tmp_path, files).sentence


def test_a_clock_that_is_years_behind_refuses_nothing_that_travels_with_the_program(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tundish.rulebook.files.days.today", lambda: datetime.date(1970, 1, 1))
    assert load(tmp_path, {"snow/base.toml": RULE}).rules


def test_no_review_of_the_built_in_rulebook_is_refused_by_a_clock_that_is_behind() -> None:
    from tundish.rulebook.files.days import _PROGRAM_WRITTEN

    book = Rulebook.built_in()
    held = [*book.rules.values(), *book.quantities.values(), *book.provisions.values()]
    assert max(each.reviewed for each in held) <= _PROGRAM_WRITTEN


def test_what_was_refused_for_its_day_is_not_stored_as_read(tmp_path: Path) -> None:
    load(tmp_path, {"snow/base.toml": RULE})
    text = RULE.replace("2026-11-25", FAR)
    for _ in range(2):
        assert "still to come" in only_problem(tmp_path, {"snow/base.toml": text}).sentence
    assert load(tmp_path, {"snow/base.toml": RULE}).rules


@pytest.mark.parametrize(("name", "text"), [("snow/a.toml", RULE), ("tables/ratings.toml", TABLE)])
def test_what_would_hold_on_no_day_is_refused(tmp_path: Path, name: str, text: str) -> None:
    days = "holds_from = 2026-01-02\nholds_until = 2026-01-01\n"
    problem = only_problem(
        tmp_path, {"snow/read.toml": RULE, name: text.replace("reviewed =", days + "reviewed =")}
    )
    assert (problem.file, problem.key) == (name, "holds_until")
    assert problem.sentence == (
        "It would hold on no day: 'holds_from' is 2026-01-02, after 'holds_until', 2026-01-01."
    )


def test_what_holds_on_one_day_is_read(tmp_path: Path) -> None:
    days = "holds_from = 2026-01-02\nholds_until = 2026-01-02\n"
    assert load(tmp_path, {"snow/a.toml": RULE.replace("reviewed =", days + "reviewed =")}).rules


def test_a_review_still_to_come_is_refused_on_top_of_the_built_in_rulebook(tmp_path: Path) -> None:
    (tmp_path / "snow").mkdir()
    text = RULE.replace("practice", "common-practice").replace("2026-11-25", FAR)
    (tmp_path / "snow" / "base.toml").write_text(text)
    with pytest.raises(Refused, match="still to come") as caught:
        Rulebook.load(tmp_path)
    assert len(caught.value.problems) == 1
