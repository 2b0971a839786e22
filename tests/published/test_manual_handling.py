"""Handling by hand and with gear, against published figures and other methods.

From memory: the guideline weights of INDG143, the reference mass of ISO 11228-1, the constants of
the revised NIOSH lifting equation, the bands of the HSE's chart for lifting by teams, and the HSE's
table of forces on slopes.
"""

from __future__ import annotations

import math

import pint
import pytest

from published.calculated import calculated
from tundish import Job, Verdict, assess

UNITS = pint.get_application_registry()


def _team(people: int, held: str = "close at waist", turns: str = "not") -> float:
    given = {"handling.people": people, "handling.held": held, "handling.turns": turns}
    result = calculated("team_lifts", given)
    assert isinstance(result, float)
    return result


WORKED = [
    # people, load [kg], how many times over the guideline, worked by hand from 25 kg, 2/3 and 1/2
    (2, 60, 1.80),
    (3, 60, 1.60),
    (2, 150, 4.50),
    (3, 150, 4.00),
    (4, 150, 4.00),
]


@pytest.mark.parametrize(("people", "load", "times"), WORKED)
def test_loads_of_60_and_150_kg_are_so_many_times_over(
    people: int, load: int, times: float
) -> None:
    assert load / _team(people) == pytest.approx(times, rel=1e-9)


@pytest.mark.parametrize(
    ("held", "women", "men"),
    [("close at waist", 16, 25), ("close above", 13, 20), ("close below", 13, 20)],
)
def test_women_have_about_two_thirds_of_the_weight_for_men(held: str, women: int, men: int) -> None:
    assert _team(1, held) == men
    assert women / _team(1, held) == pytest.approx(2 / 3, abs=0.03)


def test_one_person_has_the_reference_mass_of_iso_11228_1() -> None:
    assert _team(1) == 25


def test_one_person_is_near_the_load_constant_of_the_niosh_equation() -> None:
    assert _team(1) == pytest.approx(23, rel=0.1)


@pytest.mark.parametrize(
    ("turns", "angle"), [("more than 45 degrees", 45), ("more than 90 degrees", 90)]
)
def test_a_twist_takes_less_than_the_niosh_equation_takes_but_the_same_way(
    turns: str, angle: int
) -> None:
    asymmetry = 1 - 0.0032 * angle
    share = _team(1, turns=turns) / _team(1)
    assert asymmetry < share < asymmetry + 0.1


@pytest.mark.parametrize(("people", "unacceptable"), [(2, 85), (3, 125), (4, 170)])
def test_a_team_stays_far_below_what_the_chart_for_teams_calls_a_serious_risk(
    people: int, unacceptable: int
) -> None:
    assert _team(people) < unacceptable / 2


@pytest.mark.parametrize(("angle", "kilograms"), [(1, 7), (3, 21), (5, 35), (7, 50), (10, 70)])
def test_400_kg_on_a_slope_push_as_in_the_published_table(angle: int, kilograms: int) -> None:
    slope = math.tan(math.radians(angle))
    given = {"unit.mass": "400 kg", "handling.route": {"steepest": f"{100 * slope!r} %"}}
    force = calculated("slope_force", given)
    assert isinstance(force, float)
    assert force / 9.81 == pytest.approx(kilograms, abs=1.3)
    assert force == pytest.approx(400 * 9.80665 * math.sin(math.radians(angle)), rel=1e-3)


@pytest.mark.parametrize(("load", "gear", "side"), [(150, 1850, 0.5), (232, 3500, 1.2)])
def test_pressure_under_the_gear_as_a_registry_of_units_has_it(
    load: int, gear: int, side: float
) -> None:
    weight = (load + gear) * UNITS.kg * UNITS.standard_gravity
    pressure = (weight / (side * UNITS.m) ** 2).to("Pa").magnitude
    given = {
        "handling.packed_mass": f"{load} kg",
        "handling.gear_mass": f"{gear} kg",
        "handling.gear_footprint": f"{side**2!r} m2",
    }
    assert calculated("gear_pressure", given) == pytest.approx(pressure, rel=1e-3)


@pytest.mark.parametrize("people", [2, 4, 8])
def test_no_number_of_people_makes_150_kg_a_load_for_hands(people: int) -> None:
    job: dict[str, object] = {"unit.mass": "150 kg", "handling.gear": [], "handling.people": people}
    findings = assess(Job.from_data(job), verdicts=(Verdict.BREACHED,)).of(Verdict.BREACHED)
    (finding,) = (each for each in findings if each.rule == "handling/not-by-hand-alone")
    assert "cannot see their feet" in finding.statement
