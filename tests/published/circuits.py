"""Small circuits for the checks of flow and pressure loss, and properties from other libraries."""

from __future__ import annotations

from collections.abc import Mapping

from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97


def circuit(
    litres_per_minute: float, mean: float = 42.5, fluid: Mapping[str, object] | None = None
) -> dict[str, object]:
    """Return the facts of a circuit without pipes.

    Args:
        litres_per_minute: Flow in heating [L/min].
        mean: Mean water temperature [degC].
        fluid: Facts of the fluid; plain water, if left out.
    """
    return {
        "water.flow_temperature": f"{mean + 2.5} degC",
        "water.temperature_difference": "5 K",
        "water.flow.heating": f"{litres_per_minute} L/min",
        **(fluid or {"water.fluid": "water"}),
    }


def glycol(fluid: str, percent: float) -> dict[str, object]:
    """Return the facts of a mixture, its share [%] by mass."""
    share = {"fraction": f"{percent} %", "by": "mass"}
    return {"water.fluid": fluid, "water.frost.glycol": share}


def water_properties(temperature: float) -> tuple[float, float]:
    """Return density [kg/m3] and viscosity [Pa.s] of water by IAPWS-IF97 at 2 bar."""
    water = IAPWS97(P=0.2, T=temperature + 273.15)
    return water.rho, water.mu


def propylene_properties(percent: float, temperature: float) -> tuple[float, float]:
    """Return density [kg/m3] and viscosity [Pa.s] of propylene glycol in water by CoolProp."""
    at = ("T", temperature + 273.15, "P", 2e5, f"INCOMP::MPG[{percent / 100}]")
    return PropsSI("D", *at), PropsSI("V", *at)
