"""The discharge pipe of an unvented cylinder, against the table and example of Approved Document G.

The worked example (G 1/2, 6 m, 6 elbows) and the rows of 22 and 28 mm behind G 1/2 are as printed;
the other rows, and the rule of one size up for every 9 m, are from memory.
"""

from __future__ import annotations

import pytest
from fluids import friction_factor

from published.calculated import calculated
from tundish import Verdict
from verdicts import verdict_of

COPPER = {15: 0.7, 22: 0.9, 28: 0.9, 35: 1.2, 42: 1.2, 54: 1.2}
"""Outside diameter and wall of the usual sizes [mm]."""

VALVES = {"G 1/2": 15, "G 3/4": 22, "G 1": 28}
"""Size of the valve, and outside diameter of the pipe right behind it [mm]."""

ELBOWS = {22: 0.8, 28: 1.0, 35: 1.4, 42: 1.7, 54: 2.3}
"""Outside diameter [mm]: straight pipe that an elbow counts as [m]."""

RULE = "hot-water-safety/discharge-resistance"


def discharge(valve: str, diameter: int, length: float = 6, bends: int = 0) -> dict[str, object]:
    """Return the facts of a discharge pipe of copper in Great Britain."""
    return {
        "job.region": "GB",
        "hot_water.cylinder.volume": "200 L",
        "hot_water.relief.bore": valve,
        "hot_water.relief.outlet": {
            "pipe": f"copper {diameter} x {COPPER[diameter]}",
            "length": f"{length} m",
            "bends": bends,
        },
    }


def verdict(given: dict[str, object]) -> Verdict:
    """Return what the rule on length and bends says of it."""
    return verdict_of(RULE, given)


@pytest.mark.parametrize(
    ("diameter", "counts", "allowed", "expected"),
    [(22, 10.8, 9, Verdict.BREACHED), (28, 12.0, 18, Verdict.MET)],
)
def test_the_printed_example(
    diameter: int, counts: float, allowed: float, expected: Verdict
) -> None:
    given = discharge("G 1/2", diameter, 6, 6)
    assert calculated("british_discharge_length", given) == pytest.approx(counts)
    assert calculated("british_longest_discharge", given) == pytest.approx(allowed)
    assert verdict(given) is expected


@pytest.mark.parametrize("valve", VALVES)
def test_a_size_more_for_every_nine_metres(valve: str) -> None:
    sizes = list(COPPER)
    for up in (1, 2, 3):
        diameter = sizes[sizes.index(VALVES[valve]) + up]
        allowed = calculated("british_longest_discharge", discharge(valve, diameter))
        assert allowed == pytest.approx(9 * up)


@pytest.mark.parametrize("valve", VALVES)
def test_a_pipe_no_wider_than_the_first_is_refused_at_any_length(valve: str) -> None:
    for diameter in (size for size in COPPER if size <= VALVES[valve]):
        assert verdict(discharge(valve, diameter, 0.5)) is Verdict.BREACHED


@pytest.mark.parametrize(("diameter", "metres"), ELBOWS.items())
def test_an_elbow_counts_as_printed(diameter: int, metres: float) -> None:
    straight, bent = (
        calculated("british_discharge_length", discharge("G 1/2", diameter, 6, bends))
        for bends in (0, 5)
    )
    assert isinstance(straight, float)
    assert isinstance(bent, float)
    assert bent - straight == pytest.approx(5 * metres)


@pytest.mark.parametrize(("diameter", "metres"), ELBOWS.items())
def test_an_elbow_loses_what_a_tight_copper_elbow_does(diameter: int, metres: float) -> None:
    # Common practice: 0.7 to 1.1 velocity heads; water of 60 degC at about 2 m/s, copper 0.0015 mm.
    bore = (diameter - 2 * COPPER[diameter]) / 1000
    friction = friction_factor(Re=2 * bore / 0.474e-6, eD=1.5e-6 / bore)
    assert 0.65 < friction * metres / bore < 1.1


@pytest.mark.parametrize(("valve", "diameter"), VALVES.items())
def test_the_first_pipe_is_that_of_the_valve(valve: str, diameter: int) -> None:
    rule = "hot-water-safety/discharge-size"
    for size in COPPER:
        given: dict[str, object] = {
            "hot_water.cylinder.volume": "200 L",
            "hot_water.relief.bore": valve,
            "hot_water.relief.outlet.first_pipe": f"copper {size} x {COPPER[size]}",
        }
        assert (verdict_of(rule, given) is Verdict.MET) == (size >= diameter)
