"""Snow depth from the snow load, against pint and the bulk weights of EN 1991-1-3.

The bulk weights (fresh 1.0, settled 2.0, old 2.5 to 3.5, wet 4.0 kN/m3) are from memory.
"""

from __future__ import annotations

import pint
import pytest

from published.calculated import calculated

UNITS = pint.get_application_registry()

METRES = [
    # load [kN/m2], density [kg/m3], depth [m] = load / (density x 9.81 m/s2)
    (0.4, 200, 0.204),
    (0.65, 250, 0.265),
    (1.0, 300, 0.340),
    (1.5, 200, 0.765),
    (2.0, 400, 0.510),
    (3.0, 250, 1.223),
]


@pytest.mark.parametrize(("load", "density", "depth"), METRES)
def test_depth_is_load_by_weight(load: float, density: int, depth: float) -> None:
    given = {"site.ground_snow_load": f"{load} kN/m2", "site.snow_density": f"{density} kg/m3"}
    assert calculated("snow_depth_at_unit", given) == pytest.approx(depth, abs=5e-4)


@pytest.mark.parametrize("load", [0.3, 0.65, 2.0])
def test_standard_gravity_of_an_independent_registry_gives_the_same(load: float) -> None:
    weight = 250 * UNITS.kg / UNITS.m**3 * UNITS.standard_gravity
    depth = (load * UNITS.kN / UNITS.m**2 / weight).to("m").magnitude
    given = {"site.ground_snow_load": f"{load} kN/m2", "site.snow_density": "250 kg/m3"}
    assert calculated("snow_depth_at_unit", given) == pytest.approx(depth, rel=1e-3)


def test_snow_of_unknown_density_lies_deeper_than_settled_snow_of_the_standard() -> None:
    settled = (2.0 * UNITS.kN / UNITS.m**3).to("N/m**3").magnitude
    depth = calculated("snow_depth_at_unit", {"site.ground_snow_load": "1 kN/m2"})
    assert isinstance(depth, float)
    assert 1000 / settled < depth < 1.03 * 1000 / settled


def test_a_stated_depth_stands_before_the_load() -> None:
    given = {"site.snow_depth": "5 cm", "site.ground_snow_load": "3 kN/m2"}
    assert calculated("snow_depth_at_unit", given) == pytest.approx(0.05)


def test_without_depth_or_load_it_is_unknown() -> None:
    assert calculated("snow_depth_at_unit", {}) is None
