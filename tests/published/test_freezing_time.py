"""Time to freezing of standing pipes, against an independent heat transfer library and by steps.

The form with the wall of the pipe and the air at its surface is that of ISO 12241, from memory. The
ASHRAE Handbook, Fundamentals, has the same without the two: theta = rho c pi (D1/2)^2 R ln[...].
"""

from __future__ import annotations

from math import log, pi

import pytest
from ht import cylindrical_heat_transfer

from published.calculated import calculated

WATER = 1000 * 4200.0
"""Heat that water holds [J/(m3.K)], round figures."""

COPPER = 3.45e6
"""Heat that copper holds [J/(m3.K)], from memory."""

FOAM = 0.038
FILM = 10.0
START = 10.0

Pipe = tuple[float, float, float, float]
"""Outside diameter, wall and insulation [mm], and the air around [degC]."""

# resistance [m.K/W], ISO time [h], ASHRAE time [h], worked out apart from this program
WORKED: dict[Pipe, tuple[float, float, float]] = {
    (22, 0.9, 13, -10): (3.931, 1.17, 0.85),
    (22, 0.9, 19, -10): (4.733, 1.41, 1.09),
    (28, 0.9, 13, -10): (3.340, 1.63, 1.20),
    (28, 0.9, 19, -5): (4.074, 3.14, 2.48),
    (28, 0.9, 19, -10): (4.074, 1.98, 1.57),
    (28, 0.9, 19, -15): (4.074, 1.46, 1.15),
    (28, 0.9, 25, -10): (4.699, 2.29, 1.87),
    (28, 0.9, 32, -10): (5.328, 2.59, 2.17),
    (35, 1.2, 19, -10): (3.515, 2.67, 2.08),
}


def of_run(quantity: str, pipe: Pipe) -> float:
    """Return a quantity of the rulebook for one insulated copper pipe outdoors [SI]."""
    outside, wall, thickness, air = pipe
    foam = {"thickness": f"{thickness} mm", "conductivity": f"{FOAM} W/(m.K)"}
    run = {"place": "outdoors", "pipe": f"copper {outside} x {wall}", "insulation": foam}
    given = {"site.coldest_air_temperature": f"{air} degC", "water.run": [run]}
    value = calculated(quantity, given, of="water.run")
    assert isinstance(value, float)
    return value


def heat_lost_for_each_kelvin(pipe: Pipe) -> float:
    """Return what the library gives [W/(m.K)], the copper wall included."""
    outside, wall, thickness, air = pipe
    layers = cylindrical_heat_transfer(
        Ti=START + 273.15,
        To=air + 273.15,
        hi=1e9,
        ho=FILM,
        Di=(outside - 2 * wall) / 1000,
        ts=[wall / 1000, thickness / 1000],
        ks=[380.0, FOAM],
    )
    lost = layers["UA"]
    assert isinstance(lost, float)
    return lost


@pytest.mark.parametrize("pipe", WORKED)
def test_resistance_agrees_with_the_library(pipe: Pipe) -> None:
    resistance = of_run("resistance_to_air", pipe)
    assert resistance == pytest.approx(1 / heat_lost_for_each_kelvin(pipe), rel=2e-4)
    assert resistance == pytest.approx(WORKED[pipe][0], abs=0.0006)


@pytest.mark.parametrize("pipe", WORKED)
def test_time_agrees_with_figures_worked_out_apart(pipe: Pipe) -> None:
    assert of_run("freezing_time", pipe) / 3600 == pytest.approx(WORKED[pipe][1], abs=0.006)


@pytest.mark.parametrize("pipe", WORKED)
def test_time_agrees_with_cooling_followed_second_by_second(pipe: Pipe) -> None:
    outside, wall, _, air = pipe
    bore = (outside - 2 * wall) / 1000
    metal = pi * wall / 1000 * (outside - wall) / 1000
    held = WATER * pi / 4 * bore**2 + COPPER * metal
    lost = heat_lost_for_each_kelvin(pipe)
    temperature, seconds = START, 0
    while temperature > 0:
        temperature -= lost * (temperature - air) / held
        seconds += 1
    assert of_run("freezing_time", pipe) == pytest.approx(seconds, rel=2e-3)


@pytest.mark.parametrize("pipe", WORKED)
def test_form_without_wall_and_film_is_shorter(pipe: Pipe) -> None:
    outside, wall, thickness, air = pipe
    bore = (outside - 2 * wall) / 1000
    foam = log((outside + 2 * thickness) / outside) / (2 * pi * FOAM)
    ashrae = WATER * pi * (bore / 2) ** 2 * foam * log((START - air) / (0 - air))
    assert ashrae / 3600 == pytest.approx(WORKED[pipe][2], abs=0.006)
    assert 1.15 < of_run("freezing_time", pipe) / ashrae < 1.40


def test_twice_the_frost_takes_more_than_half_the_time() -> None:
    # ln((10 + 5) / 5) / ln((10 + 10) / 10) = 1.585: time does not fall in proportion to the cold.
    mild, hard = (
        of_run("freezing_time", (28, 0.9, 19, -5)),
        of_run("freezing_time", (28, 0.9, 19, -10)),
    )
    assert mild / hard == pytest.approx(log(3) / log(2), rel=1e-9)
