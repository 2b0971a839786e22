import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.units import dimension as d
from tundish.units.dimension import DIMENSIONS, Dimension
from tundish.units.display_units import usual_unit
from tundish.units.format import in_unit, show, show_apart, show_number
from tundish.units.quantity import parse_quantity
from tundish.units.unit import read_unit


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (0.0, 4, "0"),
        (-0.0, 4, "0"),
        (3.0, 4, "3"),
        (16.2, 4, "16.2"),
        (10.78349, 4, "10.78"),
        (12345.6, 4, "12346"),
        (120.0, 2, "120"),
        (0.000123456, 4, "0.0001235"),
        (-2.5, 1, "-2"),
        (3.5, 1, "4"),
        (1e21, 4, "1" + "0" * 21),
        (0.1 + 0.2, 4, "0.3"),
        (99.999, 4, "100"),
        (math.inf, 4, "inf"),
    ],
)
def test_a_number_keeps_the_digits_it_deserves(value: float, digits: int, text: str) -> None:
    assert show_number(value, digits) == text


@given(st.floats(min_value=1e-12, max_value=1e12), st.integers(1, 12))
def test_a_shown_number_is_within_half_of_its_last_digit(value: float, digits: int) -> None:
    assert float(show_number(value, digits)) == pytest.approx(value, rel=0.51 * 10 ** (1 - digits))


def test_a_value_is_shown_in_the_unit_asked_for() -> None:
    assert show(0.0162, read_unit("L")) == "16.2 L"
    assert show(273.15, read_unit("degC")) == "0 degC"
    assert show(0.3, read_unit("%")) == "30 %"
    assert show(2.5, read_unit("1")) == "2.5"
    assert show(20 / 60_000, read_unit("L/min")) == "20 L/min"


@pytest.mark.parametrize("scale", ["degC", "°C", "℃"])
def test_a_difference_of_temperatures_is_shown_in_kelvin(scale: str) -> None:
    assert show(5.0, read_unit(scale), difference=True) == "5 K"


def test_a_difference_leaves_the_zero_of_the_scale_out() -> None:
    assert in_unit(278.15, read_unit("degC")) == pytest.approx(5.0)
    assert in_unit(5.0, read_unit("degC"), difference=True) == 5.0
    assert show(3.0, read_unit("dB"), difference=True) == "3 dB"


def test_unequal_values_look_unequal() -> None:
    litre = read_unit("L")
    assert show_apart([(0.02, litre), (0.0199999, litre)]) == ["20 L", "19.9999 L"]
    assert show_apart([(0.02, litre), (0.02, litre)]) == ["20 L", "20 L"]
    assert show_apart([(0.0162, litre), (0.02, litre)]) == ["16.2 L", "20 L"]


def test_values_that_no_digit_parts_are_shown_alike() -> None:
    litre = read_unit("L")
    nearest = math.nextafter(0.02, 1.0)
    shown = show_apart([(0.02, litre), (nearest, litre)])
    assert shown == ["20 L", "20 L"]


@pytest.mark.parametrize("name", sorted(DIMENSIONS))
def test_the_usual_unit_measures_its_dimension(name: str) -> None:
    dimension = DIMENSIONS[name]
    assert usual_unit(dimension).dimension == dimension
    assert usual_unit(dimension, point=dimension in (d.TEMPERATURE, d.LEVEL)).dimension == dimension


def test_a_temperature_is_shown_in_degrees_celsius_and_its_difference_in_kelvin() -> None:
    assert str(usual_unit(d.TEMPERATURE, point=True)) == "degC"
    assert str(usual_unit(d.TEMPERATURE)) == "K"


@pytest.mark.parametrize(
    ("dimension", "symbol"),
    [
        (d.NUMBER, "1"),
        (d.LENGTH**4, "m^4"),
        (d.NUMBER / d.LENGTH, "1/m"),
        (d.NUMBER / d.LENGTH / d.TIME, "1/(m.s)"),
        (d.MASS * d.LENGTH, "m.kg"),
        (d.AMOUNT / d.TIME, "mol/s"),
    ],
)
def test_a_dimension_without_habit_is_shown_in_si_base_units(
    dimension: Dimension, symbol: str
) -> None:
    unit = usual_unit(dimension)
    assert str(unit) == symbol
    assert read_unit(symbol).factor == 1 and read_unit(symbol).dimension == dimension


@given(st.floats(min_value=1e-6, max_value=1e6), st.sampled_from(["L", "kW", "degC", "mm", "bar"]))
def test_what_is_shown_can_be_read_back(value: float, symbol: str) -> None:
    unit = read_unit(symbol)
    read = parse_quantity(show(value + float(unit.zero), unit, digits=12))
    assert read.si == pytest.approx(value + float(unit.zero), rel=1e-9)
