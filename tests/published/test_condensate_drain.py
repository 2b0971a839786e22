"""Condensate and its drain: Manning's formula against fluids, the pit against a run hour by hour.

Also against psychrolib's moist air, and the layers of a pipe against ht. The densities, heats and
viscosity of water near freezing are handbook values.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import psychrolib
import pytest
from fluids.friction import friction_factor
from fluids.open_flow import V_Manning, n_closed_conduit
from ht.conduction import R_cylinder

from published.calculated import calculated

psychrolib.SetUnitSystem(psychrolib.SI)

RATING = {"air": "7 degC", "flow": "35 degC", "output": "8.4 kW", "input": "1.8 kW"}
HEAT = 6600.0
LITRES_PER_MINUTE = 60000.0


def number(name: str, given: Mapping[str, object]) -> float:
    """Return a quantity of the rulebook that is known [SI]."""
    value = calculated(name, given)
    assert isinstance(value, float)
    return value


def pipe(bore: float, fall: float) -> dict[str, object]:
    """Return a condensate pipe of a bore [mm] and a fall [%]."""
    return {
        "placement.condensate.pipe": f"polypropylene {bore + 4:g} x 2",
        "placement.condensate.fall": f"{fall} %",
    }


def half_circle(bore: float, strips: int = 4000) -> tuple[float, float]:
    """Return area and wetted length of the lower half of a circle [m2, m], strip by strip."""
    radius = bore / 2
    step = radius / strips
    depths = [(strip + 0.5) * step for strip in range(strips)]
    area = sum(2 * math.sqrt(radius**2 - depth**2) * step for depth in depths)
    return area, math.pi * radius


# --- the pipe


@pytest.mark.parametrize("fall", [0.5, 2, 5])
@pytest.mark.parametrize("bore", [13.6, 19, 30, 36.4])
def test_a_half_full_pipe_carries_what_the_library_says(bore: float, fall: float) -> None:
    area, wetted = half_circle(bore / 1000)
    speed = V_Manning(Rh=area / wetted, S=fall / 100, n=0.012)
    found = number("condensate_pipe_capacity", pipe(bore, fall))
    assert found == pytest.approx(area * speed, rel=1e-4)


def test_the_roughness_taken_is_that_of_steel_and_rougher_than_plastic_and_copper() -> None:
    # The library's table of Manning's n in closed conduits, normal values; what the formula takes
    # is got back from what the pipe carries.
    bore, fall = 0.03, 0.02
    area, wetted = half_circle(bore)
    carried = number("condensate_pipe_capacity", pipe(30, 2))
    taken = area * V_Manning(Rh=area / wetted, S=fall, n=1) / carried
    assert taken == pytest.approx(n_closed_conduit["Steel"]["Lockbar and welded"][1], rel=1e-4)
    assert taken > n_closed_conduit["Acrylic"]["Smooth"][1]
    assert taken > n_closed_conduit["Brass"]["Smooth"][1]


@pytest.mark.parametrize("fall", [2, 5])
@pytest.mark.parametrize("bore", [19, 30, 36.4])
def test_friction_of_water_near_freezing_lets_no_less_through(bore: float, fall: float) -> None:
    # Darcy and Weisbach with the hydraulic diameter of a half-full pipe, which is its bore, and
    # 0.1 mm of slime; water of 0 degC has a kinematic viscosity of 1.79 mm2/s.
    diameter, viscosity = bore / 1000, 1.79e-6
    speed = 0.3
    for _ in range(60):
        friction = friction_factor(Re=speed * diameter / viscosity, eD=1e-4 / diameter)
        speed = math.sqrt(2 * 9.80665 * diameter * fall / 100 / friction)
    carried = math.pi / 8 * diameter**2 * speed
    found = number("condensate_pipe_capacity", pipe(bore, fall))
    assert 0.6 * carried < found < 1.05 * carried


def test_one_defrost_is_no_matter_for_a_pipe_of_30_mm_and_one_for_a_hose() -> None:
    defrost = {"unit.defrost.frost_mass": "4 kg", "unit.defrost.duration": "4 min"}
    melt = number("meltwater_flow", defrost)
    assert melt * LITRES_PER_MINUTE == pytest.approx(1.0)
    assert number("condensate_pipe_capacity", pipe(30, 2)) > 9 * melt
    assert number("condensate_pipe_capacity", pipe(10, 2)) < melt


def test_a_full_pipe_carries_twice_as_much_as_a_half_full_one() -> None:
    # Both have the same hydraulic radius, a quarter of the bore.
    bore = 0.03
    full = math.pi / 4 * bore**2 * V_Manning(Rh=bore / 4, S=0.02, n=0.012)
    assert full == pytest.approx(2 * number("condensate_pipe_capacity", pipe(30, 2)), rel=1e-6)


# --- the heat that keeps it open


@pytest.mark.parametrize("coldest", [-4, -8, -18])
@pytest.mark.parametrize("diameter", [32, 40, 50])
def test_heat_of_the_pipe_is_that_of_layers_in_a_row(diameter: int, coldest: int) -> None:
    given: dict[str, object] = {
        "placement.condensate.pipe": f"polypropylene {diameter} x 1.8",
        "placement.condensate.length_outdoors": "3 m",
        "site.coldest_air_temperature": f"{coldest} degC",
    }
    outer = diameter / 1000 + 0.026
    foam = R_cylinder(diameter / 1000, outer, 0.04, 3)
    air = 1 / (10 * math.pi * outer * 3)
    insulated = number(
        "heat_against_drain_frost", {**given, "placement.condensate.insulated": True}
    )
    assert insulated == pytest.approx((5 - coldest) / (foam + air), rel=1e-9)
    bare = number("heat_against_drain_frost", {**given, "placement.condensate.insulated": False})
    assert bare == pytest.approx(10 * math.pi * diameter / 1000 * 3 * (5 - coldest), rel=1e-9)
    assert 2.5 < bare / insulated < 3.5


# --- the water that mild air leaves


@pytest.mark.parametrize("altitude", [0, 800, 2000])
@pytest.mark.parametrize("cooling", [7, 10, 12])
@pytest.mark.parametrize("humidity", [70, 87, 95])
def test_condensate_of_mild_air_agrees_with_the_library(
    humidity: int, cooling: int, altitude: int
) -> None:
    pressure = psychrolib.GetStandardAtmPressure(altitude)
    before = psychrolib.GetHumRatioFromRelHum(7, humidity / 100, pressure)
    behind = psychrolib.GetSatHumRatio(7 - cooling, pressure)
    fall = psychrolib.GetMoistAirEnthalpy(7, before)
    fall -= psychrolib.GetMoistAirEnthalpy(7 - cooling, behind)
    given = {
        "unit.rating": [RATING],
        "site.damp_air_humidity": f"{humidity} %",
        "site.altitude": f"{altitude} m",
        "unit.air_cooling": f"{cooling} K",
    }
    expected = HEAT / fall * (before - behind)
    assert number("condensation_rate", given) == pytest.approx(expected, rel=1e-3)


# --- the pit


def left_after(hours: int, inflow: float, seepage: float, defrost: float) -> float:
    """Return the water in a pit [L] at its fullest, filled minute by minute and once by a defrost.

    Args:
        hours: How long the damp weather lasts.
        inflow: What comes [L/h].
        seepage: The most that the ground takes [L/h].
        defrost: What comes at once at the end [L].
    """
    water = 0.0
    for _ in range(hours * 60):
        water = max(0.0, water + inflow / 60 - seepage / 60)
    return water + defrost


@pytest.mark.parametrize(
    ("ground", "millimetres_an_hour"), [("free-draining", 18), ("made ground", 1.8)]
)
@pytest.mark.parametrize(("volume", "depth"), [(60, 500), (120, 600), (300, 600)])
def test_what_the_pit_must_hold_is_what_is_left_in_it_after_a_day(
    ground: str, millimetres_an_hour: float, volume: int, depth: int
) -> None:
    given: dict[str, object] = {
        "site.ground": ground,
        "placement.condensate.soakaway_volume": f"{volume} L",
        "placement.condensate.soakaway_depth": f"{depth} mm",
        "unit.defrost.frost_mass": "2.5 kg",
        "unit.heat_from_air": "1 kW",
        "unit.rating": [RATING],
        "site.damp_air_humidity": "87 %",
        "site.altitude": "0 m",
        "unit.air_cooling": "10 K",
    }
    # 3.587 L/h: 6.6 kW at 2.461 g for every 16.302 kJ, worked out apart.
    floor = volume / depth
    expected = left_after(24, 3.587, floor * millimetres_an_hour, 2.5)
    assert number("soakaway_must_hold", given) * 1000 == pytest.approx(expected, rel=1e-3, abs=0.02)
