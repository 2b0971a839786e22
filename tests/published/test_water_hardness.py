"""Hardness of water: how the trade turns its degrees, and the steps of the guideline.

Degrees are checked against the masses of molecules (standard atomic weights of IUPAC, abridged) and
against pint's grain and imperial gallon. The steps of VDI 2035-1:2021 are from memory; those of its
edition of 2005 stood in a public document.
"""

from __future__ import annotations

import pint
import pytest

from published.calculated import calculated
from tundish.units.quantity import parse_quantity

UNITS = pint.get_application_registry()

CALCIUM, CARBON, OXYGEN = 40.078, 12.011, 15.999
CARBONATE = CALCIUM + CARBON + 3 * OXYGEN
"""Mass of a mole of calcium carbonate [g/mol], and so of a millimole [mg/mmol]."""
OXIDE = CALCIUM + OXYGEN


def millimoles(text: str) -> float:
    """Return a hardness [mmol/L], which is also [mol/m3]."""
    return parse_quantity(text).si


@pytest.mark.parametrize(
    ("written", "milligrams", "molecule"),
    [
        ("100 mg/L CaCO3", 100.0, CARBONATE),
        ("10 fH", 100.0, CARBONATE),  # a French degree is 10 mg/L of calcium carbonate
        ("1 dH", 10.0, OXIDE),  # a German degree is 10 mg/L of calcium oxide
    ],
)
def test_a_degree_is_what_its_molecules_weigh_within_two_thousandths(
    written: str, milligrams: float, molecule: float
) -> None:
    assert millimoles(written) == pytest.approx(milligrams / molecule, rel=2e-3)


def test_a_clark_degree_is_a_grain_in_a_gallon() -> None:
    grain = (1 * UNITS.grain / UNITS.imperial_gallon).to("mg/L").magnitude
    assert millimoles("1 Clark") == pytest.approx(grain / 100, rel=1e-6)
    assert millimoles("1 Clark") == pytest.approx(grain / CARBONATE, rel=1e-3)


@pytest.mark.parametrize(
    "written",
    [
        "1 mmol/L",
        "5.6 °dH",
        "5.6 dH",
        "10 °fH",
        "100 mg/L CaCO3",
        "100 ppm CaCO3",
        "100 mg/l CaCO3",
    ],
)
def test_one_millimole_a_litre_in_the_words_of_the_trade(written: str) -> None:
    assert millimoles(written) == pytest.approx(1.0, rel=1e-12)


# Most hardness [mmol/L] up to 20, up to 40 and above 40 L/kW; None where there is no limit.
ROOMY, TIGHT = "0.3 L/kW or more", "less, or with an electric heater"
STEPS = [
    (ROOMY, 50, (None, 3.0, 0.05)),
    (TIGHT, 50, (3.0, 1.5, 0.05)),
    (ROOMY, 200, (2.0, 1.0, 0.05)),
    (TIGHT, 200, (2.0, 1.0, 0.05)),
    (ROOMY, 600, (1.5, 0.05, 0.05)),
    (TIGHT, 600, (1.5, 0.05, 0.05)),
    (ROOMY, 900, (0.05, 0.05, 0.05)),
    (TIGHT, 900, (0.05, 0.05, 0.05)),
]


def circuit(kind: str, kilowatts: float, litres_a_kilowatt: float) -> dict[str, object]:
    """Return a job with so much water for its heat output."""
    content = 0.3 * kilowatts if kind == ROOMY else 0.29 * kilowatts
    return {
        "unit.rating": [{"output": f"{kilowatts} kW"}],
        "unit.water.content": f"{content:.6f} L",
        "unit.electricity.backup_heater": "none",
        "controls.second_heat_source": "none",
        "water.volume": f"{kilowatts * litres_a_kilowatt:.6f} L",
    }


def limit(kind: str, kilowatts: float, litres_a_kilowatt: float) -> object:
    """Return the rulebook's limit [mmol/L]: None where it is unknown or nothing is limited."""
    given = circuit(kind, kilowatts, litres_a_kilowatt)
    if calculated("fill_hardness_limited", given) == "no":
        return None
    return calculated("highest_fill_hardness", given)


@pytest.mark.parametrize(("kind", "kilowatts", "limits"), STEPS)
def test_steps_of_the_guideline(
    kind: str, kilowatts: float, limits: tuple[float | None, ...]
) -> None:
    sides = [(0.5, 20), (20.01, 40), (40.01, 400)]
    for (just_above, up_to), expected in zip(sides, limits, strict=True):
        for litres in (just_above, up_to):
            found = limit(kind, kilowatts, litres)
            assert found == (None if expected is None else pytest.approx(expected))


@pytest.mark.parametrize(("kilowatts", "above"), [(50, 50.1), (200, 200.1), (600, 600.1)])
def test_a_larger_plant_falls_into_the_next_row_right_past_its_step(
    kilowatts: float, above: float
) -> None:
    below, past = limit(TIGHT, kilowatts, 15), limit(TIGHT, above, 15)
    assert isinstance(below, float) and isinstance(past, float)
    assert past < below


def test_eight_kilowatts_with_a_heater_and_two_hundred_litres() -> None:
    # 25 L/kW; an electric element counts as the tighter kind whatever the unit holds
    given = circuit(ROOMY, 8, 25) | {"unit.electricity.backup_heater": {"fitted": True}}
    assert calculated("specific_circuit_volume", given) == pytest.approx(
        (25 * UNITS.litre / UNITS.kilowatt).to("m**3/W").magnitude
    )
    assert calculated("highest_fill_hardness", given) == pytest.approx(1.5)


@pytest.mark.parametrize(("litres", "degrees_of_2005"), [(15, 16.8), (25, 11.2), (45, 11.2)])
def test_with_a_heater_no_laxer_than_the_edition_of_2005_up_to_its_last_step(
    litres: float, degrees_of_2005: float
) -> None:
    found = limit(TIGHT, 8, litres)
    assert isinstance(found, float)
    assert found <= millimoles(f"{degrees_of_2005} dH") * (1 + 1e-9)


def test_more_water_than_the_table_reaches_is_not_answered() -> None:
    assert calculated("highest_fill_hardness", circuit(TIGHT, 8, 1001)) is None
    assert calculated("highest_fill_hardness", circuit(TIGHT, 10_001, 10)) is None
