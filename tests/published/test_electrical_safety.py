"""Figures of isolation, control wiring, earthing and testing against values worked out apart.

Plain arithmetic checks the formulas and their units. What is marked "from memory" was written
without the standard at hand, so agreement there shows only that two readings from memory agree.
"""

from __future__ import annotations

from functools import cache

import pytest

from tundish import Job, Rulebook
from tundish.job.facts import flatten
from verdicts import verdict_of

# 230 V + 10 % (IEC 60038, from memory), on a heater whose resistance stays: 3 kW becomes 3630 W.
HEATERS = [(3000, 14.35), (2000, 9.57), (6000, 28.70)]  # power [W] at 230 V, current [A] at 253 V

# L = dU / (2 r I) by hand: 5 % of the voltage, class 5 copper of IEC 60228 (26.0 and 19.5 ohm/km
# from memory). Voltage [V], current [mA], cross-section [mm2], length [m].
CONTROL_CABLES = [(24, 100, 0.75, 231), (24, 200, 0.75, 115), (24, 100, 1.0, 308)]

TO_NEUTRAL = 230.0  # [V] IEC 60038, from memory

# 230 V / 10 mA - 1000 ohm: the test for an extraneous part, from memory of guidance to BS 7671.
BRINGS_NO_EARTH = 22_000  # [ohm]

# Second digit of IEC 60529 and whether it promises jets, from memory: digits up to 6 hold for
# those below; 7, 8 and 9 (immersion, hot high-pressure jets) alone do not promise 5 and 6.
ENCLOSURES = {
    "IP20": (0, "not withstood"),
    "IPX4": (4, "not withstood"),
    "IP44": (4, "not withstood"),
    "IP54": (4, "not withstood"),
    "IP65": (5, "withstood"),
    "IP66": (6, "withstood"),
    "IP67": (7, "not withstood"),
    "IP68": (8, "not withstood"),
    "IP66/IP67": (7, "withstood"),
}


@cache
def rulebook() -> Rulebook:
    return Rulebook.built_in()


def value(name: str, facts: dict[str, object], of_circuit: bool = False) -> object:
    """Return a quantity of the job, or one of its first circuit."""
    values = flatten(Job.from_data(facts)).values
    quantity = rulebook().quantities["electricity.circuit" if of_circuit else "", name]
    item = (values["electricity.circuit"][0],) if of_circuit else ()
    return quantity.calculate(values, rulebook().session(values), *item)


def verdict(rule: str, facts: dict[str, object]) -> str:
    """Return the verdict of a rule that makes one finding on these facts."""
    return verdict_of(rule, facts, rulebook()).value


def heater(power: int, phases: int = 1) -> dict[str, object]:
    return {
        "hot_water.booster": {"power": f"{power} W", "phases": phases},
        "electricity.phases": phases,
        "electricity.circuit": [{"serves": ["booster heater"], "phases": phases}],
    }


@pytest.mark.parametrize(("power", "expected"), HEATERS)
def test_a_heater_draws_more_at_the_highest_supply_voltage(power, expected):
    assert power * (253 / 230) ** 2 / 253 == pytest.approx(expected, abs=0.005)
    found = value("current_at_highest_voltage", heater(power), of_circuit=True)
    assert found == pytest.approx(expected, abs=0.005)


def test_a_three_phase_heater_draws_a_tenth_more_as_well():
    # 6 kW on 400 V takes 8.660 A, worked out from P / (sqrt(3) U).
    found = value("current_at_highest_voltage", heater(6000, phases=3), of_circuit=True)
    assert found == pytest.approx(1.1 * 8.660, abs=0.001)


def test_a_contactor_for_the_nominal_current_is_too_small():
    # 13.04 A at 230 V: a rating of 14 A looks enough, and is not at 253 V.
    rule = "isolation/contactor-carries-the-heater"
    for rating, expected in [("14 A", "breached"), ("14.35 A", "met"), ("20 A", "met")]:
        facts = heater(3000)
        facts["electricity.circuit"] = [
            {"serves": ["booster heater"], "phases": 1, "contactor": {"rating": rating}}
        ]
        assert verdict(rule, facts) == expected


