"""Design currents of the rulebook against plain arithmetic on the voltages of IEC 60038.

The nominal voltages, 230 V to neutral and 400 V between lines, are from memory. The table of
currents below was worked out by hand from I = P / (U cos phi) and I = P / (sqrt(3) U cos phi); it
checks the formulas and their units, and proves nothing about what a standard prints.
"""

from __future__ import annotations

import math
from functools import cache

import pytest

from tundish import Job, Rulebook
from tundish.job.facts import flatten

TO_NEUTRAL = 230.0  # [V] IEC 60038, from memory
BETWEEN_LINES = 400.0  # [V] IEC 60038, from memory

# power [W]: currents [A] on one phase at power factor 1 and 0.95, on three phases at 1 and 0.95
WORKED = {
    1000: (4.348, 4.577, 1.443, 1.519),
    2000: (8.696, 9.153, 2.887, 3.039),
    3000: (13.043, 13.730, 4.330, 4.558),
    6000: (26.087, 27.460, 8.660, 9.116),
    9000: (39.130, 41.190, 12.990, 13.674),
    12000: (52.174, 54.920, 17.321, 18.232),
}
CASES = [
    (power, phases, factor, currents[column])
    for power, currents in WORKED.items()
    for column, (phases, factor) in enumerate([(1, 1.0), (1, 0.95), (3, 1.0), (3, 0.95)])
]


@cache
def rulebook() -> Rulebook:
    return Rulebook.built_in()


def current(name: str, facts: dict[str, object], circuit: bool = False) -> float | None:
    """Return a quantity in amperes: one of the job, or one of its first circuit."""
    values = flatten(Job.from_data(facts)).values
    quantity = rulebook().quantities["electricity.circuit" if circuit else "", name]
    item = (values["electricity.circuit"][0],) if circuit else ()
    return quantity.calculate(values, rulebook().session(values), *item)


def circuit_facts(power: int, phases: int, factor: float, **more: object) -> dict[str, object]:
    circuit = {"serves": ["other"], "phases": phases, "power": f"{power} W", "power_factor": factor}
    return {"electricity.phases": phases, "electricity.circuit": [circuit], **more}


def heater_facts(place: str, power: int, phases: int, supply: int) -> dict[str, object]:
    return {"electricity.phases": supply, f"{place}.power": f"{power} W", f"{place}.phases": phases}


@pytest.mark.parametrize(("power", "phases", "factor", "expected"), CASES)
def test_the_worked_table_follows_from_the_nominal_voltages(power, phases, factor, expected):
    voltage = TO_NEUTRAL if phases == 1 else math.sqrt(3) * BETWEEN_LINES
    assert power / (voltage * factor) == pytest.approx(expected, abs=0.0005)


@pytest.mark.parametrize(("power", "phases", "factor", "expected"), CASES)
def test_a_circuit_carries_the_current_of_its_power(power, phases, factor, expected):
    found = current("current_to_carry", circuit_facts(power, phases, factor), circuit=True)
    assert found == pytest.approx(expected, abs=0.0005)


@pytest.mark.parametrize(("power", "phases", "factor", "expected"), CASES)
def test_a_unit_takes_the_current_of_its_highest_power(power, phases, factor, expected):
    unit = {"phases": phases, "highest_power": f"{power} W", "power_factor": factor}
    facts = {"electricity.phases": phases, "unit.electricity": unit}
    assert current("outdoor_unit_current", facts) == pytest.approx(expected, abs=0.0005)


@pytest.mark.parametrize(
    ("name", "place"),
    [
        ("backup_heater_current", "unit.electricity.backup_heater"),
        ("booster_heater_current", "hot_water.booster"),
        ("immersion_heater_current", "hot_water.immersion"),
    ],
)
@pytest.mark.parametrize("power", WORKED)
def test_a_heater_has_a_power_factor_of_one(name, place, power):
    single, _, three, _ = WORKED[power]
    assert current(name, heater_facts(place, power, 1, 1)) == pytest.approx(single, abs=0.0005)
    assert current(name, heater_facts(place, power, 3, 3)) == pytest.approx(three, abs=0.0005)
    # On one phase of three the heater loads that phase alone.
    assert current(name, heater_facts(place, power, 1, 3)) == pytest.approx(single, abs=0.0005)


@pytest.mark.parametrize("written", ["230 V", "400 V", "0.4 kV"])
def test_either_voltage_of_a_three_phase_supply_names_the_same_pair(written):
    facts = circuit_facts(12000, 3, 0.95, **{"electricity.voltage": written})
    assert current("current_to_carry", facts, circuit=True) == pytest.approx(18.232, abs=0.0005)
    assert current("voltage_to_neutral", facts) == TO_NEUTRAL
    assert current("voltage_between_lines", facts) == BETWEEN_LINES


def test_a_three_phase_voltage_outside_the_table_gives_no_current():
    facts = circuit_facts(12000, 3, 0.95, **{"electricity.voltage": "300 V"})
    assert current("current_to_carry", facts, circuit=True) is None


def test_a_three_phase_load_takes_a_third_of_its_power_from_each_phase():
    # 230 V and 400 V are a rounded pair, so this holds to their rounding: 400 / (230 sqrt(3)).
    whole = current("current_to_carry", circuit_facts(9000, 3, 1.0), circuit=True)
    third = current("current_to_carry", circuit_facts(3000, 1, 1.0), circuit=True)
    assert whole is not None
    assert third is not None
    assert third / whole == pytest.approx(BETWEEN_LINES / (TO_NEUTRAL * math.sqrt(3)), rel=1e-12)


def test_a_load_without_a_stated_current_or_power_has_no_current():
    assert current("outdoor_unit_current", {"electricity.phases": 1}) is None
