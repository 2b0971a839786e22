"""What pipes hold, against the bores of their standards and the geometry of pint's litres."""

from __future__ import annotations

import math

import pint
import pytest

from published.calculated import calculated

LITRES_A_METRE = [
    # EN 1057 copper and EN ISO 15875-2 PEX, sizes from memory; bore = outside less two walls
    ("copper 15 x 0.7", 13.6, 0.1453),
    ("copper 22 x 0.9", 20.2, 0.3205),
    ("copper 28 x 0.9", 26.2, 0.5391),
    ("copper 35 x 1.2", 32.6, 0.8347),
    ("PEX 25 x 2.3", 20.4, 0.3269),
    ("PEX 32 x 4.4", 23.2, 0.4227),
    ("multilayer 26 x 3", 20.0, 0.3142),
]


@pytest.mark.parametrize(("pipe", "bore", "litres"), LITRES_A_METRE)
def test_a_metre_of_pipe_holds_its_bore(pipe: str, bore: float, litres: float) -> None:
    content = calculated(
        "pipe_content", {"water.run": [{"pipe": pipe, "length": "1 m"}]}, "water.run"
    )
    length = pint.UnitRegistry()
    area = math.pi / 4 * (bore * length.mm) ** 2
    assert content == pytest.approx((area * length.m).to("m**3").magnitude, rel=1e-9)
    assert content == pytest.approx(litres / 1000, abs=5e-8)


@pytest.mark.parametrize(
    ("spacing", "litres_a_square_metre"), [(100, 1.13), (150, 0.754), (200, 0.566)]
)
def test_a_floor_of_16_by_2_holds_a_litre_a_square_metre(
    spacing: int, litres_a_square_metre: float
) -> None:
    floor = {
        "kind": "heated floor",
        "loops": {"pipe": "PE-RT 16 x 2", "length": f"{1000 / spacing} m"},
    }
    content = calculated("emitter_content", {"water.emitter": [floor]}, "water.emitter")
    assert content == pytest.approx(litres_a_square_metre / 1000, rel=2e-3)


def test_a_size_with_several_usual_walls_tells_no_content() -> None:
    given = {"water.run": [{"pipe": "PEX 25", "length": "10 m"}]}
    assert calculated("pipe_content", given, "water.run") is None
