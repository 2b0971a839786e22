"""Heat loss and surface temperature of insulated pipes, against `ht`, an independent library.

The limits of the British guide and the thicknesses that keep to them are from memory and worked
out apart.
"""

from __future__ import annotations

import psychrolib
import pytest
from ht import cylindrical_heat_transfer

from published.calculated import calculated

psychrolib.SetUnitSystem(psychrolib.SI)

# insulation [mm]: heat loss [W/m] of 28 x 0.9 copper, 45 degC in air of -3 degC, 0.038 W/(m.K)
LOST = {13: 14.37, 19: 11.78, 25: 10.22, 32: 9.01, 40: 8.07}

# outside diameter [mm]: limit [W/m], and the thickness [mm] that keeps to it by conductivity
BRITISH = {
    15: (7.89, {0.035: 15.0, 0.038: 17.7, 0.040: 19.6}),
    22: (9.12, {0.035: 17.8, 0.038: 20.7, 0.040: 22.8}),
    28: (10.07, {0.035: 19.7, 0.038: 22.7, 0.040: 24.8}),
    35: (11.08, {0.035: 21.6, 0.038: 24.7, 0.040: 26.9}),
    42: (12.19, {0.035: 22.6, 0.038: 25.7, 0.040: 27.9}),
}


def of_run(quantity: str, run: dict[str, object], **site: str) -> float:
    """Return a quantity of the rulebook for one run of pipe [SI]."""
    given: dict[str, object] = {"water.run": [run], "water.flow_temperature": "45 degC"}
    given |= {f"site.{name}": value for name, value in site.items()}
    value = calculated(quantity, given, of="water.run")
    assert isinstance(value, float)
    return value


def insulated(outside: float, thickness: float, conductivity: float) -> dict[str, object]:
    """Return a run of thin copper in foam, outdoors."""
    foam = {"thickness": f"{thickness} mm", "conductivity": f"{conductivity} W/(m.K)"}
    pipe = f"copper {outside} x 0.9"
    return {"place": "outdoors", "carries": "flow", "pipe": pipe, "insulation": foam}


def library_loss(
    water: float, air: float, thickness: float, film: float, conductivity: float = 0.038
) -> float:
    """Return what the library gives for 28 x 0.9 copper [W/m], the copper wall included."""
    layers = cylindrical_heat_transfer(
        Ti=water + 273.15,
        To=air + 273.15,
        hi=1e9,
        ho=film,
        Di=0.0262,
        ts=[0.0009, thickness / 1000],
        ks=[380.0, conductivity],
    )
    lost = layers["Q"]
    assert isinstance(lost, float)
    return lost


@pytest.mark.parametrize("thickness", LOST)
def test_heat_loss_agrees_with_the_library(thickness: int) -> None:
    lost = of_run(
        "heat_loss_per_metre", insulated(28, thickness, 0.038), design_air_temperature="-3 degC"
    )
    assert lost == pytest.approx(library_loss(45, -3, thickness, 10.0), rel=2e-4)
    assert lost == pytest.approx(LOST[thickness], abs=0.006)


@pytest.mark.parametrize("outside", BRITISH)
@pytest.mark.parametrize("conductivity", [0.035, 0.038, 0.040])
def test_thickness_worked_out_apart_just_keeps_to_the_british_limit(
    outside: int, conductivity: float
) -> None:
    limit, thicknesses = BRITISH[outside]
    thickness = thicknesses[conductivity]
    run = insulated(outside, thickness, conductivity)
    assert of_run("british_loss_limit", run) == pytest.approx(limit)
    # Thicknesses are rounded to a tenth of a millimetre, which is worth 0.3 %.
    assert of_run("british_heat_loss", run) == pytest.approx(limit, rel=3e-3)


@pytest.mark.parametrize("jacket", [True, False])
def test_cold_surface_agrees_with_the_library(jacket: bool) -> None:
    run = insulated(28, 19, 0.038)
    run["insulation"] = {
        "thickness": "19 mm",
        "conductivity": "0.038 W/(m.K)",
        "metal_jacket": jacket,
    }
    given = {
        "water.run": [run],
        "water.cooling_temperature": "7 degC",
        "site.muggy_air_temperature": "26 degC",
    }
    film = 4.0 if jacket else 8.0
    gained = -library_loss(7, 26, 19, film)
    surface = 26 - gained / (film * 3.141592654 * 0.066)
    found = calculated("surface_temperature_in_cooling", given, of="water.run")
    assert found == pytest.approx(surface + 273.15, abs=2e-3)


@pytest.mark.parametrize(("air", "humidity"), [(26, 70), (30, 60), (20, 95), (24, 45)])
def test_dew_point_agrees_with_the_library(air: int, humidity: int) -> None:
    given = {
        "site.muggy_air_temperature": f"{air} degC",
        "site.muggy_air_humidity": f"{humidity} %",
    }
    dew = psychrolib.GetTDewPointFromRelHum(air, humidity / 100)
    assert calculated("dew_point_on_muggy_days", given) == pytest.approx(dew + 273.15, abs=2e-3)
