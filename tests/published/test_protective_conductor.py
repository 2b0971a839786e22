"""Least protective conductors against I square_root(t) / k, worked out by hand.

k: 115 copper in PVC from 70 degC to 160 degC, 143 in XLPE from 90 degC to 250 degC; from memory.
The rule for sizes without a calculation is printed in guides to IEC 60364-5-54 and BS 7671.
"""

from __future__ import annotations

import math

import pytest

from published.calculated import calculated

CIRCUITS = "electricity.circuit"
FUSE = {"kind": "fuse", "rating": "32 A", "tripping_current": "300 A"}  # takes its whole 0.4 s
BREAKER = {"type": "B", "rating": "16 A"}  # trips within 0.1 s

# current [A], time [s], insulation, least cross-section [mm2]
WORKED = [
    (1000, 0.1, "PVC", 2.75),
    (800, 0.4, "PVC", 4.40),
    (160, 0.1, "PVC", 0.44),
    (3000, 0.1, "XLPE", 6.63),
    (500, 0.4, "XLPE", 2.21),
]


def at_the_board(current: float, time: float, insulation: str) -> dict[str, object]:
    """Return a job whose earth fault carries that current, for that time."""
    cable = {"conductor": "6 mm2", "protective": "2.5 mm2", "length": "0 m"}
    circuit = {
        "device": FUSE if time > 0.1 else BREAKER,
        "cable": {**cable, "insulation": insulation},
    }
    supply = {"earthing": "TN-S", "external_loop_impedance": f"{230 / current} ohm"}
    return {"electricity": {**supply, "circuit": [circuit]}}


@pytest.mark.parametrize(("current", "time", "insulation", "section"), WORKED)
def test_least_section(current: float, time: float, insulation: str, section: float) -> None:
    facts = at_the_board(current, time, insulation)
    assert calculated("earth_fault_current", facts, of=CIRCUITS) == pytest.approx(current)
    assert calculated("fault_duration", facts, of=CIRCUITS) == pytest.approx(time)
    found = calculated("section_for_fault", facts, of=CIRCUITS)
    assert found == pytest.approx(section * 1e-6, abs=0.0051e-6)


def test_k_follows_from_the_heat_that_copper_holds() -> None:
    # The formula of IEC 60949, from memory: k2 = Qc (beta + 20) / rho20 ln(...) as below.
    heat, beta, resistivity = 3.45e-3, 234.5, 17.241e-6  # J/(K.mm3), degC, ohm.mm

    def k(initial: float, final: float) -> float:
        rise = math.log((beta + final) / (beta + initial))
        return math.sqrt(heat * (beta + 20) / resistivity * rise)

    for insulation, initial, final in [("PVC", 70, 160), ("XLPE", 90, 250)]:
        facts = {"electricity.circuit": [{"cable": {"insulation": insulation}}]}
        found = calculated("bearable_heating", facts, of=CIRCUITS)
        assert found == pytest.approx(k(initial, final) * 1e6, rel=0.005)


@pytest.mark.parametrize(
    ("line", "protective", "enough"),
    [
        (2.5, 2.5, True),
        (2.5, 1.5, False),  # flat twin and earth
        (6, 2.5, False),
        (16, 16, True),
        (25, 16, True),
        (35, 16, True),
        (50, 25, True),
        (50, 16, False),
    ],
)
def test_sizes_that_need_no_calculation(line: float, protective: float, enough: bool) -> None:
    cable = {"conductor": f"{line} mm2", "protective": f"{protective} mm2"}
    facts = {"electricity.circuit": [{"cable": cable}]}
    assert calculated("chosen_by_line_conductor", facts, of=CIRCUITS) is enough


def test_insulation_without_a_factor_has_no_least_section() -> None:
    facts = at_the_board(1000, 0.1, "rubber")
    assert calculated("section_for_fault", facts, of=CIRCUITS) is None
