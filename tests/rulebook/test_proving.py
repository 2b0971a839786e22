"""A case that does not hold is told, with its place and what came out instead."""

from pathlib import Path

import pytest

from rulebook.packs import QUANTITY, RULE, load
from tundish.rulebook.proving import Failure, Proof, prove

GIVEN = 'given   = { "placement.height_below" = "100 mm", "site.snow_depth" = "120 mm" }'


def proofs(folder: Path, files: dict[str, str]) -> dict[str, Proof]:
    return {proof.name: proof for proof in prove(load(folder, files))}


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
    assert failure.sentence == (
        "It names as unknown site.snow_depth, not placement.height_below."
    )


def test_a_fact_not_named_as_unknown_is_told(tmp_path: Path) -> None:
    failure = only_failure(tmp_path, '["site.snow_depth"]', "[]")
    assert failure.sentence == "It names as unknown site.snow_depth, not nothing."


def test_no_rule_is_proved_on_an_impossible_job(tmp_path: Path) -> None:
    failure = only_failure(tmp_path, '"100 mm", "site', '"-100 mm", "site')
    assert failure.sentence.startswith("Its facts are refused: ")
    assert "height_below" in failure.sentence


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
    assert item_failures(tmp_path, case(runs, "met", "item = 1"), case(runs, "breached", "item = 2")) == []
    wrong = item_failures(tmp_path / "wrong", case(runs, "met", "item = 2"))
    assert wrong == ["It comes out breached, not met."]
    missing = item_failures(tmp_path / "missing", case(runs, "met", "item = 3"))
    assert missing == ["There is no item 3."]


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
        '{ "placement.height_below" = "1 m", "site.snow_depth" = "0 m", "water.volume_vessel" = "none" }',
        "undecided",
        "unknown = []",
    )
    found = proofs(tmp_path, {"snow/base.toml": text + vessel})["snow/base"]
    assert [each.case for each in found.failures] == [1, 3]