@pytest.mark.parametrize(("voltage", "current", "section", "length"), CONTROL_CABLES)
def test_a_control_cable_loses_five_per_cent_at_its_longest(voltage, current, section, length):
    wiring = {
        "voltage": f"{voltage} V",
        "current": f"{current} mA",
        "conductor": f"{section} mm2",
    }
    found = value("longest_control_cable", {"electricity.control_wiring": wiring})
    assert found == pytest.approx(length, abs=0.5)


def test_a_control_cable_of_no_standard_cross_section_has_no_length():
    wiring = {"voltage": "24 V", "current": "100 mA", "conductor": "0.8 mm2"}
    assert value("longest_control_cable", {"electricity.control_wiring": wiring}) is None


def test_a_part_above_22_kohm_brings_in_no_earth():
    touching_current = 0.010  # [A]
    assert TO_NEUTRAL / touching_current - 1000 == pytest.approx(BRINGS_NO_EARTH)
    assert value("resistance_of_no_earth", {}) == pytest.approx(BRINGS_NO_EARTH)


@pytest.mark.parametrize(("resistance", "expected"), [(21_900, "breached"), (22_100, "met")])
def test_metal_pipes_are_bonded_below_that_resistance(resistance, expected):
    facts = {
        "water.run": [{"pipe": "copper 28 x 0.9", "place": "outdoors"}],
        "electricity.pipes_to_earth": f"{resistance} ohm",
        "electricity.pipes_bonded": False,
    }
    assert verdict("surge-and-earthing/metal-pipes-bonded", facts) == expected


@pytest.mark.parametrize("code", ENCLOSURES)
def test_an_enclosure_is_judged_by_its_second_digit(code):
    digit, jets = ENCLOSURES[code]
    isolator = {"enclosure": code, "indoors": False, "in_sight": True}
    facts = {
        "maintenance.coil_rinse.water": "mains",
        "electricity.circuit": [{"serves": ["outdoor unit"], "isolator": isolator}],
    }
    rain = verdict("isolation/isolator-keeps-rain-out", facts)
    hose = verdict("isolation/isolator-stands-the-hose", facts)
    assert rain == ("met" if digit >= 4 else "breached")
    assert hose == ("met" if jets == "withstood" else "breached")


@pytest.mark.parametrize("code", ["weatherproof", "IP", "65", "IP4X", "ip65", "IP655"])
def test_what_is_no_whole_ip_code_is_not_guessed_at(code):
    isolator = {"enclosure": code, "indoors": False}
    facts = {"electricity.circuit": [{"serves": ["outdoor unit"], "isolator": isolator}]}
    assert verdict("isolation/isolator-keeps-rain-out", facts) == "undecided"


# Break times of IEC 61008-1 at the rated residual current, from memory: [ms], then with delay.
@pytest.mark.parametrize(
    ("milliseconds", "delayed", "expected"),
    [(300, False, "met"), (301, False, "breached"), (500, True, "met"), (501, True, "breached")],
)
def test_a_residual_current_device_has_its_time_to_trip(milliseconds, delayed, expected):
    device = {"sensitivity": "100 mA", "delayed": delayed}
    facts = {
        "readings.electricity.trip_time": f"{milliseconds} ms",
        "electricity.circuit": [{"serves": ["outdoor unit"], "residual_current": device}],
    }
    assert verdict("test-schedule/trip-time", facts) == expected


# Resistance of 20 m of 2.5 mm2 by IEC 60228, 7.41 ohm/km, and the 30 % that a meter may err by
# (IEC 61557-4, from memory): 0.1482 ohm x 1.3 = 0.19266 ohm.
@pytest.mark.parametrize(("reading", "expected"), [(0.1926, "met"), (0.1928, "breached")])
def test_a_protective_conductor_reads_as_its_length_gives(reading, expected):
    cable = {"protective": "2.5 mm2", "length": "20 m"}
    facts = {
        "readings.electricity.protective_continuity": f"{reading} ohm",
        "electricity.circuit": [{"serves": ["outdoor unit"], "cable": cable}],
    }
    assert verdict("test-schedule/protective-conductor-continuous", facts) == expected
