"""Friction in pipes against the library `fluids`, with water from IAPWS-IF97."""

from __future__ import annotations

from math import pi

import pytest
from fluids.core import Reynolds
from fluids.fittings import Hooper2K, bend_rounded
from fluids.friction import friction_factor, one_phase_dP

from published.calculated import calculated
from published.circuits import circuit, glycol, propylene_properties, water_properties

ROUGHNESS = {"copper": 1.5e-6, "PEX": 7e-6, "steel": 46e-6}
"""Roughness [m] of new pipe, from memory, put into the library; the project has a table."""

ROWS = [
    # pipe, bore [mm], flow [L/min], mean temperature [degC], speed [m/s], Reynolds, factor, Pa/m
    ("copper 22 x 0.9", 20.2, 14.00, 42.5, 0.728, 23394, 0.02509, 326.4),
    ("copper 22 x 0.9", 20.2, 23.16, 42.5, 1.204, 38700, 0.02237, 796.2),
    ("copper 28 x 0.9", 26.2, 23.16, 42.5, 0.716, 29838, 0.023668, 229.5),
    ("copper 28 x 0.9", 26.2, 34.60, 42.5, 1.070, 44576, 0.02163, 468.2),
    ("copper 35 x 1.2", 32.6, 34.60, 42.5, 0.691, 35825, 0.02267, 164.5),
    ("PEX 32 x 2.9", 26.2, 23.16, 42.5, 0.716, 29838, 0.02422, 234.9),
    ("PEX 40 x 3.7", 32.6, 34.60, 42.5, 0.691, 35825, 0.02316, 168.1),
    ("steel DN25", 27.3, 23.16, 42.5, 0.659, 28635, 0.02764, 218.2),
    ("copper 22 x 0.9", 20.2, 20.00, 40.0, 1.040, 31939, 0.02335, 620.4),
    ("copper 15 x 0.7", 13.6, 1.00, 20.0, 0.115, 1555, 0.04115, 19.88),
]
"""Worked out with the library beforehand."""


def of_run(name: str, given: dict[str, object], **run: object) -> float:
    value = calculated(name, {**given, "water.run": [{"feeds": ["all"], **run}]}, "water.run")
    assert isinstance(value, float)
    return value


@pytest.mark.parametrize(
    ("pipe", "bore", "flow", "mean", "speed", "reynolds", "factor", "loss"), ROWS
)
def test_a_run_has_the_speed_reynolds_number_and_loss_of_the_library(
    pipe: str,
    bore: float,
    flow: float,
    mean: float,
    speed: float,
    reynolds: float,
    factor: float,
    loss: float,
) -> None:
    given = circuit(flow, mean)
    assert of_run("bore", given, pipe=pipe) == pytest.approx(bore / 1000)
    assert of_run("run_velocity", given, pipe=pipe) == pytest.approx(speed, rel=1e-2)
    assert of_run("run_reynolds", given, pipe=pipe) == pytest.approx(reynolds, rel=1e-2)
    assert of_run("loss_per_metre", given, pipe=pipe) == pytest.approx(loss, rel=1e-2)
    density, viscosity = water_properties(mean)
    expected = one_phase_dP(
        flow / 60000 * density, density, viscosity, bore / 1000, ROUGHNESS[pipe.split()[0]], L=1
    )
    assert loss == pytest.approx(expected, rel=1e-3)
    assert of_run("loss_per_metre", given, pipe=pipe) == pytest.approx(expected, rel=1e-2)
    relative = ROUGHNESS[pipe.split()[0]] / (bore / 1000)
    assert friction_factor(reynolds, relative) == pytest.approx(factor, rel=2e-3)


def test_thirty_percent_of_propylene_glycol_loses_a_third_more() -> None:
    density, viscosity = propylene_properties(30, 42.5)
    expected = one_phase_dP(24.3 / 60000 * density, density, viscosity, 0.0262, 1.5e-6, L=1)
    assert expected == pytest.approx(312.3, rel=1e-3)
    given = circuit(24.3, fluid=glycol("propylene glycol", 30))
    assert of_run("loss_per_metre", given, pipe="copper 28 x 0.9") == pytest.approx(
        expected, rel=1e-2
    )


@pytest.mark.parametrize(("fluid", "factor"), [("water", 1.25), ("glycol", 1.46)])
def test_a_cold_start_costs_more(fluid: str, factor: float) -> None:
    # Water at 5 degC loses 287 Pa/m, 30 % of propylene glycol 1.46 times as much: `fluids`.
    mixture = glycol("propylene glycol", 30) if fluid == "glycol" else None
    density, viscosity = propylene_properties(30, 5) if mixture else water_properties(5)
    expected = one_phase_dP(23.16 / 60000 * density, density, viscosity, 0.0262, 1.5e-6, L=10)
    run = {"pipe": "copper 28 x 0.9", "length": "10 m", "loss_coefficient": 0}
    loss = of_run("run_loss_at_start_up", circuit(23.16, fluid=mixture), **run)
    assert loss == pytest.approx(expected, rel=1e-2)
    assert loss / (2870 if mixture else 2295) == pytest.approx(factor, rel=1e-2)


@pytest.mark.parametrize("pipe", ["copper 15 x 0.7", "copper 28 x 0.9", "copper 54 x 1.2"])
@pytest.mark.parametrize(
    ("fitting", "constants"),
    [
        ("bends", "Elbow, 90°, Standard (R/D = 1), Screwed"),
        ("tees", "Elbow, Used as, Standard, Screwed"),  # a tee used as elbow, as the library has it
        ("valves", "Valve, Ball, Reduced trim, Beta = 0.9"),
    ],
)
def test_fittings_lose_what_the_two_k_method_says(pipe: str, fitting: str, constants: str) -> None:
    given = circuit(14)
    bore = of_run("bore", given, pipe=pipe)
    density, viscosity = water_properties(42.5)
    reynolds = Reynolds(V=14 / 60000 / (pi / 4 * bore**2), D=bore, rho=density, mu=viscosity)
    run = {"bends": 0, "tees": 0, "valves": 0, fitting: 3}
    expected = 3 * Hooper2K(Di=bore / 0.0254, Re=reynolds, name=constants)
    assert of_run("run_loss_coefficient", given, pipe=pipe, **run) == pytest.approx(
        expected, rel=1e-3
    )


def test_a_bend_is_reckoned_tighter_than_one_bent_by_machine() -> None:
    wide = bend_rounded(Di=0.0262, angle=90, bend_diameters=1.5, Re=30000)
    assert wide == pytest.approx(0.274, abs=0.002)
    run = {"pipe": "copper 28 x 0.9", "bends": 1, "tees": 0, "valves": 0}
    tight = of_run("run_loss_coefficient", circuit(23.16), **run)
    assert 0.7 <= tight <= 1.0  # common practice for an elbow of this size
    assert tight > wide
