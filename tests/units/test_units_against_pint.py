"""Every unit and dimension, compared with an independent registry."""

import math
from fractions import Fraction

import pytest

from tundish.units import dimension as d
from tundish.units.dimension import BASES, DIMENSIONS, Dimension
from tundish.units.unit import KNOWN, dimension_of, read_unit
from tundish.units.units import ENTRIES, POINTS, SPELLINGS
from units.pint_reference import REGISTRY, pint_dimension, pint_unit

COMPOUNDS = (
    "L/min",
    "L/s",
    "m3/h",
    "m/s",
    "m/s2",
    "kg/m3",
    "kg/h",
    "kg/s",
    "mg/L",
    "mg/(m2.day)",
    "g/(m2.year)",
    "um/year",
    "mmol/L",
    "ohm/km",
    "mohm/m",
    "uS/cm",
    "W/K",
    "K/W",
    "W/m",
    "W/m2",
    "W/(m.K)",
    "W/(m2.K)",
    "m2.K/W",
    "m.K/W",
    "kJ/kg",
    "kJ/(kg.K)",
    "kWh/(m2.year)",
    "kJ/K",
    "Pa/m",
    "kPa/m",
    "Pa.s",
    "mV/(A.m)",
    "L/kW",
    "kN/m2",
    "kg/m2",
    "1/K",
    "1/m",
    "m^-1",
    "cm3",
    "A2.s",
    "m^4",
    "kg.m/s^2",
)
# Sound level is a logarithm, and its difference carries no power of anything: pint has none.
# It has no hardness of water either: published/test_water_hardness.py weighs that in molecules.
HARDNESS = d.AMOUNT / d.VOLUME
SIMPLE = [symbol for symbol, _, dimension in ENTRIES if dimension != HARDNESS]


@pytest.mark.parametrize("symbol", [*SIMPLE, *COMPOUNDS])
def test_a_unit_is_as_large_as_pint_says(symbol: str) -> None:
    ours, theirs = read_unit(symbol), pint_unit(symbol)
    assert float(ours.factor) == pytest.approx(theirs.magnitude, rel=1e-12)
    assert not ours.point and ours.zero == 0


@pytest.mark.parametrize("symbol", [*SIMPLE, *COMPOUNDS])
def test_a_unit_measures_what_pint_says(symbol: str) -> None:
    assert dimension_of(symbol) == pint_dimension(pint_unit(symbol))


def test_a_factor_is_exact_where_the_unit_is_defined_exactly() -> None:
    assert read_unit("L/min").factor == Fraction(1, 60_000)
    assert read_unit("kWh").factor == 3_600_000
    assert read_unit("mH2O").factor == Fraction("9806.65")


@pytest.mark.parametrize("celsius", [-273.15, -40.0, 0.0, 25.5, 100.0])
def test_degrees_celsius_stand_on_the_kelvin_scale_as_pint_says(celsius: float) -> None:
    unit = read_unit("degC")
    ours = celsius * float(unit.factor) + float(unit.zero)
    theirs = REGISTRY.Quantity(celsius, "degC").to("kelvin").magnitude
    assert ours == pytest.approx(theirs, abs=1e-9)
    assert unit.point and unit.dimension == d.TEMPERATURE


PINT_DIMENSIONS = {
    "number": "dimensionless",
    "length": "m",
    "area": "m**2",
    "volume": "m**3",
    "mass": "kg",
    "time": "s",
    "current": "A",
    "temperature": "K",
    "amount": "mol",
    "velocity": "m/s",
    "flow": "m**3/s",
    "mass flow": "kg/s",
    "force": "N",
    "pressure": "Pa",
    "energy": "J",
    "power": "W",
    "voltage": "V",
    "resistance": "ohm",
    "conductance": "siemens",
    "let-through energy": "A ** 2 * s",
    "frequency": "Hz",
    "density": "kg/m**3",
    "hardness": "mol/m**3",
    "molar mass": "kg/mol",
    "resistance per length": "ohm/m",
    "electrical conductivity": "siemens/m",
    "thermal conductivity": "W/m/K",
    "heat transfer coefficient": "W/m**2/K",
    "thermal resistance": "K/W",
    "linear thermal resistance": "K*m/W",
    "heat loss per length": "W/m",
    "specific energy": "J/kg",
    "specific heat": "J/kg/K",
    "heat capacity": "J/K",
    "heat loss per degree": "W/K",
    "pressure loss per length": "Pa/m",
    "dynamic viscosity": "Pa*s",
    "volume per power": "m**3/W",
    "power per area": "W/m**2",
    "mass per area": "kg/m**2",
    "deposition rate": "kg/m**2/s",
    "acceleration": "m/s**2",
}


@pytest.mark.parametrize("name", sorted(set(DIMENSIONS) - {"sound level"}))
def test_a_named_dimension_is_that_of_its_quantity_in_pint(name: str) -> None:
    # A name without an entry above fails here: it must be compared with something.
    theirs = pint_dimension(REGISTRY.Quantity(1.0, PINT_DIMENSIONS[name]).to_base_units())
    assert DIMENSIONS[name] == theirs


def test_a_sound_level_is_a_dimension_of_its_own() -> None:
    assert d.LEVEL not in {*DIMENSIONS.values()} - {DIMENSIONS["sound level"]}
    assert not d.LEVEL.is_number


@pytest.mark.parametrize("spelling", sorted(SPELLINGS))
def test_another_spelling_is_the_same_unit_shown_as_written(spelling: str) -> None:
    meant, read = KNOWN[SPELLINGS[spelling]], read_unit(spelling)
    assert (read.factor, read.zero, read.dimension) == (meant.factor, meant.zero, meant.dimension)
    assert read.point == meant.point
    assert str(read) == spelling


def test_no_symbol_stands_twice() -> None:
    symbols = [*(symbol for symbol, _, _ in ENTRIES), *POINTS, *SPELLINGS]
    assert len(set(symbols)) == len(symbols)


def test_a_dimension_without_a_name_is_spelt_out() -> None:
    assert (d.LENGTH**4 / d.TIME).name == "length^4 x time^-1"
    assert (d.LENGTH ** Fraction(1, 2)).name == "length^1/2"
    assert d.LENGTH.name == "length"


def test_dimensions_multiply_as_quantities_do() -> None:
    assert d.PRESSURE * d.FLOW == d.POWER
    assert d.VOLUME / d.AREA == d.LENGTH
    assert Dimension((Fraction(0),) * len(BASES)) == d.LENGTH / d.LENGTH
    assert (d.LENGTH / d.LENGTH).is_number and not d.LENGTH.is_number
    assert math.prod((d.LENGTH, d.LENGTH), start=d.NUMBER) == d.AREA
