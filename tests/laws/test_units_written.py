"""In which unit a fact is written changes no verdict, and no digest."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from laws.sample_data import WHOLE, rewritten, sample_data, values_in
from laws.thinning import BOOK
from tundish import Job
from tundish.findings.assess import digest_of
from tundish.job.model.schema import Fact
from tundish.job.schema import job_schema
from tundish.units.quantity import parse_quantity
from tundish.units.unit import KNOWN, Unit, read_unit
from verdicts import verdicts_by_rule

COMPOSED = (
    *("L/s", "L/min", "L/h", "m3/h", "m3/s", "mm/m", "cm/m", "kg/h", "kg/s", "W/m2", "kW/m2"),
    *("W/(m2.K)", "kW/(m2.K)", "W/m", "W/(m.K)", "Pa/m", "kPa/m", "L/kW", "m/s", "mm/s", "mmol/L"),
    *("kJ/(kg.K)", "J/(kg.K)", "uS/cm", "mS/m", "K.m/W", "kg/m2", "g/m3", "kg/m3", "ohm/km"),
)
UNITS = [*KNOWN.values(), *map(read_unit, COMPOSED)]


def another_way(chance: Random, written: str) -> str:
    """Write a quantity in another unit that says exactly the same, if there is one."""
    quantity = parse_quantity(written)
    ways = [
        text
        for unit in UNITS
        if (unit.dimension, unit.point) == (quantity.dimension, quantity.unit.point)
        and (text := _in_unit(quantity.exact, unit))
    ]
    return chance.choice(ways or [written])


def _in_unit(exact: Fraction, unit: Unit) -> str:
    number = (exact - unit.zero) / unit.factor
    rest = number.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    # Only a decimal that ends says exactly the same.
    digits = 25
    text = f"{number.numerator * 10**digits // number.denominator:+0{digits + 2}d}"
    text = f"{text[:-digits]}.{text[-digits:]}".rstrip("0").rstrip(".").replace("+", "")
    whole = Fraction(text) == number
    return f"{text} {unit}" if rest == 1 and whole and len(text) < 40 else ""


def write(chance: Random, path: str, value: Any) -> Any:
    fact = job_schema().find(path)
    if not isinstance(fact, Fact) or fact.kind != "quantity" or not isinstance(value, str):
        return value
    # A clearance may also be 'open': then it is no quantity.
    return another_way(chance, value) if value[0] in "-+0123456789" else value


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(WHOLE), st.integers(0))
def test_another_unit_changes_no_verdict_and_no_digest(at: int, seed: int) -> None:
    data, chance = sample_data(at), Random(seed)
    other = rewritten(data, "", lambda path, value: write(chance, path, value))
    facts, others = (BOOK.facts(Job.from_data(one)) for one in (data, other))
    assert digest_of(others) == digest_of(facts)
    assert verdicts_by_rule(others.values) == verdicts_by_rule(facts.values)


def test_most_quantities_can_be_written_another_way() -> None:
    written = [
        value
        for path, value in values_in(sample_data(WHOLE[0]))
        if write(Random(0), path, value) != value or write(Random(1), path, value) != value
    ]
    assert len(written) > 60
    assert {parse_quantity(value).dimension.name for value in written} > {"length", "flow", "power"}
