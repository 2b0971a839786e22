"""Snow on a hood, against the shape coefficients of EN 1991-1-3, all from memory.

Flat roofs carry 0.8 of the load on the ground, at sheltered places times 1.2. Drifts at an
obstruction weigh as much as snow (2 kN/m3) as high as it, within 0.8 and 2.0 of the load.
"""

from __future__ import annotations

import pytest

from published.calculated import calculated


def _on_hood(load: float, *, drifting: bool) -> float:
    given = {
        "site.ground_snow_load": f"{load} kN/m2",
        "site.drifting": drifting,
        "site.roof_snow_slides": False,
    }
    value = calculated("snow_load_on_hood", given)
    assert isinstance(value, float)
    return value / 1000


@pytest.mark.parametrize("load", [0.4, 0.65, 1.5, 3.0])
def test_it_covers_a_flat_roof_at_a_sheltered_place(load: float) -> None:
    assert 0.8 * 1.2 * load <= _on_hood(load, drifting=False) <= 1.05 * 0.8 * 1.2 * load


@pytest.mark.parametrize("load", [0.4, 0.65, 1.5, 3.0])
@pytest.mark.parametrize("obstruction", [0.2, 0.9, 2.5, 6.0])
def test_it_covers_the_drift_at_an_obstruction(load: float, obstruction: float) -> None:
    shape = min(max(2.0 * obstruction / load, 0.8), 2.0)
    assert _on_hood(load, drifting=True) >= shape * load * (1 - 1e-9)


@pytest.mark.parametrize("load", [0.4, 0.65, 1.5, 3.0])
def test_a_wall_of_a_house_makes_exactly_the_drift_that_is_reckoned(load: float) -> None:
    shape = min(max(2.0 * 6.0 / load, 0.8), 2.0)
    assert _on_hood(load, drifting=True) == pytest.approx(shape * load)
