"""Mutants: what they put wrong, and which cases notice."""

from pathlib import Path

import pytest

from rulebook.packs import PROVISIONS, QUANTITY, RULE, load
from tundish.rulebook.prove.coverage import coverage
from tundish.rulebook.prove.missing_cases import noticing_case, stated_outcome
from tundish.rulebook.prove.run_mutants import MutationRun, run_mutants
from tundish.rulebook.rulebook import Rulebook

EXACT = """
[[case]]
why     = "exactly at the limit"
given   = { "placement.height_below" = "120 mm", "site.snow_depth" = "120 mm" }
outcome = "met"
"""


def book(folder: Path, requires: str = "", cases: str = "", more: str = "") -> Rulebook:
    text = RULE.replace("placement.height_below >= site.snow_depth", requires or "?")
    text = (RULE if not requires else text).replace("[[case]]", f"{more}[[case]]", 1) + cases
    return load(folder, {"snow/base.toml": text, "snow/quantities.toml": QUANTITY})


def trial(rulebook: Rulebook) -> MutationRun:
    return run_mutants(rulebook.rules["snow/base"], rulebook)


def changes(found: MutationRun) -> set[str]:
    return {one.mutant.change.rpartition(": ")[2] for one in found.survivors}


def test_a_limit_that_no_case_stands_at_is_noticed_missing(tmp_path: Path) -> None:
    assert changes(trial(book(tmp_path))) == {">= becomes >"}


def test_a_case_at_the_limit_notices(tmp_path: Path) -> None:
    found = trial(book(tmp_path, cases=EXACT))
    assert (found.survivors, found.mutants > 2) == ((), True)


def test_asking_for_another_fact_than_a_case_names_is_noticed(tmp_path: Path) -> None:
    rule = RULE.replace(
        "placement.height_below >= site.snow_depth",
        "placement.height_below >= (if known(site.snow_depth) then site.snow_depth "
        "else placement.feet.height)",
    ).replace('unknown = ["site.snow_depth"]', 'unknown = ["placement.feet.height"]')
    rulebook = load(tmp_path, {"snow/base.toml": rule, "snow/quantities.toml": QUANTITY})
    assert "always true" not in changes(trial(rulebook))


def test_a_number_is_nudged_either_way(tmp_path: Path) -> None:
    far = book(tmp_path, "placement.height_below >= 0.9 * site.snow_depth")
    assert {"2 % more", "2 % less"} <= changes(trial(far))


def test_a_term_that_no_case_needs_is_noticed(tmp_path: Path) -> None:
    requires = "placement.height_below >= site.snow_depth and site.snow_depth < 9 m"
    assert "without 'site.snow_depth < 9 m'" in changes(trial(book(tmp_path, requires)))


def test_a_reason_excuses_a_mutant(tmp_path: Path) -> None:
    change = "requires: placement.height_below >= site.snow_depth: >= becomes >"
    more = f'unnoticed = [{{ change = "{change}", because = "No tape is that fine." }}]\n'
    found = trial(book(tmp_path, more=more))
    assert [one.because for one in found.survivors] == ["No tape is that fine."]
    assert (found.unexcused, found.idle_excuses) == ((), ())


def test_an_excuse_for_nothing_is_told(tmp_path: Path) -> None:
    more = 'unnoticed = [{ change = "requires: nothing", because = "It was so once." }]\n'
    assert trial(book(tmp_path, more=more)).idle_excuses == ("requires: nothing",)


def test_a_case_that_would_notice_is_found(tmp_path: Path) -> None:
    rulebook = book(tmp_path)
    rule = rulebook.rules["snow/base"]
    (survivor,) = trial(rulebook).survivors
    given = noticing_case(rule, survivor.mutant, rulebook)
    assert given is not None
    assert stated_outcome(rule, given, rulebook) == 'outcome = "met"'


def test_quantities_and_parts_have_mutants_too(tmp_path: Path) -> None:
    files = {
        "snow/base.toml": RULE,
        "snow/quantities.toml": QUANTITY,
        "snow/provisions.toml": PROVISIONS,
    }
    rulebook = load(tmp_path, files)
    height = run_mutants(rulebook.quantities["", "spare_height"], rulebook)
    assert height.mutants == 3
    assert not height.survivors
    frame = run_mutants(rulebook.provisions["frame"], rulebook)
    assert frame.mutants > 5


@pytest.mark.parametrize(("cases", "unseen"), [("", ("at it",)), (EXACT, ())])
def test_the_sides_of_a_limit_are_told(tmp_path: Path, cases: str, unseen: tuple[str, ...]) -> None:
    rulebook = book(tmp_path, cases=cases)
    whole, limit = coverage(rulebook.rules["snow/base"], rulebook)
    assert limit.unseen == unseen
    assert (whole.parts, whole.parts_seen, whole.parts_unknown) == (1, 1, 1)


def test_a_part_that_does_not_matter_is_counted(tmp_path: Path) -> None:
    requires = "placement.height_below >= site.snow_depth and site.snow_depth < 9 m"
    rulebook = book(tmp_path, requires)
    whole, *_ = coverage(rulebook.rules["snow/base"], rulebook)
    assert (whole.parts, whole.parts_seen) == (2, 1)
