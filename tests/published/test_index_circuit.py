"""The head that a circuit needs, against sums by hand with the library `fluids`."""

from __future__ import annotations

from typing import Any

import pytest
from fluids.control_valve import size_control_valve_l
from fluids.friction import one_phase_dP

from published.calculated import calculated
from published.circuits import circuit, water_properties

DENSITY, VISCOSITY = water_properties(42.5)
COPPER, PLASTIC = 1.5e-6, 7e-6


def loss(litres_per_minute: float, bore: float, length: float, roughness: float) -> float:
    """Return the friction loss [Pa] by the library."""
    mass_flow = litres_per_minute / 60000 * DENSITY
    return float(one_phase_dP(mass_flow, DENSITY, VISCOSITY, bore, roughness, L=length))


def two_ways() -> dict[str, Any]:
    """A main of 28 mm, a branch of 22 mm to a radiator, one of 15 mm to a floor of four loops."""
    run = {"loss_coefficient": 0}
    loops = {"pipe": "PE-RT 16 x 2", "count": 4, "longest": "80 m"}
    floor = {"kind": "heated floor", "output": "5 kW", "shut_by": "nothing", "loops": loops}
    radiator = {"kind": "radiator", "output": "3 kW", "shut_by": "thermostatic valve"}
    return {
        **circuit(20),
        "water.run": [
            {**run, "pipe": "copper 28 x 0.9", "length": "24 m", "feeds": ["all"]},
            {**run, "pipe": "copper 22 x 0.9", "length": "12 m", "feeds": ["floor"]},
            {**run, "pipe": "copper 15 x 0.7", "length": "10 m", "feeds": ["radiator"]},
        ],
        "water.emitter": [
            {"name": "floor", **floor},
            {"name": "radiator", "pressure_loss": "0.5 kPa", "valve_kv": "2 m3/h", **radiator},
        ],
        "water.fittings": [
            {"kind": "air separator", "kv": "20 m3/h", "at_unit": True},
            {"kind": "air vent"},
        ],
        "water.volume_vessel": "none",
        "water.filter": {"kv": "8 m3/h"},
        "hot_water.priority_valve": {"pressure_loss": "3 kPa"},
        "unit.water.pump": "built in",
    }


def by_kv(litres_per_minute: float, kv: float) -> float:
    """Return the loss [Pa] of a valve: 1 bar at its Kv [m3/h], growing with flow squared."""
    return 1e5 * (litres_per_minute * 0.06 / kv) ** 2 * DENSITY / 1000


def test_the_worst_way_makes_the_head() -> None:
    main = loss(20, 0.0262, 24, COPPER) + by_kv(20, 20)
    floor = loss(12.5, 0.0202, 12, COPPER) + loss(12.5 / 4, 0.012, 80, PLASTIC)
    radiator = loss(7.5, 0.0136, 10, COPPER) + 500 + by_kv(7.5, 2)
    assert floor > radiator
    index = calculated("index_loss", two_ways())
    assert index == pytest.approx(main + floor, rel=1e-2)
    needed = main + floor + by_kv(20, 8) + 3000
    assert calculated("needed_head", two_ways()) == pytest.approx(needed, rel=1e-2)


def test_a_narrower_valve_moves_the_index_circuit() -> None:
    given = two_ways()
    given["water.emitter"][1]["valve_kv"] = "0.9 m3/h"
    main = loss(20, 0.0262, 24, COPPER) + by_kv(20, 20)
    radiator = loss(7.5, 0.0136, 10, COPPER) + 500 + by_kv(7.5, 0.9)
    assert calculated("index_loss", given) == pytest.approx(main + radiator, rel=1e-2)


def test_a_valve_at_its_kv_loses_one_bar() -> None:
    # The definition of IEC 60534 (from memory); the library sizes by it.
    mass_density = 1000.0
    sized = size_control_valve_l(mass_density, 1e3, 2.2e7, 1e-3, 3e5, 2e5, 6 / 3600)
    assert sized == pytest.approx(6.0, rel=2e-3)
    water = {"water.flow_temperature": "22.5 degC", "water.temperature_difference": "5 K"}
    valve = {"flow": "6 m3/h", "valve_kv": "6 m3/h", "shut_by": "zone valve"}
    given = {**water, "water.fluid": "water", "water.emitter": [valve]}
    found = calculated("emitter_valve_loss", given, "water.emitter")
    assert found == pytest.approx(1e5, rel=2e-3)


@pytest.mark.parametrize(("loss_at_20", "expected"), [(30, 25.54), (40, 23.17), (60, 20.0)])
def test_the_pump_curve_meets_the_square_law(loss_at_20: float, expected: float) -> None:
    # By hand: 60 kPa - 2 kPa/(L/min) (q - 20 L/min) = loss (q / 20 L/min)^2, solved for q.
    q = (-2 + (4 + 4 * loss_at_20 / 400 * 100) ** 0.5) / (2 * loss_at_20 / 400)
    assert q == pytest.approx(expected, abs=0.01)
    curve = [
        {"flow": f"{flow} L/min", "head": f"{head} kPa"}
        for flow, head in ((10, 70), (20, 60), (30, 40))
    ]
    given = {
        "unit.water": {"pump": "built in", "pump_head": curve},
        "water.external_pump": "none",
        "water.flow.heating": "20 L/min",
        "water.pressure_loss": f"{loss_at_20} kPa",
    }
    found = calculated("full_speed_flow", given)
    assert found == pytest.approx(q / 60000, rel=5e-3)  # read linearly between two points
    assert isinstance(found, float)
    assert found <= q / 60000 * (1 + 1e-9)  # on the safe side
