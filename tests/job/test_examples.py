"""Every fact of a job has an example of its own that fits it."""

from collections.abc import Iterator
from typing import Any, cast

import pytest

from tundish.job.facts import flatten
from tundish.job.job import Job
from tundish.job.model.field_types import MoreType
from tundish.job.model.fields import Member
from tundish.job.model.kinds import ChoiceKind, TextsKind, TruthKind
from tundish.job.model.part import Part
from tundish.job.model.schema import Fact, Items, Record
from tundish.job.schema import job_schema
from tundish.rulebook.model.job_scope import job_meanings
from tundish.units.quantity import parse_quantity


def members(part: type[Part], outer: str = "") -> Iterator[tuple[str, Member]]:
    """Yield every fact of a part with its path."""
    for name, member in part.members.items():
        path = f"{outer}.{name}" if outer else name
        if isinstance(member.held, MoreType):
            continue
        if member.kind is not None:
            yield path, member
        else:
            yield from members(cast("type[Part]", member.part), path)


MEMBERS = dict(members(Job))


def example(path: str) -> Any:
    """Return the example of a fact as TOML holds it."""
    entry = job_schema().find(path)
    if isinstance(entry, Record):
        return entry.example
    assert isinstance(entry, Fact)
    return entry.example_as_data


def placed(path: str, value: object) -> dict[str, Any]:
    """Return a job with one fact, inside the items of lists where it is in lists."""
    outer, _, name = path.rpartition(".")
    # A waiver is nothing without its rule.
    table = {"rule": "a/b", name: value} if outer == "waiver" else {name: value}
    if not outer:
        return table
    return placed(outer, [table] if isinstance(job_schema().find(outer), Items) else table)


def test_each_example_is_read_at_its_own_path() -> None:
    for path in MEMBERS:
        values = flatten(Job(**placed(path, example(path)))).values
        *outer, name = path.split(".")
        found: Any = values
        reached = ""
        for step in outer:
            reached = f"{reached}.{step}" if reached else step
            if isinstance(found.get(reached), list):
                found, reached = found[reached][0], ""
        assert (f"{reached}.{name}" if reached else name) in found, path


def test_an_example_of_a_quantity_is_shown_back_as_it_stands() -> None:
    for path, member in MEMBERS.items():
        if isinstance(job_schema().find(path), Fact) and member.kind is not None:
            read = member.kind.read(example(path))
            if isinstance(example(path), str):
                assert str(read) == example(path), path


def test_an_example_of_a_choice_is_among_the_choices() -> None:
    for path, member in MEMBERS.items():
        if isinstance(member.kind, ChoiceKind):
            assert example(path) in member.kind.choices, path
        if isinstance(member.kind, TextsKind) and member.kind.choices:
            assert set(example(path)) <= set(member.kind.choices), path


def test_every_fact_but_a_truth_states_an_example() -> None:
    silent = {path for path, member in MEMBERS.items() if not member.asking.example}
    assert {path for path in silent if not isinstance(MEMBERS[path].kind, TruthKind)} == set()


def test_a_truth_is_written_as_true_or_false() -> None:
    truths = {path for path, member in MEMBERS.items() if isinstance(member.kind, TruthKind)}
    written = {cast("Fact", job_schema().find(path)).example for path in truths}
    assert written == {"true", "false"}


@pytest.mark.parametrize(
    ("path", "least", "most"),
    [
        ("site.muggy_air_temperature", "15 degC", "35 degC"),
        ("site.coldest_air_temperature", "-40 degC", "0 degC"),
        ("site.damp_air_temperature", "-3 degC", "4 degC"),
        ("unit.refrigerant.charge", "0.3 kg", "10 kg"),
        ("unit.mass", "60 kg", "300 kg"),
        ("site.distance_to_coast", "1 km", "100 km"),
        ("site.altitude", "1 m", "1000 m"),
        ("placement.clearance.front", "0.5 m", "5 m"),
        ("unit.highest_flow_temperature", "45 degC", "80 degC"),
        ("unit.lowest_air_temperature", "-30 degC", "-5 degC"),
        ("water.flow.heating", "10 L/min", "40 L/min"),
        ("water.volume", "50 L", "500 L"),
        ("hot_water.cylinder.volume", "120 L", "500 L"),
        ("electricity.circuit.cable.conductor", "1.5 mm2", "16 mm2"),
        ("electricity.circuit.residual_current.sensitivity", "10 mA", "300 mA"),
        ("readings.electricity.insulation_resistance", "1 Mohm", "1000 Mohm"),
        ("unit.air_flow", "1000 m3/h", "10000 m3/h"),
        ("maintenance.service_interval", "6 month", "24 month"),
    ],
)
def test_an_example_is_what_a_home_has(path: str, least: str, most: str) -> None:
    value = parse_quantity(example(path)).exact
    assert parse_quantity(least).exact <= value <= parse_quantity(most).exact


def test_what_is_cold_and_what_is_hot_have_no_example_in_common() -> None:
    cold = {
        "site.coldest_air_temperature",
        "site.design_air_temperature",
        "water.frost.glycol.protects_to",
    }
    hot = {
        "site.muggy_air_temperature",
        "building.indoor_temperature",
        "hot_water.storage_temperature",
        "water.flow_temperature",
        "readings.water.flow_temperature",
    }
    warmest = max(parse_quantity(example(path)).exact for path in cold)
    assert warmest < parse_quantity("0 degC").exact
    assert all(parse_quantity(example(path)).exact > warmest + 15 for path in hot)


def test_water_comes_back_cooler_than_it_left() -> None:
    left, came = (
        parse_quantity(example(f"readings.water.{way}_temperature")).exact
        for way in ("flow", "return")
    )
    assert left > came


def test_an_example_does_not_say_in_what_unit_rules_show_a_fact() -> None:
    unit = job_meanings()["site.distance_to_coast"].unit
    assert unit is not None and unit.symbol == "mm"
    assert example("site.distance_to_coast") == "12 km"
