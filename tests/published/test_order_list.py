"""Amounts of the order list, worked out by other ways than the rulebook's.

Glycol against the densities of CoolProp; the expansion vessel by the law of Boyle with the
densities of IAPWS-IF97; the volume vessel and the filling of a floor by the printed contents of
pipes; lengths by pint; the sign by the printed first limits of charge. What is from memory says so.
"""

from __future__ import annotations

from collections.abc import Mapping

import pint
import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97

from tundish import Job, Rulebook
from tundish.job.facts import flatten
from tundish.rulebook.evaluate.provisions import Need, Provided, ask

BOOK = Rulebook.built_in()
UNITS = pint.get_application_registry()

ROOM, ATMOSPHERE = 293.15, 101325.0
WEIGHED = {"propylene glycol": "MPG", "ethylene glycol": "MEG"}  # Melinder 2010, by mass
MEASURED = {"propylene glycol": "APG", "ethylene glycol": "AEG"}  # ASHRAE 2001, by volume
UNDILUTED = {
    "propylene glycol": PropsSI("D", "T", ROOM, "P", ATMOSPHERE, "PropyleneGlycol"),
    "ethylene glycol": 1113.0,  # handbook value at 20 degC, from memory; CoolProp has no such fluid
}

# Water in a metre of copper tube of EN 1057 [L], as printed in tables of the trade; from memory.
CONTENT = {"copper 15 x 0.7": 0.145, "copper 22 x 0.9": 0.320, "copper 28 x 0.9": 0.539}


def provided(name: str, given: Mapping[str, object]) -> Provided:
    """Ask for a part."""
    values = flatten(Job.from_data(dict(given))).values
    return ask(BOOK.provisions[name], BOOK.session(values))


def amount(name: str, given: Mapping[str, object]) -> float:
    """Return how much of a part is needed, in SI units."""
    found = provided(name, given)
    assert found.need is Need.NEEDED and found.amount is not None, found
    return found.amount


def density(solution: str, share: float) -> float:
    """Return the density of a mixture at 20 degC [kg/m3]."""
    return float(PropsSI("D", "T", ROOM, "P", ATMOSPHERE, f"INCOMP::{solution}[{share}]"))


# -- glycol --------------------------------------------------------------------------------------


def glycol(fluid: str, litres: float, share: float, by: str, premixed: bool) -> float:
    """Return the glycol that is ordered for a circuit [L]."""
    mixture = {"fraction": f"{share * 100} %", "by": by, "premixed": premixed}
    given = {
        "water.fluid": fluid,
        "water.volume": f"{litres} L",
        "water.frost.glycol": mixture,
    }
    return amount("glycol", given) * 1000


@pytest.mark.parametrize("litres", [60, 150, 320])
@pytest.mark.parametrize("share", [0.2, 0.25, 0.3, 0.4, 0.5])
@pytest.mark.parametrize("fluid", WEIGHED)
def test_glycol_by_mass_is_what_a_balance_would_take_out(
    fluid: str, share: float, litres: float
) -> None:
    # The circuit holds litres of mixture; its glycol, weighed, is poured back undiluted. Mixing
    # shrinks both by up to 2.1 %, which a share of the whole leaves out.
    weighed = litres / 1000 * density(WEIGHED[fluid], share) * share
    poured = weighed / UNDILUTED[fluid] * 1000
    ordered = glycol(fluid, litres, share, "mass", False)
    assert ordered == pytest.approx(poured, rel=0.0215)
    assert ordered < poured


@pytest.mark.parametrize("share", [0.2, 0.25, 0.3, 0.4, 0.5])
@pytest.mark.parametrize("fluid", WEIGHED)
def test_glycol_by_volume_makes_the_density_of_that_share(fluid: str, share: float) -> None:
    # Weight of what is ordered, and of water for the rest of the circuit, over their volumes, must
    # come out as dense as ASHRAE measured the mixture, but for the shrinking.
    ordered = glycol(fluid, 100, share, "volume", False)
    water = IAPWS97(T=ROOM, P=0.101325).rho
    mixed = (ordered * UNDILUTED[fluid] + (100 - ordered) * water) / 100
    assert mixed == pytest.approx(density(MEASURED[fluid], share), rel=0.025)
    assert mixed < density(MEASURED[fluid], share)


def test_ready_mixed_glycol_for_a_floor_fills_its_pipes() -> None:
    # 40 m2 of heated floor at 150 mm hold 0.754 L/m2 in pipe of 16 x 2 (pi / 4 x 12 mm squared for
    # each of 6.67 m); 20 m of 28 x 0.9 hold 10.8 L, as printed; and 3 L in the unit.
    loops = {"pipe": "PEX 16 x 2", "length": f"{40 / 0.15} m"}
    given = {
        "water.fluid": "propylene glycol",
        "water.frost.glycol.premixed": True,
        "unit.water.content": "3 L",
        "water.run": [{"pipe": "copper 28 x 0.9", "length": "20 m"}],
        "water.emitter": [{"kind": "heated floor", "loops": loops}],
        "water.volume_vessel": "none",
        "hot_water.cylinder": "none",
    }
    assert amount("glycol", given) * 1000 == pytest.approx(3 + 10.8 + 40 * 0.754, rel=1e-3)


