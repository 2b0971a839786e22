"""A case of a quantity that does not hold is told, with what came out instead."""

from pathlib import Path

import pytest

from rulebook.packs import QUANTITY, RULE, proofs


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
        ('value = "180 mm"', "", "It comes out 180 mm, not unknown."),
        (
            ', "site.snow_depth" = "12 cm"',
            "",
            "It comes out unknown, not 180 mm: site.snow_depth is not known.",
        ),
        ('"12 cm"', '"12 L"', "Its facts are refused"),
        (
            'value = "180 mm"',
            'value = "180 mm"\nunknown = ["site.snow_depth"]',
            "It names as unknown nothing, not site.snow_depth.",
        ),
    ],
)
def test_a_wrong_value_of_a_quantity_is_told(tmp_path: Path, old: str, new: str, said: str) -> None:
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
    assert failure.sentence == "It comes out true, not unknown."


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
