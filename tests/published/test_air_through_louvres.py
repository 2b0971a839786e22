"""Speed in the gaps of a housing, against pint and by hand."""

from __future__ import annotations

import pint
import pytest

from published.calculated import calculated

UNITS = pint.get_application_registry()

HOUSINGS = [
    # air [m3/h], face of the louvre [m2], its free share, speed [m/s] by hand
    (3600, 2.0, 0.5, 1.0),
    (4320, 1.5, 0.4, 2.0),
    (6000, 1.2, 0.6, 2.315),
    (2500, 0.9, 0.45, 1.715),
]


@pytest.mark.parametrize(("air", "face", "free", "speed"), HOUSINGS)
def test_speed_in_the_gaps(air: float, face: float, free: float, speed: float) -> None:
    area = face * free
    given = {"unit.air_flow": f"{air} m3/h", "placement.free_area": f"{area} m2"}
    in_the_gaps = (air * UNITS("m^3/hour") / (area * UNITS("m^2"))).to("m/s").magnitude
    assert calculated("air_speed_into_enclosure", given) == pytest.approx(in_the_gaps)
    assert calculated("air_speed_into_enclosure", given) == pytest.approx(speed, abs=1e-3)
