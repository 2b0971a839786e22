"""What is certain whatever unknown facts are is so in every completion of a job."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from language.test_properties import CONDITIONS, JOBS, a_world
from language.world import FACTS, FORMULAS, TABLES, check, computed, started, world
from tundish.groundwork.open_list import OpenList
from tundish.language.evaluate.ranges.evaluate import RangeEvaluator
from tundish.language.evaluate.ranges.range import Choices, Interval, Range
from tundish.language.tree.tree import Value
from tundish.rulebook.model.constraint import Bound

MOST = 5.0
"""No length of this world is below zero or above this [m]."""


class AllOfTheWorld:
    """What the facts of the small world may be."""

    def range_of(self, path: str) -> Range:
        kind = FACTS[path].kind
        if kind.name == "quantity":
            return Interval(0.0, MOST)
        return Choices(kind.choices) if kind.name == "text" and kind.choices else None

    def options(self, path: str) -> Sequence[Value]:
        kind = FACTS[path].kind
        if kind.name == "record":
            return (True, False)
        return (True, False) if kind.name == "truth" else tuple(kind.choices)

    def presence(self, path: str) -> bool | None:
        return None

    def bounds_on(self, path: str) -> Sequence[Bound]:
        return [Bound("<=", "b", "", "")] if path == "c" else []


def certain(expression: str, job: dict[str, Any]) -> Range:
    facts, session = a_world(job), started(a_world(job).values)
    evaluator = RangeEvaluator(
        facts, FORMULAS, TABLES, {}, session=session, possible=AllOfTheWorld()
    )
    return evaluator.range_of(check(expression))


LENGTHS = st.sampled_from([0.0, 0.2, 1.0, 1.5, MOST])
WHOLE_RUN = st.fixed_dictionaries(
    {"length": LENGTHS, "open": st.booleans(), "kind": st.sampled_from(["copper", "steel"])}
)
COMPLETIONS = st.fixed_dictionaries(
    {
        **dict.fromkeys(("a", "b", "c", "water.depth"), LENGTHS),
        **dict.fromkeys(("f", "g", "h", "water", "water.vessel"), st.booleans()),
        "colour": st.sampled_from(["red", "green", "blue"]),
        "has": st.sampled_from([(), ("biocide",), ("inhibitor", "biocide")]),
        "water.run": st.lists(WHOLE_RUN, max_size=2),
    }
)


def completed(job: dict[str, Any], rest: dict[str, Any]) -> dict[str, Any]:
    """Return a job with whatever it does not state."""
    whole = {**rest, **job}
    if any(path.startswith("water.") for path in job):
        whole["water"] = job.get("water", True)  # what is stated in a group says that it is there
    runs, more = whole["water.run"], rest["water.run"]
    full = {"length": 1.0, "open": True, "kind": "steel"}
    items = [{**(more[0] if more else full), **run} for run in runs]
    whole["c"] = whole["c"] if "c" in job else min(whole["c"], whole["b"])
    whole["water.run"] = [*items, *more] if isinstance(runs, OpenList) else items
    return whole


@settings(
    max_examples=200,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(
    CONDITIONS.filter(lambda text: "known(" not in text and "assume(" not in text),
    JOBS,
    st.lists(COMPLETIONS, min_size=1, max_size=4),
)
def test_what_is_certain_is_so_in_every_completion(
    expression: str, job: dict[str, Any], rests: list[dict[str, Any]]
) -> None:
    found = certain(expression, job)
    if found is None:
        return
    for rest in rests:
        assert computed(check(expression), a_world(completed(job, rest))) is found


ONE = {"water.run": [{"length": "3 m"}, "..."]}
TWO = {"water.run": [{}, {"length": "3 m"}]}


@pytest.mark.parametrize(
    ("expression", "given", "expected"),
    [
        ("a >= 0 m", {}, True),
        ("a > 5 m", {}, False),
        ("a <= 1 m", {}, None),
        ("a + b >= 1 m", {"a": "1 m"}, True),
        ("a - b <= 1 m", {"a": "1 m"}, True),
        ("a * b >= 0 m2", {}, True),
        ("a / b >= 0", {"a": "1 m"}, None),
        ("a / b >= 0", {"b": "1 m"}, True),
        ("a ^ 2 <= 25 m2", {}, True),
        ("least(a, b) <= 1 m", {"a": "1 m"}, True),
        ("greatest(a, b) >= 1 m", {"a": "1 m"}, True),
        ("(if f then a else b) >= 0 m", {}, True),
        ("(if f then a else b) >= 1 m", {"a": "1 m", "b": "2 m"}, True),
        ("colour in ['red', 'green', 'blue']", {}, True),
        ("colour == 'red'", {}, None),
        ("sum(run.length for run in water.run) >= 0 m", {}, None),
        ("sum(run.length for run in water.run) >= 0 m", {"water": {}}, None),
        ("sum(run.length for run in water.run) >= 3 m", ONE, True),
        ("sum(run.length for run in water.run) <= 3 m", ONE, None),
        ("sum(run.length for run in water.run if run.open) <= 8 m", TWO, True),
        ("count(water.run) >= 1", {"water.run": [{}, "..."]}, True),
        ("count(run.open for run in water.run) <= 2", {"water.run": [{}, {}]}, True),
        ("count(run.open for run in water.run) >= 1", {"water.run": [{"open": True}, "..."]}, True),
        ("least(run.length for run in water.run) <= 3 m", ONE, True),
        ("greatest(run.length for run in water.run) >= 3 m", ONE, True),
        ("greatest(run.length for run in water.run) <= 5 m", ONE, True),
        ("all(run.length >= 0 m for run in water.run)", {"water.run": [{}, "..."]}, True),
        ("any(run.length >= 0 m for run in water.run)", {"water.run": [{}, "..."]}, True),
        ("both >= 1 m", {"a": "1 m"}, True),
        ("c <= 2 m", {"b": "2 m"}, True),
        ("c <= 2 m", {}, None),
    ],
)
def test_a_condition_over_all_that_may_be(
    expression: str, given: dict[str, Any], expected: bool | None
) -> None:
    facts = world({path: value for path, value in given.items() if path != "water"})
    assert certain(expression, dict(facts.values)) is expected


def test_an_endless_range_has_no_nearly_equal_end() -> None:
    facts = world({})

    class Endless(AllOfTheWorld):
        def range_of(self, path: str) -> Range:
            return Interval(0.0, math.inf)

    evaluator = RangeEvaluator(facts, FORMULAS, TABLES, {}, session=started({}), possible=Endless())
    for expression, expected in {
        "a <= 1 m": None,
        "a == b": None,
        "a * b >= 0 m2": True,
        "a - b <= 0 m": None,
        "a + b >= 0 m": True,
        "a >= b": None,
        "absolute(a - b) >= 0 m": True,
        "square_root(a * b) >= 0 m": True,
    }.items():
        assert evaluator.range_of(check(expression)) is expected, expression
