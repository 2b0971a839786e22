from pathlib import Path
from typing import Any

import pytest

from rulebook.packs import RULE, load
from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.rulebook.evaluate.judge import Judgement, Verdict, judge
from tundish.rulebook.rulebook import Rulebook

CONDITION = "placement.height_below >= site.snow_depth"


def judged(rulebook: Rulebook, data: dict[str, Any]) -> list[Judgement]:
    facts = flatten(Job.from_data(data))
    (rule,) = rulebook.rules.values()
    return list(judge(rule, facts, rulebook.session(facts.values)))


def verdict(rulebook: Rulebook, data: dict[str, Any]) -> Verdict:
    (judgement,) = judged(rulebook, data)
    return judgement.verdict


CLEAR = {"placement.height_below": "300 mm", "site.snow_depth": "120 mm"}
DEEP = {"placement.height_below": "100 mm", "site.snow_depth": "120 mm"}


def test_a_rule_is_met_breached_or_undecided(tmp_path: Path) -> None:
    book = load(tmp_path, {"snow/base.toml": RULE})
    assert verdict(book, CLEAR) is Verdict.MET
    assert verdict(book, DEEP) is Verdict.BREACHED
    assert verdict(book, {}) is Verdict.UNDECIDED


def test_the_limit_itself_is_met_in_whatever_unit(tmp_path: Path) -> None:
    book = load(tmp_path, {"snow/base.toml": RULE})
    for height in ("120 mm", "12 cm", "0.12 m"):
        assert verdict(book, {**DEEP, "placement.height_below": height}) is Verdict.MET


@pytest.mark.parametrize(
    ("applies", "facts", "expected"),
    [
        ("site.exposure == 'open shore'", {"site.exposure": "open shore"}, Verdict.BREACHED),
        ("site.exposure == 'open shore'", {"site.exposure": "sheltered"}, Verdict.NOT_APPLICABLE),
        # An open question stays open even where the requirement holds or fails.
        ("site.exposure == 'open shore'", {}, Verdict.UNDECIDED),
    ],
)
def test_a_rule_is_asked_where_it_applies(
    tmp_path: Path, applies: str, facts: dict[str, str], expected: Verdict
) -> None:
    text = RULE.replace("requires =", f'applies = "{applies}"\nrequires =')
    book = load(tmp_path, {"snow/base.toml": text})
    if facts.get("site.exposure") == "sheltered":
        choices = book.scope.facts["site.exposure"].kind.choices
        facts = {"site.exposure": next(word for word in choices if word != "open shore")}
    assert verdict(book, {**DEEP, **facts}) is expected


@pytest.mark.parametrize(
    ("region", "expected"),
    [("GB", Verdict.BREACHED), ("FR", Verdict.NOT_APPLICABLE), (None, Verdict.UNDECIDED)],
)
def test_a_rule_holds_in_its_regions(tmp_path: Path, region: str | None, expected: Verdict) -> None:
    book = load(tmp_path, {"snow/base.toml": 'regions = ["GB", "IE"]\n' + RULE})
    facts = DEEP if region is None else {**DEEP, "job.region": region}
    assert verdict(book, facts) is expected


EACH = 'each = "water.run as run"\n' + RULE.replace(CONDITION, "run.length <= 5 m")


def test_each_item_gets_a_judgement_with_its_name(tmp_path: Path) -> None:
    book = load(tmp_path, {"snow/runs.toml": EACH})
    runs = [{"name": "flow", "length": "1 m"}, {"length": "9 m"}, {}]
    found = judged(book, {"water.run": runs})
    assert [(each.verdict, each.position, each.item) for each in found] == [
        (Verdict.MET, 1, "flow"),
        (Verdict.BREACHED, 2, "run 2"),
        (Verdict.UNDECIDED, 3, "run 3"),
    ]


def test_an_empty_list_is_not_applicable_and_an_unknown_one_is_open(tmp_path: Path) -> None:
    book = load(tmp_path, {"snow/runs.toml": EACH})
    assert verdict(book, {"water.run": []}) is Verdict.NOT_APPLICABLE
    (judgement,) = judged(book, {})
    assert (judgement.verdict, judgement.open_list) == (Verdict.UNDECIDED, "water.run")


def test_a_list_of_something_absent_is_not_applicable(tmp_path: Path) -> None:
    text = 'each = "water.frost.antifreeze_valves as valve"\n' + RULE.replace(
        CONDITION, "valve.on == 'flow'"
    )
    book = load(tmp_path, {"snow/valves.toml": text})
    (rule,) = book.rules.values()
    absent = {"water.frost": False}
    found = list(judge(rule, _Absent(absent), book.session(absent)))
    assert [each.verdict for each in found] == [Verdict.NOT_APPLICABLE]


class _Absent:
    """Facts with a group that is known to be absent."""

    def __init__(self, values: dict[str, object]) -> None:
        self.values = values
        self.written: dict[str, str] = {}
        self.names: dict[str, str] = {}


def test_a_rule_that_takes_too_many_steps_is_given_up_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_STEPS", 4 * 3)  # a round compares
    text = RULE.replace(CONDITION, "all(run.length <= 5 m for run in water.run)")
    book = load(tmp_path, {"snow/runs.toml": text})
    assert verdict(book, {"water.run": [{"length": "1 m"}] * 4}) is Verdict.MET
    (judgement,) = judged(book, {"water.run": [{"length": "1 m"}] * 5})
    assert judgement.verdict is Verdict.UNDECIDED
    assert "more steps" in judgement.obstacle


def test_what_a_rule_asks_of_the_whole_job_may_take_too_many_steps_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    applies = "all(run.length <= 5 m for run in water.run)"
    text = RULE.replace("requires =", f'applies = "{applies}"\nrequires =')
    text = 'each = "electricity.circuit as circuit"\n' + text.replace(CONDITION, "true")
    book = load(tmp_path, {"snow/circuits.toml": text})
    long = {"water.run": [{"length": "9 m"}] * 5}
    assert verdict(book, long) is Verdict.NOT_APPLICABLE
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_STEPS", 4 * 3)
    (judgement,) = judged(load(tmp_path, {}), long)
    assert judgement.open_list == "electricity.circuit"


def test_what_one_rule_spends_is_not_missing_to_the_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_STEPS", 4 * 3)  # a round compares
    text = RULE.replace(CONDITION, "all(run.length <= 5 m for run in water.run)")
    book = load(tmp_path, {"snow/a.toml": text, "snow/b.toml": text})
    facts = flatten(Job.from_data({"water.run": [{"length": "1 m"}] * 4}))
    session = book.session(facts.values)
    found = [each for rule in book.rules.values() for each in judge(rule, facts, session)]
    assert [each.verdict for each in found] == [Verdict.MET, Verdict.MET]
