"""Flammable refrigerant: limits, charges and rooms, against gas laws, CoolProp, worked figures."""

from __future__ import annotations

import math

import pytest
from CoolProp.CoolProp import PropsSI

from published.calculated import calculated

AIR = 28.96  # g/mol, dry air
MOLAR_VOLUME = 8.314462618 * 298.15 / 101325 * 1000  # L/mol at 25 degC: 24.465
ROOM_TEMPERATURE = 293.15
ATMOSPHERE = 101325.0

# Lower flammability limits by volume [%] at 25 degC as ISO 817 lists them: from memory.
LIMITS_BY_VOLUME = {
    "R32": 14.4,
    "R152a": 4.8,
    "R290": 2.1,
    "R452B": 11.9,
    "R454B": 11.3,
    "R454C": 7.7,
    "R455A": 11.8,
    "R600a": 1.8,
    "R717": 16.7,
    "R1234yf": 6.2,
    "R1234ze(E)": 6.5,
    "R1270": 2.7,
}

# The same refrigerants as CoolProp calls them.
PURE = {
    "R22": "R22",
    "R32": "R32",
    "R134a": "R134a",
    "R152a": "R152A",
    "R290": "n-Propane",
    "R404A": "R404A",
    "R407C": "R407C",
    "R410A": "R410A",
    "R600a": "IsoButane",
    "R717": "Ammonia",
    "R744": "CarbonDioxide",
    "R1234yf": "R1234yf",
    "R1234ze(E)": "R1234ze(E)",
    "R1270": "Propylene",
}

# Shares by mass of blends, by their ISO 817 composition: from memory.
BLENDS = {
    "R452B": {"R32": 0.67, "R125": 0.07, "R1234yf": 0.26},
    "R454B": {"R32": 0.689, "R1234yf": 0.311},
    "R454C": {"R32": 0.215, "R1234yf": 0.785},
    "R455A": {"CarbonDioxide": 0.03, "R32": 0.215, "R1234yf": 0.755},
    "R513A": {"R1234yf": 0.56, "R134a": 0.44},
}


def worked_out(quantity: str, refrigerant: str, charge: str = "", **care: str) -> float:
    """Return a quantity of the rulebook for a split with one refrigerant [SI]."""
    given: dict[str, object] = {
        "unit.form": "refrigerant split",
        "unit.refrigerant.name": refrigerant,
        "refrigerant_care": {"charge_added": "0 kg", **care},
    }
    if charge:
        given["unit.refrigerant.charge"] = charge
    value = calculated(quantity, given)
    assert isinstance(value, float)
    return value


def molar_mass(refrigerant: str) -> float:
    """Return what CoolProp takes for one mole [g]; of a blend, from its shares by mass."""
    if refrigerant in PURE:
        return float(PropsSI("M", PURE[refrigerant])) * 1000
    moles = sum(share / PropsSI("M", part) for part, share in BLENDS[refrigerant].items())
    return 1000 / float(moles)


@pytest.mark.parametrize("refrigerant", [*PURE, *BLENDS])
def test_weight_against_air_is_that_of_the_molar_masses_of_the_library(refrigerant: str) -> None:
    expected = molar_mass(refrigerant) / AIR
    assert worked_out("gas_against_air", refrigerant) == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize("refrigerant", ["R32", "R290", "R600a", "R717", "R1234yf", "R1270"])
def test_real_gas_at_room_temperature_weighs_nearly_what_the_ideal_one_does(
    refrigerant: str,
) -> None:
    gas = PropsSI("D", "T", ROOM_TEMPERATURE, "P", ATMOSPHERE, PURE[refrigerant])
    air = PropsSI("D", "T", ROOM_TEMPERATURE, "P", ATMOSPHERE, "Air")
    assert worked_out("gas_against_air", refrigerant) == pytest.approx(gas / air, rel=0.04)
    sinks = calculated("gas_sinks", {"unit.refrigerant.name": refrigerant})
    assert sinks is bool(gas > air)


@pytest.mark.parametrize("refrigerant", LIMITS_BY_VOLUME)
def test_flammability_limit_by_mass_follows_from_that_by_volume(refrigerant: str) -> None:
    # Avogadro: percent by volume times moles in a cubic metre times the mass of one.
    by_mass = LIMITS_BY_VOLUME[refrigerant] / 100 * molar_mass(refrigerant) / MOLAR_VOLUME
    # Limits are listed to two figures; those of blends for their worst mixture, not the usual one.
    tolerance = 0.035 if refrigerant in BLENDS else 0.02
    assert worked_out("burning_limit", refrigerant) == pytest.approx(by_mass, rel=tolerance)


@pytest.mark.parametrize(
    ("refrigerant", "first", "second", "third"),
    [
        # From memory: 150 g, 988 g and 4.9 kg of propane, 1.84 kg of R32 in trade papers; the
        # others by hand from the volumes of 4, 26 and 130 m3.
        ("R290", 0.152, 0.988, 4.94),
        ("R32", 1.842, 15.96, 79.8),
        ("R600a", 0.172, 1.118, 5.59),
        ("R152a", 0.52, 3.38, 16.9),
    ],
)
def test_limits_of_charge_are_those_of_the_trade(
    refrigerant: str, first: float, second: float, third: float
) -> None:
    assert worked_out("first_charge_limit", refrigerant) == pytest.approx(first, rel=5e-4)
    assert worked_out("second_charge_limit", refrigerant) == pytest.approx(second, rel=5e-4)
    assert worked_out("third_charge_limit", refrigerant) == pytest.approx(third, rel=5e-4)


