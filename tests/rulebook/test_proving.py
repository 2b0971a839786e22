"""A case that does not hold is told, with its place and what came out instead."""

from pathlib import Path

import pytest

from rulebook.packs import QUANTITY, RULE, proofs
from tundish.rulebook.prove.prove import Failure, Proof

GIVEN = 'given   = { "placement.height_below" = "100 mm", "site.snow_depth" = "120 mm" }'


def failures(folder: Path, old: str, new: str) -> tuple[Failure, ...]:
    assert old in RULE
    return proofs(folder, {"snow/base.toml": RULE.replace(old, new)})["snow/base"].failures


def only_failure(folder: Path, old: str, new: str) -> Failure:
    (failure,) = failures(folder, old, new)
    return failure


def test_cases_that_hold_prove_a_rule(tmp_path: Path) -> None:
    found = proofs(tmp_path, {"snow/base.toml": RULE, "snow/quantities.toml": QUANTITY})
    assert found["snow/base"] == Proof("snow/base", "rule", 3, ())
    assert found["spare_height"] == Proof("spare_height", "quantity", 1, ())


def test_a_wrong_outcome_is_told_at_its_case(tmp_path: Path) -> None:
    failure = only_failure(tmp_path, GIVEN, GIVEN.replace('"100 mm"', '"120 mm"'))
    assert failure.sentence == "It comes out met, not breached."
    assert (failure.case, failure.why) == (2, "in the snow")
    assert failure.place == f"{tmp_path / 'snow/base.toml'}:15"


def test_a_fact_named_wrongly_as_unknown_is_told(tmp_path: Path) -> None:
    failure = only_failure(tmp_path, '["site.snow_depth"]', '["placement.height_below"]')
    assert failure.sentence == ("It names as unknown site.snow_depth, not placement.height_below.")


def test_a_fact_not_named_as_unknown_is_told(tmp_path: Path) -> None:
    failure = only_failure(tmp_path, '["site.snow_depth"]', "[]")
    assert failure.sentence == "It names as unknown site.snow_depth, not nothing."


def test_a_case_that_stays_undecided_names_what_is_not_known(tmp_path: Path) -> None:
    failure = only_failure(tmp_path, '"placement.height_below" = "300 mm", ', "")
    assert (
        failure.sentence == "It comes out undecided, not met: placement.height_below is not known."
    )
    bare = 'given   = { "placement.height_below" = "300 mm", "site.snow_depth" = "120 mm" }'
    failure = only_failure(tmp_path / "bare", bare, "given = {}")
    assert failure.sentence == (
        "It comes out undecided, not met: placement.height_below and site.snow_depth are not known."
    )


def test_a_case_that_stays_undecided_names_the_group_that_is_said_to_be_absent(
    tmp_path: Path,
) -> None:
    text = RULE.replace(
        "placement.height_below >= site.snow_depth",
        "placement.height_below >= site.snow_depth and water.volume_vessel.volume > 5 L",
    ).replace('"120 mm" }', '"120 mm", "water.volume_vessel" = "none" }', 1)
    failure = proofs(tmp_path, {"snow/base.toml": text})["snow/base"].failures[0]
    assert failure.sentence == "It comes out undecided, not met: there is no water.volume_vessel."


def test_a_list_that_is_not_known_is_named_where_an_item_was_to_be_met(tmp_path: Path) -> None:
    assert item_failures(tmp_path, case("{}", "met")) == [
        "It comes out undecided, not met: water.run is not known."
    ]


def test_a_rule_that_is_not_asked_says_why(tmp_path: Path) -> None:
    wrong = item_failures(tmp_path, case('{ "water.run" = [] }', "met"))
    assert wrong == [
        "It comes out 'not applicable', where the case says 'met': there is nothing in water.run."
    ]


def test_an_item_is_of_no_use_to_a_rule_that_looks_at_no_list(tmp_path: Path) -> None:
    failure = only_failure(tmp_path, 'outcome = "met"', 'outcome = "met"\nitem = 1')
    assert failure.sentence == (
        "The rule looks at no list ('each'), so that its case has no 'item'."
    )


@pytest.mark.parametrize(
    "given",
    [
        '"water.run" = { length = "3 m" }',
        'water.run.length = "3 m"',
        'water = { run = { length = "3 m" } }',
    ],
)
def test_a_list_without_quotes_round_its_path_is_told_where_it_stands(
    tmp_path: Path, given: str
) -> None:
    failure = only_failure(
        tmp_path, 'why     = "higher than the snow"\ngiven   = {', f'why = "x"\ngiven = {{ {given},'
    )
    assert failure.sentence == (
        'Its facts are refused: water.run is a list: write "water.run" = [{ length = ... }], with '
        "its quotes."
    )
    assert failure.place.endswith("base.toml:12")


def test_no_rule_is_proved_on_an_impossible_job(tmp_path: Path) -> None:
    failure = only_failure(tmp_path, '"100 mm", "site', '"-100 mm", "site')
    assert failure.sentence.startswith("Its facts are refused: ")
    assert "height_below" in failure.sentence
    assert failure.place == f"{tmp_path / 'snow/base.toml'}:17"


