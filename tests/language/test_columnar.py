"""The columnar form gives, for many jobs at once, what the compiled form gives for each."""

from __future__ import annotations

import struct
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from language.test_cases import GOOD
from language.test_properties import CONDITIONS, JOBS, LENGTHS, TRUTHS, a_world, deepened, lengths
from language.world import FACTS, World, by_columns, check, computed, world

SLOW = settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
PLAIN = [path for path in FACTS if FACTS[path].kind.name != "items" and "water.run." not in path]


@pytest.mark.parametrize("case", GOOD)
@pytest.mark.parametrize("all_vary", [True, False])
def test_a_case_comes_out_by_columns_too(case: dict[str, Any], all_vary: bool) -> None:
    facts, node = world(case.get("given", {})), check(case["expression"])
    nothing_known = World({path: facts.values[path] for path in facts.values if "run" in path})
    if all_vary:
        varying = [path for path in PLAIN if not path.startswith("rod.")]
        worlds = [facts, World({**nothing_known.values, **lists_of(facts)}), facts]
        expected = [computed(node, one) for one in worlds]
        assert by_columns(node, worlds, varying) == expected
    else:
        assert by_columns(node, [facts], []) == [computed(node, facts)]


def lists_of(facts: World) -> dict[str, Any]:
    return {path: value for path, value in facts.values.items() if isinstance(value, list)}


def alike(jobs: list[dict[str, Any]], varying: set[str]) -> list[World]:
    """Make worlds of jobs that have all but the varying facts of the first."""
    worlds = []
    for job in jobs:
        facts = {path: value for path, value in jobs[0].items() if path not in varying}
        worlds.append(World({**facts, **{key: job[key] for key in varying if key in job}}))
    return worlds


def exactly(value: object) -> object:
    """Return a number as its bits, but for the sign of zero, which no comparison sees."""
    return struct.pack("d", value + 0.0) if isinstance(value, float) else value


VARYING = st.sets(st.sampled_from(sorted(set(PLAIN) - {"rod.length"})))


@SLOW
@given(CONDITIONS, st.lists(JOBS, min_size=1, max_size=6), VARYING)
def test_conditions_come_out_alike(
    expression: str, jobs: list[dict[str, Any]], varying: set[str]
) -> None:
    node, worlds = check(expression), alike([a_world(job).values for job in jobs], varying)
    assert by_columns(node, worlds, varying) == [computed(node, one) for one in worlds]


QUANTITIES = lengths(
    TRUTHS, deepened(TRUTHS, 1).flatmap(lambda truth: lengths(st.just(truth), LENGTHS))
)


@SLOW
@given(QUANTITIES, st.lists(JOBS, min_size=1, max_size=6), VARYING)
def test_quantities_come_out_the_same_to_the_last_bit(
    expression: str, jobs: list[dict[str, Any]], varying: set[str]
) -> None:
    node, worlds = check(expression), alike([a_world(job).values for job in jobs], varying)
    found = [exactly(value) for value in by_columns(node, worlds, varying)]
    assert found == [exactly(computed(node, one)) for one in worlds]


NUMBERS = st.one_of(st.none(), st.floats(allow_nan=False, allow_infinity=False, width=64))


@pytest.mark.parametrize(
    "expression",
    [
        "n ^ m",
        "n ^ 2",
        "2 ^ m",
        "whole_above(n) + least(n, m) - greatest(m, n)",
        "exponential(n)",
        "logarithm(absolute(n))",
        "square_root(n)",
        "friction_factor(absolute(n), 0.001)",
        "decibel_ratio(decibels(n))",
        "lookup('density', 0 degC + n * 1 K, m)",
        "lookup('step', n)",
        "interpolate(n * 1 m, run.length, run.length * 2 for run in water.run) / 1 m",
        "interpolate(1 m, run.length, m * 1 m for run in water.run if n > 0) / 1 m",
        "count(run.length > n * 1 m for run in water.run)",
        "greatest(run.length * n for run in water.run if run.open or m > 0) / 1 m",
        "assume(n, m)",
        "if n > m then n else m",
        "if f then n else n",
    ],
)
@given(values=st.lists(st.tuples(NUMBERS, NUMBERS, st.sampled_from([None, True, False]))))
@settings(max_examples=60, deadline=None)
def test_numbers_of_every_size_come_out_the_same_to_the_last_bit(
    expression: str, values: list[tuple[float | None, float | None, bool | None]]
) -> None:
    runs = [{"length": 1.0, "open": True}, {"length": 3.0}, {"length": 2.0, "open": False}]
    node, shared = check(expression), {"water": True, "water.run": runs, "loud": 60.0}
    named = [dict(zip(("n", "m", "f"), (*value,), strict=True)) for value in values] or [{}]
    worlds = [
        World({**shared, **{key: one for key, one in each.items() if one is not None}})
        for each in named
    ]
    found = [exactly(value) for value in by_columns(node, worlds, ["n", "m", "f"])]
    assert found == [exactly(computed(node, one)) for one in worlds]


@pytest.mark.parametrize(
    "expression",
    [
        "name == 'x'",
        "colour != paint",
        "colour in ['red', 'green']",
        "name in ['x', 'y'] or colour == 'blue'",
        "colour in has",
        "'biocide' in has or 'inhibitor' in also",
        "present(water.vessel) and known(water.vessel.volume)",
        "known(name) and known(has)",
        "(if f then colour else paint) == 'red'",
        "start < finish and finish != start",
        "lookup('wall', name) > 1 mm",
        "lookup('rating.kind', a) == name",
        "n in [1, 2]",
        "f == g and f != h",
        "assume(name, colour) == 'x'",
    ],
)
@given(st.data())
@settings(max_examples=60, deadline=None)
def test_facts_of_every_kind_come_out_alike(expression: str, data: st.DataObject) -> None:
    node = check(expression)
    facts = st.fixed_dictionaries({}, optional=OF_KINDS)
    worlds = [World(one) for one in data.draw(st.lists(facts, min_size=1, max_size=8))]
    assert by_columns(node, worlds, sorted(OF_KINDS)) == [computed(node, one) for one in worlds]


TEXTS = st.sampled_from([(), ("biocide",), ("inhibitor", "biocide")])
DAYS = st.sampled_from([739000.0, 739001.0, 739002.0])
OF_KINDS: dict[str, st.SearchStrategy[Any]] = {
    "name": st.sampled_from(["x", "y", "thin", "thick", "small"]),
    "colour": st.sampled_from(["red", "green", "blue"]),
    "paint": st.sampled_from(["red", "white"]),
    "has": TEXTS,
    "also": TEXTS,
    "start": DAYS,
    "finish": DAYS,
    "f": st.booleans(),
    "g": st.booleans(),
    "h": st.booleans(),
    "n": st.sampled_from([1.0, 1.0 + 5e-10, 2.0, 3.0]),
    "a": st.sampled_from([0.5, 1.0, 2.5, 9.0]),
    "water.vessel": st.booleans(),
    "water.vessel.volume": st.sampled_from([0.01, 0.02]),
}