# -- vessels -------------------------------------------------------------------------------------


def squeezed(circuit: float, hottest: float, opens: float, height: float) -> float:
    """Return the least vessel that the law of Boyle lets stay below the relief valve [L]."""
    cold, hot = (IAPWS97(T=273.15 + t, P=0.25).rho for t in (10.0, hottest))
    grown = circuit * (cold / hot - 1)
    static = cold * 9.80665 * height / 1e5
    gas_at, full_at = max(static + 0.3, 0.7) + 1, opens - 0.5 + 1  # absolute, EN 12828, from memory
    small, large = grown, 1000.0
    for _ in range(80):
        vessel = (small + large) / 2
        held = vessel / 5 if vessel <= 15 else max(0.005 * circuit, 3.0)
        left = vessel - held - grown  # room for the gas once all is hot
        enough = left > 0 and vessel * gas_at / left <= full_at
        small, large = (small, vessel) if enough else (vessel, large)
    return large


@pytest.mark.parametrize(
    ("circuit", "hottest", "opens", "height"),
    [(80, 55, 3, 2), (150, 60, 3, 4), (150, 55, 3, 6), (200, 55, 3, 3), (400, 70, 3, 5)],
)
@pytest.mark.parametrize("built_in", [0, 2])
def test_an_expansion_vessel_is_as_large_as_the_gas_in_it_asks(
    circuit: float, hottest: float, opens: float, height: float, built_in: float
) -> None:
    given: dict[str, object] = {
        "water.expansion_vessel": "none",
        "unit.water.expansion_vessel": f"{built_in} L",
        "water.volume": f"{circuit} L",
        "water.fluid": "water",
        "water.highest_temperature": f"{hottest} degC",
        "water.relief.set_pressure": f"{opens} bar",
        "water.static_height": f"{height} m",
    }
    least = squeezed(circuit, hottest, opens, height)
    assert amount("expansion vessel", given) * 1000 == pytest.approx(least - built_in, rel=5e-3)


@pytest.mark.parametrize(
    ("lengths", "asked", "short"),
    [
        # metres of each pipe that stay open, litres the unit asks for, litres that are missing
        ({"copper 28 x 0.9": 10.0}, 24.0, 24 - 3.2 - 5.39),
        ({"copper 28 x 0.9": 14.0, "copper 22 x 0.9": 12.0}, 40.0, 40 - 3.2 - 7.546 - 3.84),
        ({"copper 22 x 0.9": 8.0, "copper 15 x 0.7": 10.0}, 20.0, 20 - 3.2 - 2.56 - 1.45),
    ],
)
def test_a_volume_vessel_makes_up_for_what_the_pipes_do_not_hold(
    lengths: dict[str, float], asked: float, short: float
) -> None:
    held = sum(CONTENT[pipe] * length for pipe, length in lengths.items())
    assert asked - 3.2 - held == pytest.approx(short)  # the sum beside it, checked
    runs = [
        {"pipe": pipe, "length": f"{length} m", "always_open": True}
        for pipe, length in lengths.items()
    ]
    given = {
        "unit": {
            "heat_source": "outdoor air",
            "water": {"content": "3.2 L", "minimum_free_volume": f"{asked} L"},
        },
        "water": {"run": runs, "emitter": [], "volume_vessel": "none"},
    }
    assert amount("volume vessel", given) * 1000 == pytest.approx(short, rel=3e-3)


# -- lengths, counts and the sign ----------------------------------------------------------------


@pytest.mark.parametrize(
    "lengths", [["2 m", "250 cm"], ["9 m", "9000 mm", "75 cm"], ["0.012 km", "30 cm"]]
)
@pytest.mark.parametrize("part", ["outdoor pipe insulation", "sun cover", "trace heating cable"])
def test_metres_outdoors_are_those_that_pint_adds_up(part: str, lengths: list[str]) -> None:
    runs: list[dict[str, object]] = [{"place": "outdoors", "length": each} for each in lengths]
    indoors = [{"place": "heated room", "length": "50 m"}]
    given = {"water.run": runs + indoors, "water.frost.trace_heating.power": "60 W"}
    total = sum((UNITS.Quantity(each) for each in lengths), 0 * UNITS.metre)
    assert amount(part, given) == pytest.approx(total.to("m").magnitude)


@pytest.mark.parametrize(
    ("name", "grams"),
    [
        # First limits of charge as they are printed everywhere, from memory: 4 m3 at the lower
        # flammability limit of propane, 6 m3 at that of R32.
        ("R290", 152),
        ("R32", 1842),
    ],
)
def test_the_sign_is_ordered_above_the_printed_first_limit(name: str, grams: int) -> None:
    def holding(charge: float) -> dict[str, object]:
        refrigerant = {"name": name, "charge": f"{charge} g"}
        return {"unit": {"form": "monobloc", "refrigerant": refrigerant}}

    assert provided("refrigerant warning sign", holding(grams - 2)).need is Need.NOT_NEEDED
    assert amount("refrigerant warning sign", holding(grams + 2)) == 1
