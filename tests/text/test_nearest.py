from collections.abc import Iterator
from difflib import SequenceMatcher, get_close_matches

import pytest

from tundish.job.schema import job_schema
from tundish.text.nearest import did_you_mean, nearest


def test_the_likest_name_comes_first() -> None:
    assert nearest("snow_dept", ["altitude", "snow_depth", "snow_density"])[0] == "snow_depth"


def test_case_does_not_matter_and_the_right_spelling_is_returned() -> None:
    assert nearest("pex", ["copper", "PEX"]) == ["PEX"]


def test_a_name_that_shares_a_whole_word_is_offered() -> None:
    assert nearest("flow", ["minimum_flow", "content"]) == ["minimum_flow"]


def test_nothing_near_is_nothing_offered() -> None:
    assert did_you_mean("zzz", ["snow_depth"]) == ""


def test_no_more_than_asked_for_are_returned() -> None:
    assert len(nearest("aaa1", ["aaa2", "aaa3", "aaa4"], most=2)) == 2
    assert nearest("aaa1", ["aaa2"], most=0) == []


def test_a_huge_word_is_compared_with_nothing() -> None:
    def names() -> Iterator[str]:
        pytest.fail("a name was read")
        yield ""

    assert nearest("a" * 1_000_000, names()) == []


def test_only_names_that_may_be_nearest_are_compared_in_full(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    compared = []
    ratio = SequenceMatcher.ratio
    monkeypatch.setattr(
        SequenceMatcher, "ratio", lambda self: compared.append(self.a) or ratio(self)
    )
    names = [f"site.snow_{noun}" for noun in ("depth", "load", "melt", "fence", "drift")]
    assert nearest("site.snow_depht", names, most=1) == ["site.snow_depth"]
    assert compared == ["site.snow_depth"]


@pytest.mark.parametrize("most", [1, 2, 3])
@pytest.mark.parametrize("word", ["snow_dept", "unit.mas", "pipe", "x", "floww_minimum", "a b c"])
def test_the_nearest_are_those_of_the_standard_library(word: str, most: int) -> None:
    names = [fact.path for fact in job_schema().facts()]
    close = get_close_matches(word, names, n=most)
    assert nearest(word, names, most) == close or not close


def test_every_name_that_holds_the_word_is_offered_in_their_order() -> None:
    names = ["water", "propylene glycol", "ethylene glycol"]
    assert did_you_mean("Glycol", names) == " Did you mean 'propylene glycol' or 'ethylene glycol'?"


def test_a_likelier_name_is_offered_alone() -> None:
    assert did_you_mean("phase", ["phases", "phase_angle", "third_phase"]).count("'") == 2
    assert did_you_mean("ethylene glycl", ["propylene glycol", "ethylene glycol"]).count("'") == 2


def test_part_of_a_word_is_no_word() -> None:
    assert "or" not in did_you_mean("glyco", ["a glycol", "b glycol"])


def test_a_word_that_too_many_names_hold_brings_one() -> None:
    assert did_you_mean("flow", [f"flow {letter}" for letter in "abcdefgh"]).count("'") == 2
