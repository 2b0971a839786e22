import time

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


def test_a_huge_word_is_given_up_at_once() -> None:
    begin = time.perf_counter()
    assert nearest("a" * 1_000_000, ["a" * 50] * 100) == []
    assert time.perf_counter() - begin < 0.5


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