def quantity_failure(folder: Path, old: str, new: str) -> str:
    assert old in QUANTITY
    files = {"snow/base.toml": RULE, "snow/quantities.toml": QUANTITY.replace(old, new)}
    (failure,) = proofs(folder, files)["spare_height"].failures
    return failure.sentence


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"180 mm"', '"181 mm"', "It comes out 180 mm, not 181 mm."),
        ('"180 mm"', '"180.001 mm"', "It comes out 180 mm, not 180.001 mm."),
        ('"180 mm"', '"18 L"', "18 L is not a quantity of length."),
        ('"180 mm"', '"18"', "'18' has no unit; write it as '22 L/min' or '150 mm'."),
        ('value = "180 mm"', "", "It comes out 180 mm."),
        (', "site.snow_depth" = "12 cm"', "", "It comes out unknown."),
        ('"12 cm"', '"12 L"', "Its facts are refused"),
        ('value = "180 mm"', 'value = "180 mm"\nunknown = ["site.snow_depth"]', "It names as unknown nothing, not site.snow_depth."),
    ],
)  # fmt: skip
def test_a_wrong_value_of_a_quantity_is_told(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    assert quantity_failure(tmp_path, old, new).startswith(said)


def test_a_value_may_be_rounded_within_what_its_case_says(tmp_path: Path) -> None:
    text = QUANTITY.replace('"180 mm"', '"181 mm"\nwithin = "1 %"')
    found = proofs(tmp_path, {"snow/base.toml": RULE, "snow/quantities.toml": text})
    assert not found["spare_height"].failures


def test_a_quantity_without_a_case_is_told(tmp_path: Path) -> None:
    text = QUANTITY.partition("[[")[0]
    found = proofs(tmp_path, {"snow/base.toml": RULE, "snow/quantities.toml": text})
    (failure,) = found["spare_height"].failures
    assert failure.sentence == "It has no case."


WARMTH = """\
[mid_air]
label    = "air half way"
about    = "Half way between two temperatures."
formula  = "site.design_air_temperature + (20 degC - site.design_air_temperature) / 2"
unit     = "degC"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[mid_air.case]]
why   = "half way"
given = { "site.design_air_temperature" = "-4 degC" }
value = "8.1 degC"
within = "1 %"
"""


def test_a_temperature_is_near_by_its_distance_from_freezing(tmp_path: Path) -> None:
    # 0.1 K is 1.2 % of 8.1 degC, and would be nothing beside 281 K.
    files = {"snow/base.toml": RULE, "warm/quantities.toml": WARMTH}
    (failure,) = proofs(tmp_path, files)["mid_air"].failures
    assert failure.sentence == "It comes out 8 degC, not 8.1 degC."
    files["warm/quantities.toml"] = WARMTH.replace("1 %", "2 %")
    assert not proofs(tmp_path / "wider", files)["mid_air"].failures


WORDY = """\
[depth_word]
label    = "depth of snow in a word"
about    = "Deep or shallow."
formula  = "if site.snow_depth > 1 m then 'deep' else 'shallow'"
gives    = "text"
choices  = ["deep", "shallow"]
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[depth_word.case]]
why   = "deep"
given = { "site.snow_depth" = "2 m" }
value = "deep"

[[depth_word.case]]
why   = "nothing known"
given = {}
unknown = ["site.snow_depth"]

[drifts]
label    = "snow that drifts"
about    = "Whether it drifts."
formula  = "site.snow_depth > 1 m"
gives    = "truth"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[drifts.case]]
why   = "deep"
given = { "site.snow_depth" = "2 m" }
value = true
"""


def test_a_quantity_may_be_a_word_or_a_truth(tmp_path: Path) -> None:
    files = {"snow/base.toml": RULE, "snow/quantities.toml": WORDY}
    found = proofs(tmp_path, files)
    assert not found["depth_word"].failures and not found["drifts"].failures
    files["snow/quantities.toml"] = WORDY.replace('value = "deep"', 'value = "shallow"')
    (failure,) = proofs(tmp_path / "wrong", files)["depth_word"].failures
    assert failure.sentence == "It comes out 'deep', not 'shallow'."
    files["snow/quantities.toml"] = WORDY.replace('"2 m" }\nvalue = true', '"2 m" }')
    (failure,) = proofs(tmp_path / "open", files)["drifts"].failures
    assert failure.sentence == "It comes out True."


OF_RUNS = """\
[twice]
label    = "twice the length"
about    = "There and back."
of       = "water.run as run"
formula  = "run.length * 2"
unit     = "m"
cite     = [{ source = "practice" }]
reviewed = 2026-11-25

[[twice.case]]
why   = "the second run"
given = { "water.run" = [{}, { length = "2 m" }] }
item  = 2
value = "4 m"
"""


def test_a_quantity_of_items_is_proved_on_one_of_them(tmp_path: Path) -> None:
    files = {"snow/base.toml": RULE, "runs/quantities.toml": OF_RUNS}
    assert not proofs(tmp_path, files)["twice"].failures
    files["runs/quantities.toml"] = OF_RUNS.replace("item  = 2", "item = 3")
    (failure,) = proofs(tmp_path / "wrong", files)["twice"].failures
    assert failure.sentence == "There is no item 3 of water.run."


MANY = OF_RUNS.partition("[[")[0].replace('of       = "water.run as run"\n', "").replace(
    "run.length * 2", "sum(sum(one.length for one in water.run) for two in water.run)"
)


def test_a_case_that_takes_too_many_steps_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    runs = "{ \"water.run\" = [" + ", ".join(['{ length = "1 m" }'] * 30) + "] }"
    quantity = MANY + f'[[twice.case]]\nwhy = "many"\ngiven = {runs}\nvalue = "900 m"\n'
    rule = RULE.replace("placement.height_below >= site.snow_depth", "twice > 5 m")
    rule = rule.partition("[[case]]")[0] + case(runs, "undecided", "unknown = []")
    files = {"snow/base.toml": rule, "runs/quantities.toml": quantity}
    assert not proofs(tmp_path / "few", files)["twice"].failures
    monkeypatch.setattr("tundish.language.session.MOST_STEPS", 900)
    found = proofs(tmp_path / "many", files)
    assert [each.sentence for each in found["twice"].failures] == [
        "It takes more steps over these lists than it may."
    ]
    assert [each.case for each in found["snow/base"].failures] == [0, 0]


def test_explaining_a_case_may_take_too_many_steps_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    runs = "{ \"water.run\" = [" + ", ".join(["{}"] * 30) + "] }"
    quantity = MANY + f'[[twice.case]]\nwhy = "many"\ngiven = {runs}\nunknown = []\n'
    rule = RULE.replace("placement.height_below >= site.snow_depth", "twice > 5 m")
    rule = rule.partition("[[case]]")[0] + case(runs, "undecided", "unknown = []")
    # The compiled form stops at the first unknown; only the explained one looks at all.
    monkeypatch.setattr("tundish.language.explained.MOST_STEPS", 900)
    found = proofs(tmp_path, {"snow/base.toml": rule, "runs/quantities.toml": quantity})
    told = "It takes more steps over these lists than it may."
    assert told in [each.sentence for each in found["twice"].failures]
    assert told in [each.sentence for each in found["snow/base"].failures]
