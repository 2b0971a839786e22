"""Radiators and heated floors, against the curves of EN 442 and EN 1264 (from memory) and ht."""

from __future__ import annotations

from math import exp, log

import pytest
from ht import LMTD

from published.calculated import calculated

EMITTER = "water.emitter"

# excess temperature [K]: share of the output at 50 K, by the exponent of a panel radiator, 1.3
SHARES = {60: 1.2675, 50: 1.0, 40: 0.7482, 30: 0.5148, 25: 0.4061, 20: 0.3039}

# excess temperature [K]: share of the output at 50 K, by 1.1, common practice of fan convectors
FAN_SHARES = {60: 1.2221, 40: 0.7823, 30: 0.5701, 25: 0.4665}

# how much warmer than the room [K]: what a floor gives at most [W/m2]; EN 1264, from memory
LIMITS = {9: 100, 15: 175}

NARROW = 0.02
"""Difference between flow and return [K] at which every mean is the arithmetic one."""


def radiator(
    flow: float,
    difference: float,
    room: float,
    stated: float = 50,
    output: float = 1,
    kind: str = "radiator",
) -> dict[str, object]:
    """Return the facts of one radiator; its output is stated in kW."""
    emitter = {
        "kind": kind,
        "standard_output": f"{output} kW",
        "standard_difference": f"{stated} K",
    }
    return {
        "water.flow_temperature": f"{flow} degC",
        "water.temperature_difference": f"{difference} K",
        "building.indoor_temperature": f"{room} degC",
        EMITTER: [emitter],
    }


def number(quantity: str, given: dict[str, object]) -> float:
    """Return a quantity of the first emitter [SI]."""
    value = calculated(quantity, given, of=EMITTER)
    assert isinstance(value, float)
    return value


@pytest.mark.parametrize(("excess", "share"), SHARES.items())
def test_shares_of_a_radiator_with_the_usual_exponent(excess: float, share: float) -> None:
    given = radiator(20 + excess + NARROW / 2, NARROW, 20)
    assert number("radiator_output", given) / 1000 == pytest.approx(share, abs=6e-5)


@pytest.mark.parametrize(("excess", "share"), FAN_SHARES.items())
def test_shares_of_a_fan_convector(excess: float, share: float) -> None:
    given = radiator(20 + excess + NARROW / 2, NARROW, 20, kind="fan convector")
    assert number("radiator_output", given) / 1000 == pytest.approx(share, abs=6e-5)


@pytest.mark.parametrize(
    ("flow", "difference", "room"),
    [(75, 10, 20), (55, 10, 20), (50, 5, 21), (45, 5, 20), (45, 4, 18), (35, 5, 24), (70, 30, 20)],
)
def test_excess_temperature_agrees_with_the_library(
    flow: float, difference: float, room: float
) -> None:
    found = number("emitter_excess", radiator(flow, difference, room))
    assert found == pytest.approx(LMTD(flow, flow - difference, room, room), rel=1e-9)


@pytest.mark.parametrize(("flow", "difference"), [(75, 10), (55, 8), (45, 5)])
def test_the_arithmetic_mean_of_the_standard_is_hardly_another(
    flow: float, difference: float
) -> None:
    found = number("emitter_excess", radiator(flow, difference, 20))
    arithmetic = flow - difference / 2 - 20
    assert arithmetic * 0.99 < found < arithmetic


def test_output_stated_for_other_conditions_comes_to_the_same() -> None:
    at_60 = number("radiator_output", radiator(45, 5, 20, stated=60, output=1.2675))
    at_50 = number("radiator_output", radiator(45, 5, 20, stated=50))
    assert at_60 == pytest.approx(at_50, rel=1e-4)


@pytest.mark.parametrize(("over", "heat"), LIMITS.items())
def test_a_floor_at_its_limit_gives_what_the_standard_allows(over: float, heat: float) -> None:
    given: dict[str, object] = {EMITTER: [{"output": f"{heat * 20} W", "area": "20 m2"}]}
    assert number("floor_over_room", given) == pytest.approx(over, rel=5e-3)


@pytest.mark.parametrize("heat", [20, 50, 80, 130])
def test_the_curve_of_floors_runs_back(heat: float) -> None:
    given: dict[str, object] = {EMITTER: [{"output": f"{heat * 15} W", "area": "15 m2"}]}
    over = number("floor_over_room", given)
    assert 8.92 * exp(1.1 * log(over)) == pytest.approx(heat, rel=1e-9)
