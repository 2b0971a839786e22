"""Bores and litres a metre of the usual sizes of pipe."""

from __future__ import annotations

import pytest

from published.calculated import calculated

BORES = [
    # pipe, bore [mm], litres a metre: outside diameter and wall of the standard (from memory)
    ("copper 15", 13.6, 0.1453),  # EN 1057
    ("copper 22", 20.2, 0.3205),
    ("copper 28", 26.2, 0.5391),
    ("copper 35", 32.6, 0.8347),
    ("copper 42", 39.6, 1.2316),
    ("copper 54", 51.6, 2.0912),
    ("copper 22 x 1.0", 20.0, 0.3142),
    ("copper 28 x 1.0", 26.0, 0.5309),
    ("copper 28 x 1.5", 25.0, 0.4909),
    ("copper 35 x 1.5", 32.0, 0.8042),
    ("copper 42 x 1.5", 39.0, 1.1946),
    ("PEX 20 x 1.9", 16.2, 0.2061),  # EN ISO 15875-2, series S5
    ("PEX 25 x 2.3", 20.4, 0.3269),
    ("PEX 32 x 2.9", 26.2, 0.5391),
    ("PEX 40 x 3.7", 32.6, 0.8347),
    ("PEX 16 x 1.8", 12.4, 0.1208),  # series S4
    ("PEX 32 x 3.6", 24.8, 0.4831),
    ("PEX 16 x 2.2", 11.6, 0.1057),  # series S3.2
    ("PEX 25 x 3.5", 18.0, 0.2545),
    ("PEX 40 x 5.5", 29.0, 0.6605),
    ("PE-RT 16 x 2", 12.0, 0.1131),  # common practice
    ("multilayer 20", 16.0, 0.2011),
    ("multilayer 26", 20.0, 0.3142),
    ("multilayer 32", 26.0, 0.5309),
    ("PEX 15", 11.7, 0.1075),  # BS 7291
    ("polybutylene 22", 17.7, 0.2461),
    ("polybutylene 28", 22.5, 0.3976),
    ("steel DN15", 16.1, 0.2036),  # EN 10255, medium series
    ("steel DN20", 21.7, 0.3698),
    ("steel DN25", 27.3, 0.5853),
    ("steel DN32", 36.0, 1.0179),
    ("steel DN40", 41.9, 1.3789),
    ("steel DN50", 53.1, 2.2145),
]


@pytest.mark.parametrize(("pipe", "bore", "content"), BORES)
def test_a_size_has_the_bore_and_content_of_its_standard(
    pipe: str, bore: float, content: float
) -> None:
    given = {"water.run": [{"pipe": pipe, "length": "1 m"}]}
    assert calculated("bore", given, "water.run") == pytest.approx(bore / 1000)
    assert calculated("pipe_content", given, "water.run") == pytest.approx(content / 1000, abs=6e-8)
    to_cylinder = {"hot_water.run": given["water.run"]}
    assert calculated("cylinder_pipe_bore", to_cylinder, "hot_water.run") == pytest.approx(
        bore / 1000
    )


def test_plastic_of_28_mm_carries_a_quarter_less_area_than_copper() -> None:
    copper, plastic = (
        calculated("bore", {"water.run": [{"pipe": pipe}]}, "water.run")
        for pipe in ("copper 28", "PEX 28")
    )
    assert isinstance(copper, float)
    assert isinstance(plastic, float)
    assert 1 - (plastic / copper) ** 2 == pytest.approx(0.26, abs=0.005)


@pytest.mark.parametrize("pipe", ["PEX 25", "PEX DN25", "copper DN25", "copper 27", "steel DN30"])
def test_no_bore_is_guessed(pipe: str) -> None:
    assert calculated("bore", {"water.run": [{"pipe": pipe}]}, "water.run") is None