@pytest.mark.parametrize(
    ("height", "charges"),
    [
        # Worked by hand from 0.038 ** 1.25 = 0.016777, for rooms of 10, 20 and 50 m2.
        ("0.6 m", (0.0796, 0.1125, 0.1780)),
        ("1.0 m", (0.1326, 0.1876, 0.2966)),
        ("1.8 m", (0.2387, 0.3376, 0.5339)),
        ("2.2 m", (0.2918, 0.4127, 0.6525)),
    ],
)
def test_propane_that_a_room_takes_is_what_was_worked_out_apart(
    height: str, charges: tuple[float, float, float]
) -> None:
    for area, charge in zip((10, 20, 50), charges, strict=True):
        found = worked_out("charge_for_room", "R290", release_height=height, room_area=f"{area} m2")
        assert found == pytest.approx(charge, abs=6e-5)


@pytest.mark.parametrize(
    ("height", "areas"),
    [
        ("0.6 m", (394.7, 1279, 2274)),
        ("1.0 m", (142.1, 460.4, 818.5)),
        ("1.8 m", (43.86, 142.1, 252.6)),
        ("2.2 m", (29.36, 95.1, 169.1)),
    ],
)
def test_room_for_propane_is_what_was_worked_out_apart(
    height: str, areas: tuple[float, float, float]
) -> None:
    for charge, area in zip((0.5, 0.9, 1.2), areas, strict=True):
        found = worked_out("least_room_area", "R290", f"{charge} kg", release_height=height)
        assert found == pytest.approx(area, rel=5e-4)


@pytest.mark.parametrize(
    ("height", "charge", "area"),
    [("0.6 m", 1.084, 10), ("0.6 m", 2.424, 50), ("1.8 m", 7.271, 50), ("2.2 m", 8.887, 50)],
)
def test_large_rooms_take_of_r32_what_was_worked_out_apart(
    height: str, charge: float, area: float
) -> None:
    # From 0.307 ** 1.25 = 0.228522.
    found = worked_out("charge_for_room", "R32", release_height=height, room_area=f"{area} m2")
    assert found == pytest.approx(charge, abs=6e-4)


@pytest.mark.parametrize("height", ["0.6 m", "1.8 m"])
@pytest.mark.parametrize(("refrigerant", "charge"), [("R290", 0.5), ("R32", 2.0), ("R32", 4.0)])
def test_a_room_of_the_least_area_takes_just_the_charge(
    refrigerant: str, charge: float, height: str
) -> None:
    area = worked_out("least_room_area", refrigerant, f"{charge} kg", release_height=height)
    takes = worked_out(
        "charge_for_room", refrigerant, release_height=height, room_area=f"{area!r} m2"
    )
    assert takes == pytest.approx(charge, rel=1e-9)


@pytest.mark.parametrize("area", [2, 4, 8, 16, 100])
def test_an_even_mixture_in_a_room_that_passes_cannot_burn(area: int) -> None:
    # Spread below the release height; what stays unmixed is the matter of the leak formula.
    for refrigerant in ("R32", "R290", "R454C"):
        takes = worked_out(
            "charge_for_room", refrigerant, release_height="1.8 m", room_area=f"{area} m2"
        )
        concentration = takes / (area * 1.8)
        assert concentration <= 0.75 * worked_out("burning_limit", refrigerant) * (1 + 1e-9)


@pytest.mark.parametrize(("charge", "volume", "radius"), [(0.9, 23.7, 2.24), (1.2, 31.6, 2.47)])
def test_cloud_of_the_whole_charge_has_the_volume_of_a_half_ball(
    charge: float, volume: float, radius: float
) -> None:
    found = worked_out("gas_cloud_radius", "R290", f"{charge} kg")
    assert found == pytest.approx(radius, abs=5e-3)
    assert 2 / 3 * math.pi * found**3 == pytest.approx(volume, abs=0.06)


@pytest.mark.parametrize(
    ("refrigerant", "expected"),
    [("R290", "A3"), ("R600a", "A3"), ("R32", "A2L"), ("R454B", "A2L"), ("R410A", "A1")],
)
def test_safety_classes_are_those_of_common_knowledge(refrigerant: str, expected: str) -> None:
    # ISO 817, from memory.
    assert calculated("refrigerant_class", {"unit.refrigerant.name": refrigerant}) == expected


def test_every_flammable_refrigerant_has_a_limit_and_no_other_has_one() -> None:
    for refrigerant in (*PURE, *BLENDS):
        given = {"unit.refrigerant.name": refrigerant}
        burns = calculated("refrigerant_burns", given)
        assert burns is (calculated("burning_limit", given) is not None)
        assert burns is (refrigerant in LIMITS_BY_VOLUME)
