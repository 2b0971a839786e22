"""What a pack on top means where a country or an earlier name has a part in it."""

from pathlib import Path

import pytest

from tundish.findings.assess import assess
from tundish.job.job import Job
from tundish.rulebook.rulebook import Rulebook
from tundish.text.problem import Refused

RETIRING = """
title  = "House rules"
retire = [{ rule = "clearances/left", because = "Our units blow sideways." }]
"""

REPLACING = """
title    = "The cable is short"
replaces = "We stay below the usual."
each     = "electricity.circuit as circuit"
requires = "circuit.cable.length <= 50 m"
severity = "fault"
stage    = "design"
because  = "Our house is stricter."
remedy   = "Take a shorter way."
cite     = [{ source = "common-practice" }]
reviewed = 2026-12-01

[[case]]
why     = "short"
given   = { "electricity.circuit" = [{ cable.length = "5 m" }] }
outcome = "met"

[[case]]
why     = "long"
given   = { "electricity.circuit" = [{ cable.length = "60 m" }] }
outcome = "breached"

[[case]]
why     = "not known"
given   = { "electricity.circuit" = [{ name = "unit" }] }
outcome = "undecided"
unknown = ["electricity.circuit[1].cable.length"]
"""


def on_top(folder: Path, files: dict[str, str]) -> Rulebook:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return Rulebook.load(folder)


def test_a_replaced_rule_that_the_country_overrides_is_told_of(tmp_path: Path) -> None:
    rulebook = on_top(tmp_path, {"cable-sizing/voltage-drop.toml": REPLACING})
    job = Job.from_data({"job.region": "GB"})
    assert assess(job, rulebook).silent == (
        "'cable-sizing/voltage-drop' of your pack is not asked in GB: "
        "'cable-sizing/voltage-drop-by-tables' is asked instead.",
    )
    assert assess(Job.from_data({"job.region": "FR"}), rulebook).silent == ()
    assert assess(job).silent == ()


@pytest.mark.parametrize(
    ("files", "purpose"),
    [
        ({"pack.toml": RETIRING}, "retire"),
        ({"clearances/left.toml": REPLACING}, "replace"),
    ],
)
def test_a_name_that_is_an_item_today_is_refused_with_what_to_do(
    tmp_path: Path, files: dict[str, str], purpose: str
) -> None:
    with pytest.raises(Refused, match="is the item 'left' of 'clearances/") as refused:
        on_top(tmp_path, files)
    assert f"no rule of its own to {purpose}." in str(refused.value)


def test_a_rename_leaves_the_first_name_of_a_finding_the_same() -> None:
    for rule in Rulebook.built_in().rules.values():
        names = rule.former_names.items()
        for former, item in names:
            first = next(name for name, meant in names if meant in ("", item))
            assert rule.first_name(item or "any")[0] == first, former
        if not names:
            assert rule.first_name("any") == (rule.name, "any")
