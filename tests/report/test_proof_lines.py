"""What is said of proving a rulebook."""

import pytest

from tundish.report.page.plain_text import as_plain
from tundish.report.tell.proof import is_proved, proof_lines
from tundish.rulebook.prove.prove import Failure, Proof

GOOD = Proof("placement/snow", "rule", 3, ())
BAD = Proof(
    "height_needed",
    "quantity",
    1,
    (Failure(1, "no snow", "It comes out 100 mm, not 200 mm.", "quantities.toml:9"),),
)
BARE = Proof("a/b", "rule", 0, (Failure(0, "", "No case shows it met.", "a/b.toml"),))


def said(*proofs: Proof) -> str:
    return " ".join(as_plain(proof_lines(proofs)).split())


def test_a_case_that_does_not_hold_is_told_with_its_place() -> None:
    text = said(GOOD, BAD)
    assert "quantity height_needed" in text
    assert "case 1, no snow: It comes out 100 mm, not 200 mm. (quantities.toml:9)" in text
    assert "placement/snow" not in text


def test_a_missing_case_is_told_without_a_number() -> None:
    assert "- No case shows it met. (a/b.toml)" in said(BARE)


def test_the_summary_counts_what_holds_not_and_what_is_missing() -> None:
    assert "Four cases of one rule and one quantity: one case does not hold." in said(GOOD, BAD)
    assert said(GOOD) == "Three cases of one rule: all hold."
    assert "one case is missing" in said(GOOD, BARE)


@pytest.mark.parametrize(("proof", "proved"), [(GOOD, True), (BAD, False), (BARE, False)])
def test_only_what_has_cases_that_hold_is_proved(proof: Proof, proved: bool) -> None:
    assert is_proved(proof) is proved


def test_what_has_no_case_is_not_proved_even_if_nothing_failed() -> None:
    assert not is_proved(Proof("a/b", "rule", 0, ()))
