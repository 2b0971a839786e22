"""A pack may hold packs of single countries, whose rules hold there alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from rulebook.packs import RULE, load, problems
from tundish import Verdict
from tundish.rulebook.rulebook import Rulebook
from verdicts import verdicts as verdicts_by_row

FILES = {
    "snow/clear.toml": RULE,
    "national/GB/snow/clear-in-britain.toml": RULE,
    "national/DE/snow/clear-in-germany.toml": RULE,
}
IN_THE_SNOW = {"placement.height_below": "100 mm", "site.snow_depth": "120 mm"}


def verdicts(rulebook: Rulebook, region: str | None) -> dict[str, Verdict]:
    by_row = verdicts_by_row(IN_THE_SNOW, rulebook, region)
    return {rule: verdict for (rule, _), verdict in by_row.items()}


def test_a_national_rule_is_named_by_its_topic_and_holds_in_its_country(tmp_path: Path) -> None:
    rulebook = load(tmp_path, FILES)
    assert rulebook.rules["snow/clear"].regions == ()
    assert rulebook.rules["snow/clear-in-britain"].regions == ("GB",)
    found = verdicts(rulebook, "GB")
    assert found["snow/clear"] is Verdict.BREACHED
    assert found["snow/clear-in-britain"] is Verdict.BREACHED
    assert found["snow/clear-in-germany"] is Verdict.NOT_APPLICABLE


def test_without_a_region_a_national_rule_stays_undecided(tmp_path: Path) -> None:
    assert verdicts(load(tmp_path, FILES), None)["snow/clear-in-britain"] is Verdict.UNDECIDED


def test_a_national_rule_names_no_regions_of_its_own(tmp_path: Path) -> None:
    text = RULE.replace("stage ", 'regions  = ["DE"]\nstage ')
    files = {"snow/clear.toml": RULE, "national/GB/snow/other.toml": text}
    (problem,) = problems(tmp_path, files)
    assert "In the pack of GB a rule holds in GB." in problem.sentence


@pytest.mark.parametrize("name", ["Gb", "GBR", "britain"])
def test_a_national_pack_is_named_by_its_code(tmp_path: Path, name: str) -> None:
    files = {"snow/clear.toml": RULE, f"national/{name}/snow/other.toml": RULE}
    (problem,) = problems(tmp_path, files)
    assert "two capitals such as 'GB'" in problem.sentence


def test_a_national_pack_is_of_a_country_there_is(tmp_path: Path) -> None:
    files = {"snow/clear.toml": RULE, "national/UK/snow/other.toml": RULE}
    (problem,) = problems(tmp_path, files)
    assert problem.sentence == "'UK' is no country of ISO 3166-1. Did you mean 'GB'?"


def test_a_pack_may_be_of_a_code_that_is_left_to_users(tmp_path: Path) -> None:
    rulebook = load(tmp_path, {**FILES, "national/ZZ/snow/other.toml": RULE})
    assert verdicts(rulebook, "ZZ")["snow/other"] is Verdict.BREACHED
