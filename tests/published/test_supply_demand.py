"""Demand of a house with a heat pump, against figures of guidance and plain arithmetic.

The household cooker (10 A, 30 % of the rest, 5 A for a socket outlet) is that of the On-Site Guide
to BS 7671; the other shares of its table are from memory. 60 A, or 13.8 kVA on one phase, is the
limit of the British connection process for homes. States of an interlock are worked out by hand.
"""

from __future__ import annotations

import itertools
import math

import pytest

from published.calculated import calculated
from tundish.job.model.schema import Fact
from tundish.job.schema import job_schema

LOADS = {  # name: current [A] at 230 V
    "outdoor unit": 20.0,
    "backup heater": 10.0,
    "booster heater": 5.0,
    "immersion heater": 2.5,
}


def house(interlock: list[str] | None = None, **electricity: object) -> dict[str, object]:
    """Return a single-phase house with the four loads above."""
    if interlock is not None:
        electricity["interlock"] = interlock
    heater = {"fitted": True, "power": "2.3 kW"}
    return {
        "electricity": {"phases": 1, **electricity},
        "unit.electricity": {"phases": 1, "highest_current": "20 A", "backup_heater": heater},
        "hot_water": {"booster": {"power": "1150 W"}, "immersion": {"power": "575 W"}},
    }


@pytest.mark.parametrize(("socket_outlet", "published"), [(False, 16.0), (True, 21.0)])
def test_the_cooker_of_the_on_site_guide(socket_outlet: bool, published: float) -> None:
    cooker = {"kind": "cooker", "current": "30 A", "socket_outlet": socket_outlet}
    given = {"electricity.existing_load": [cooker]}
    found = calculated("diversified_current", given, "electricity.existing_load")
    assert found == pytest.approx(published)


@pytest.mark.parametrize(
    "kind", ["water heater with thermostat", "storage or floor heating", "vehicle charger"]
)
def test_what_runs_for_hours_has_no_diversity(kind: str) -> None:
    given = {"electricity.existing_load": [{"kind": kind, "current": "32 A"}]}
    assert calculated("diversified_current", given, "electricity.existing_load") == 32.0


def test_circuits_of_sockets_count_the_largest_in_full_and_four_tenths_of_the_others() -> None:
    loads = [{"kind": "sockets", "current": f"{rating} A"} for rating in (20, 32, 16)]
    given = {"electricity": {"phases": 1, "existing_load": loads}}
    assert calculated("demand_before", given) == pytest.approx(32 + 0.4 * (20 + 16))


@pytest.mark.parametrize(
    "interlock", [list(group) for size in range(5) for group in itertools.combinations(LOADS, size)]
)
def test_the_greatest_state_is_that_of_all_ways_to_run(interlock: list[str]) -> None:
    ways = [
        sum(LOADS[name] for name in running)
        for size in range(5)
        for running in itertools.combinations(LOADS, size)
        if sum(name in interlock for name in running) <= 1
    ]
    assert calculated("new_demand", house(interlock)) == pytest.approx(max(ways))
    assert calculated("new_power", house(interlock)) == pytest.approx(230 * max(ways))


def test_without_a_word_on_an_interlock_there_is_no_greatest_state() -> None:
    assert calculated("new_demand", house()) is None
    assert calculated("new_together", house()) == pytest.approx(sum(LOADS.values()))


@pytest.mark.parametrize(
    ("line", "fullest"),
    [("L1", 12 + 10 + 10 + 3000 / 230), ("L2", 12 + 10 + 3000 / 230)],
    ids=["on the line of the backup heater", "on a line of its own"],
)
def test_a_single_phase_load_adds_to_its_own_line_only(line: str, fullest: float) -> None:
    circuits = [
        {"serves": ["outdoor unit"], "phases": 3},
        {"serves": ["backup heater"], "phases": 1, "line": "L1"},
        {"serves": ["booster heater"], "phases": 1, "line": line},
    ]
    given = {
        "electricity": {
            "phases": 3,
            "existing_demand": "12 A",
            "interlock": [],
            "circuit": circuits,
        },
        "unit.electricity": {
            "phases": 3,
            "highest_current": "10 A",
            "backup_heater": {"fitted": True, "phases": 1, "power": "2.3 kW"},
        },
        "hot_water": {"booster": {"phases": 1, "power": "3 kW"}, "immersion": "none"},
    }
    assert calculated("greatest_demand", given) == pytest.approx(fullest, abs=0.0005)


@pytest.mark.parametrize(("phases", "published"), [(1, 13.8e3), (3, math.sqrt(3) * 400 * 60)])
def test_sixty_amperes_of_a_british_home(phases: int, published: float) -> None:
    facts: dict[str, object] = {"electricity": {"phases": phases, "service_fuse": "100 A"}}
    limit = calculated("demand_without_asking", {**facts, "building.use": "dwelling"})
    assert limit == 60.0
    drawn = {"electricity": {"phases": phases, "existing_demand": "60 A"}}
    assert calculated("power_before", drawn) == pytest.approx(published)


def test_no_kind_of_load_is_left_without_a_share() -> None:
    kind = job_schema().find("electricity.existing_load.kind")
    assert isinstance(kind, Fact) and len(kind.choices) > 5
    loads = [{"kind": name, "current": "1 A", "socket_outlet": False} for name in kind.choices]
    given = {"electricity": {"phases": 1, "existing_load": loads}}
    # 1 A of each: lighting counts 0.66 A, everything else is within what counts in full.
    assert calculated("demand_before", given) == pytest.approx(len(loads) - 0.34)