@pytest.mark.parametrize("outcome", ["met", "breached", "undecided"])
def test_each_outcome_needs_a_case(tmp_path: Path, outcome: str) -> None:
    kept = [case for case in RULE.split("[[case]]")[1:] if f'outcome = "{outcome}"' not in case]
    text = "[[case]]".join([RULE.split("[[case]]")[0], *kept])
    (failure,) = proofs(tmp_path, {"snow/base.toml": text})["snow/base"].failures
    assert failure.sentence == f"No case shows it {outcome}."
    assert failure.case == 0 and failure.place.endswith("base.toml")


ITEMS = (
    RULE.partition("[[case]]")[0]
    .replace("placement.height_below >= site.snow_depth", "run.length <= 5 m")
    .replace("title ", 'each = "water.run as run"\ntitle ')
)


def case(given: str, outcome: str, more: str = "") -> str:
    return f'[[case]]\nwhy = "it shows"\ngiven = {given}\noutcome = "{outcome}"\n{more}\n'


MET, BREACHED, OPEN = (
    case('{ "water.run" = [{ length = "1 m" }] }', "met"),
    case('{ "water.run" = [{ length = "1 m" }, { length = "9 m" }] }', "breached"),
    case('{ "water.run" = [{}] }', "undecided", 'unknown = ["water.run[1].length"]'),
)


def item_failures(folder: Path, *cases: str) -> list[str]:
    text = ITEMS + "".join([MET, BREACHED, OPEN, *cases])
    return [each.sentence for each in proofs(folder, {"snow/run.toml": text})["snow/run"].failures]


def test_the_worst_item_counts_where_none_is_named(tmp_path: Path) -> None:
    assert item_failures(tmp_path) == []


def test_a_case_may_mean_one_item(tmp_path: Path) -> None:
    runs = '{ "water.run" = [{ length = "1 m" }, { length = "9 m" }] }'
    assert (
        item_failures(tmp_path, case(runs, "met", "item = 1"), case(runs, "breached", "item = 2"))
        == []
    )
    wrong = item_failures(tmp_path / "wrong", case(runs, "met", "item = 2"))
    assert wrong == ["It comes out breached, not met."]
    missing = item_failures(tmp_path / "missing", case(runs, "met", "item = 3"))
    assert missing == ["There is no item 3 of water.run."]


def test_a_list_left_out_is_the_unknown(tmp_path: Path) -> None:
    assert item_failures(tmp_path, case("{}", "undecided", 'unknown = ["water.run"]')) == []


def test_an_empty_list_makes_a_rule_not_applicable(tmp_path: Path) -> None:
    empty = '{ "water.run" = [] }'
    assert item_failures(tmp_path, case(empty, "not applicable")) == []
    assert item_failures(tmp_path / "b", case(empty, "not applicable", "unknown = []")) == []


def test_what_stands_in_the_way_is_no_unknown(tmp_path: Path) -> None:
    text = RULE.replace(
        "placement.height_below >= site.snow_depth",
        "placement.height_below >= site.snow_depth and water.volume_vessel.volume > 5 L",
    )
    vessel = case(
        '{ "placement.height_below" = "1 m", "site.snow_depth" = "0 m", '
        '"water.volume_vessel" = "none" }',
        "undecided",
        "unknown = []",
    )
    found = proofs(tmp_path, {"snow/base.toml": text + vessel})["snow/base"]
    assert [each.case for each in found.failures] == [1, 3]


MANY = """\
[twice]
label    = "length times the number of runs"
about    = "Looks at every run for every run."
formula  = "sum(sum(one.length for one in water.run) for two in water.run)"
unit     = "m"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

"""


def test_a_case_that_takes_too_many_steps_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    runs = '{ "water.run" = [' + ", ".join(['{ length = "1 m" }'] * 30) + "] }"
    quantity = MANY + f'[[twice.case]]\nwhy = "many"\ngiven = {runs}\nvalue = "900 m"\n'
    rule = RULE.replace("placement.height_below >= site.snow_depth", "twice > 5 m")
    rule = rule.partition("[[case]]")[0] + case(runs, "undecided", "unknown = []")
    files = {"snow/base.toml": rule, "runs/quantities.toml": quantity}
    assert not proofs(tmp_path / "few", files)["twice"].failures
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_STEPS", 900)
    found = proofs(tmp_path / "many", files)
    assert [each.sentence for each in found["twice"].failures] == [
        "It takes more steps over these lists than it may."
    ]
    assert [each.case for each in found["snow/base"].failures] == [0, 0]


def test_explaining_a_case_may_take_too_many_steps_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    runs = '{ "water.run" = [' + ", ".join(["{}"] * 30) + "] }"
    quantity = MANY + f'[[twice.case]]\nwhy = "many"\ngiven = {runs}\nunknown = []\n'
    rule = RULE.replace("placement.height_below >= site.snow_depth", "twice > 5 m")
    rule = rule.partition("[[case]]")[0] + case(runs, "undecided", "unknown = []")
    # The compiled form stops at the first unknown; only the explained one looks at all.
    monkeypatch.setattr("tundish.rulebook.evaluate.budget.MOST_EXPLAINED_STEPS", 900)
    found = proofs(tmp_path, {"snow/base.toml": rule, "runs/quantities.toml": quantity})
    told = "It takes more steps over these lists than it may."
    assert told in [each.sentence for each in found["twice"].failures]
    assert told in [each.sentence for each in found["snow/base"].failures]
