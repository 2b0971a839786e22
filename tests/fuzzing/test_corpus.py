"""What the corpus keeps is read or refused as is promised; each case once broke a promise or
fared as no other did."""

from __future__ import annotations

from random import Random

import pytest

from fuzzing.engines import by_seed
from fuzzing.running import Tried, bounded, cases, read_case
from fuzzing.target import Target
from fuzzing.targets import TARGETS


@pytest.mark.parametrize("name", TARGETS)
def test_the_corpus_is_read_or_refused(name: str) -> None:
    paths = cases(TARGETS[name])
    assert paths
    ways = [TARGETS[name].hold(read_case(path)) for path in paths]
    assert any(way.startswith("accepted") for way in ways)


@pytest.mark.parametrize("name", TARGETS)
def test_a_few_new_inputs_are_too(name: str) -> None:
    tried = Tried(TARGETS[name])
    by_seed(tried, 60.0, 25, seed=7)
    assert tried.inputs == 25
    assert not tried.findings


def fails_on_x(text: str) -> str:
    if "x" in text and "y" in text:
        raise KeyError(text)
    return "accepted"


def test_what_breaks_a_promise_is_found_and_shortened() -> None:
    tried = Tried(Target("invented", lambda chance: "", fails_on_x))
    for text in ("a" * 40 + "x" + "b" * 50 + "y", "no more than x", "neither"):
        tried.one(text)
    tried.shortened()
    ((text, trace),) = tried.findings.values()
    assert text == "xy"
    assert "KeyError" in trace
    assert tried.fared == {"accepted": 2}


def test_what_takes_too_long_is_found() -> None:
    def waits(text: str) -> str:
        while True:
            pass

    tried = Tried(Target("invented", lambda chance: "", waits, seconds=0.05))
    tried.one("anything")
    assert list(tried.findings) == ["TooSlow"]


def test_the_same_seed_makes_the_same_inputs() -> None:
    for target in TARGETS.values():
        made = [[target.make(chance) for _ in range(5)] for chance in (Random(5), Random(5))]
        assert made[0] == made[1]


def test_an_input_within_its_bounds_fares_as_without() -> None:
    target = TARGETS["units"]
    assert bounded(target, "L/min") == target.hold("L/min") == "accepted"
