"""Size of the unit: part loads, ratings between points and the bivalent temperature.

The part-load ratio of EN 14825 and the shares of its average climate are from memory; the points
between ratings and the crossing were worked out by hand.
"""

from __future__ import annotations

import pytest
from fluids.numerics import brenth, interp
from iapws import IAPWS97

from published.calculated import calculated

# outdoor air [degC]: share of the heat loss in the average climate, -10 degC [%]; EN 14825
PART_LOADS = {-7: 88.5, 2: 53.8, 7: 34.6, 12: 15.4}

NO_HEATING = 16

# the same, of a unit that defrosts weaken near freezing: it is too weak, strong, and weak again
DIP = {-15: 4.5, -7: 9.0, 2: 4.0, 7: 9.4}

# air, flow [degC]: output [kW], of an invented unit
GRID = {
    (-15, 35): 6.1, (-15, 55): 5.4,
    (-7, 35): 7.0, (-7, 55): 6.4,
    (2, 35): 8.1, (2, 55): 7.6,
    (7, 35): 9.4, (7, 55): 9.0,
}  # fmt: skip


def ratings(grid: dict[tuple[int, int], float]) -> list[dict[str, str]]:
    """Return rated points as a unit sheet states them."""
    return [
        {"air": f"{air} degC", "flow": f"{flow} degC", "output": f"{output} kW"}
        for (air, flow), output in grid.items()
    ]


def flat(points: dict[int, float]) -> dict[tuple[int, int], float]:
    """Return outputs by air alone, the same at either flow temperature."""
    return {(air, flow): output for air, output in points.items() for flow in (35, 55)}


def job(
    grid: dict[tuple[int, int], float], air: float, flow: float = 45, loss: float = 8
) -> dict[str, object]:
    """Return the facts that size a unit."""
    return {
        "unit.rating": ratings(grid),
        "site.design_air_temperature": f"{air} degC",
        "water.flow_temperature": f"{flow} degC",
        "building.design_heat_loss": f"{loss} kW",
    }


def kilowatts(quantity: str, given: dict[str, object]) -> float:
    value = calculated(quantity, given)
    assert isinstance(value, float)
    return value / 1000


def between(grid: dict[tuple[int, int], float], air: float, flow: float) -> float:
    """Return the output between four points, by the library one way after the other [kW]."""
    airs = sorted({a for a, _ in grid})
    flows = sorted({f for _, f in grid})
    columns = [interp(air, airs, [grid[a, f] for a in airs]) for f in flows]
    return float(interp(flow, flows, columns))


@pytest.mark.parametrize(("air", "share"), PART_LOADS.items())
def test_part_loads_of_the_average_climate(air: int, share: float) -> None:
    per_kelvin = kilowatts("loss_per_degree", job(GRID, -10, loss=100))
    assert per_kelvin * (NO_HEATING - air) == pytest.approx(share, abs=0.05)


@pytest.mark.parametrize(("air", "output"), [(-3, 7.489), (-2.2, 7.587)])
def test_output_between_two_rated_points(air: float, output: float) -> None:
    given = job(flat({-7: 7.0, 2: 8.1}), air)
    assert kilowatts("capacity_at_design", given) == pytest.approx(output, abs=5e-4)


@pytest.mark.parametrize("air", [-15, -11.3, -7, -3, 0, 2, 6.9, 7])
@pytest.mark.parametrize("flow", [35, 38.5, 45, 55])
def test_output_within_the_grid_agrees_with_the_library(air: float, flow: float) -> None:
    found = kilowatts("capacity_at_design", job(GRID, air, flow))
    assert found == pytest.approx(between(GRID, air, flow), rel=1e-9)


@pytest.mark.parametrize(("air", "flow"), [(-15.1, 45), (7.1, 45), (-3, 34.9), (-3, 55.1)])
def test_nothing_is_read_beyond_the_rated_points(air: float, flow: float) -> None:
    assert calculated("capacity_at_design", job(GRID, air, flow)) is None


def test_bivalent_temperature_of_the_worked_example() -> None:
    given = job(flat({-7: 7.0, 2: 8.1}), -3)
    crossing = calculated("bivalent_temperature", given)
    assert isinstance(crossing, float)
    assert crossing - 273.15 == pytest.approx(-2.059, abs=5e-4)
    there = job(flat({-7: 7.0, 2: 8.1}), crossing - 273.15)
    assert kilowatts("capacity_at_design", there) == pytest.approx(7.604, abs=1e-3)


def test_what_the_worked_example_leaves_to_the_heater() -> None:
    given = job(flat({-7: 7.0, 2: 8.1}), -3)
    assert 8 - kilowatts("capacity_at_design", given) == pytest.approx(0.511, abs=5e-4)
    assert calculated("backup_share", given) == pytest.approx(0.064, abs=5e-4)


@pytest.mark.parametrize("loss", [6.5, 8.0, 9.5, 11.0])
@pytest.mark.parametrize("flow", [35, 41, 55])
def test_bivalent_temperature_agrees_with_a_root_finder(loss: float, flow: float) -> None:
    design = -12

    def spare(air: float) -> float:
        return between(GRID, air, flow) - loss * (NO_HEATING - air) / (NO_HEATING - design)

    crossing = calculated("bivalent_temperature", job(GRID, design, flow, loss))
    assert isinstance(crossing, float)
    assert crossing - 273.15 == pytest.approx(brenth(spare, -15, 7), abs=1e-6)


@pytest.mark.parametrize("loss", [8.5, 9.0, 10.0])
def test_the_warmest_of_several_crossings_counts(loss: float) -> None:
    grid, design = flat(DIP), -12

    def spare(air: float) -> float:
        return between(grid, air, 45) - loss * (NO_HEATING - air) / (NO_HEATING - design)

    assert spare(-15) < 0 < spare(-7)
    crossing = calculated("bivalent_temperature", job(grid, design, 45, loss))
    assert isinstance(crossing, float)
    assert crossing - 273.15 == pytest.approx(brenth(spare, 2, 7), abs=1e-6)


def test_a_start_in_mild_weather_lasts_as_long_as_the_water_takes_heat() -> None:
    given = job(GRID, -3, 45, 6) | {
        "unit.least_output": "4.5 kW",
        "unit.water.content": "5 L",
        "water.temperature_difference": "5 K",
        "water.fluid": "water",
        "water.run": [],
        "water.emitter": [],
        "water.volume_vessel": {"volume": "75 L", "connection": "in series, flow"},
    }
    water = IAPWS97(T=42.5 + 273.15, P=0.2)
    warmed = 0.080 * water.rho * water.cp * 5  # kJ
    too_much = 4.5 - 6 * (NO_HEATING - 7) / (NO_HEATING + 3)
    assert calculated("run_in_mild_weather", given) == pytest.approx(warmed / too_much, rel=5e-4)


@pytest.mark.parametrize(("people", "storage"), [(2, 48), (4, 50), (5, 60)])
def test_the_hot_water_of_a_day_takes_a_small_part_of_the_output(people: int, storage: int) -> None:
    given: dict[str, object] = {
        "building.occupants": people,
        "hot_water.cylinder.volume": "210 L",
        "hot_water.storage_temperature": f"{storage} degC",
        "hot_water.cold_temperature": "10 degC",
    }
    # common practice: 1.163 Wh warm a litre by a kelvin
    handy = (36 + 25 * people) * 1.163 * (storage - 10) / 24
    assert calculated("hot_water_power", given) == pytest.approx(handy, rel=0.015)
