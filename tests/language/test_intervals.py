"""Interval evaluation: what it calls certain is so at every point of the ranges."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from language.test_properties import COMPLETE, CONDITIONS, JOBS, a_world
from language.world import FORMULAS, TABLES, World, check, computed, explained, world
from tundish.language.evaluate.ranges.evaluate import RangeEvaluator
from tundish.language.evaluate.ranges.range import Interval, Range

SLOW = settings(
    max_examples=300,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
WIDTHS = st.sampled_from([0.0, 1e-12, 0.01, 0.5, 3.0])
INPUTS = ("a", "b", "c", "water.depth")


def ranged(expression: str, facts: World, spans: dict[str, Interval]) -> Range:
    return RangeEvaluator(facts, FORMULAS, TABLES, spans).range_of(check(expression))


@SLOW
@given(CONDITIONS, JOBS)
@example("a < -(if f then a else b)", {"a": 0.0, "b": 0.2})
def test_without_ranges_it_is_the_explained_form(expression: str, job: dict[str, Any]) -> None:
    facts = a_world(job)
    found = ranged(expression, facts, {})
    if found is None:
        return
    value = explained(check(expression), facts).value
    if value is None:
        # It knows that both ways of an undecided choice end alike, which only ranges can tell:
        # then the rest being known must bear it out.
        value = explained(check(expression), a_world({**COMPLETE, **job})).value
    assert value in (None, found)


@SLOW
@given(
    CONDITIONS.filter(lambda text: "lookup" not in text and "interpolate" not in text),
    JOBS,
    st.lists(WIDTHS, min_size=4, max_size=4),
    st.lists(st.sampled_from([0.0, 0.3, 0.5, 1.0]), min_size=4, max_size=4),
)
def test_what_is_certain_holds_at_every_point(
    expression: str, job: dict[str, Any], widths: list[float], at: list[float]
) -> None:
    facts = a_world(job)
    spans, point = {}, dict(facts.values)
    for name, width, share in zip(INPUTS, widths, at, strict=True):
        value = facts.values.get(name)
        if isinstance(value, float) and abs(value) < 1e100:
            spans[name] = Interval(value - width, value + width)
            point[name] = value - width + 2 * width * share
    found = ranged(expression, facts, spans)
    if found is not None:
        assert computed(check(expression), World(point, names=facts.names)) in (found, None)


@pytest.mark.parametrize(
    ("expression", "spans", "expected"),
    [
        ("a >= 1 m", {"a": (1.0, 1.2)}, True),
        ("a >= 1 m", {"a": (0.99, 1.2)}, None),
        ("a >= 1 m", {"a": (0.8, 0.99)}, False),
        ("a + b > c", {"a": (1.0, 1.1), "b": (1.0, 1.1)}, False),
        ("a + b < c", {"a": (1.0, 1.1), "b": (1.0, 1.1), "c": (2.1, 2.5)}, None),
        ("a / b > 1", {"b": (-0.1, 0.1)}, None),
        ("absolute(a - b) <= 1 m", {"a": (0.5, 2.0)}, True),
        ("absolute(a - b) >= 10 cm", {"a": (0.5, 2.0)}, None),
        ("(a - b) ^ 2 >= 100 cm2", {"a": (0.5, 2.0)}, None),
        ("a == b", {"a": (0.9, 1.1)}, None),
        ("a == b", {"a": (0.9, 1.4), "b": (0.8, 1.1)}, None),
        ("a != b", {"a": (0.9, 1.1)}, None),
        ("a != b", {"a": (1.1, 1.2)}, True),
        ("least(a, b) >= 50 cm", {"a": (0.6, 2.0)}, True),
        ("if a > 1 m then b < 2 m else b < 3 m", {"a": (0.9, 1.1)}, True),
        ("if a > 1 m then b < 2 m else b > 3 m", {"a": (0.9, 1.1)}, None),
        ("both >= 2 m", {"a": (1.0, 1.2)}, True),
        ("both >= 2 m", {"a": (0.9, 1.2)}, None),
        ("lookup('rating.current', a) >= 6 A", {"a": (0.9, 1.2)}, True),
        ("lookup('rating.current', a) >= 10 A", {"a": (0.9, 1.2)}, None),
        ("lookup('rating.current', a) >= 10 A", {"a": (1.1, 9.0)}, None),
        ("assume(water.depth, a) >= 1 m", {"a": (1.0, 1.1)}, True),
        ("known(a) and not (colour == 'green')", {"a": (1.0, 2.0)}, True),
        ("square_root(a * a) > 90 cm", {"a": (1.0, 1.2)}, True),
        ("-a <= -1 m", {"a": (1.0, 1.2)}, True),
    ],
)
def test_a_condition_over_ranges(
    expression: str, spans: dict[str, tuple[float, float]], expected: bool | None
) -> None:
    facts = world({"a": "1 m", "b": "1 m", "c": "3 m", "colour": "red"})
    found = ranged(expression, facts, {name: Interval(*ends) for name, ends in spans.items()})
    assert found is expected


RUNS = {"water.run": [{"length": "1 m", "at": "0 degC"}, {"length": "2 m", "at": "10 degC"}]}


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("sum(run.length for run in water.run) >= 3 m", None),
        ("sum(run.length for run in water.run) >= 2.9 m", True),
        ("greatest(run.length for run in water.run) <= 2.1 m", True),
        ("least(run.length for run in water.run) >= 1 m", True),
        ("all(run.length > 95 cm for run in water.run)", True),
        ("all(run.length > 195 cm for run in water.run)", False),
        ("any(run.length >= 2.05 m for run in water.run)", None),
        ("count(run.length > 1.5 m for run in water.run) == 1", True),
        ("count(run.length >= 2 m for run in water.run) == 1", None),
        ("all_twice <= 6.2 m", True),
        ("interpolate(5 degC, run.at, run.length for run in water.run) >= 1.4 m", True),
        ("interpolate(5 degC, run.at, run.length for run in water.run) >= 1.5 m", None),
    ],
)
def test_loops_over_ranges(expression: str, expected: bool | None) -> None:
    spans = {"water.run[2].length": Interval(1.9, 2.1)}
    assert ranged(expression, world(RUNS), spans) is expected
