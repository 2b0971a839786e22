import string
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tundish.text.bounds import LONGEST_QUANTITY
from tundish.units.quantity import MeasureError, Quantity, parse_quantity
from tundish.units.unit import KNOWN, read_unit


@pytest.mark.parametrize(
    ("text", "si"),
    [
        ("22 L/min", Fraction(22, 60_000)),
        ("150 mm", Fraction(15, 100)),
        ("150mm", Fraction(15, 100)),
        ("  150   mm ", Fraction(15, 100)),
        ("1.6 kg", Fraction(16, 10)),
        ("1,6 kg", Fraction(16, 10)),
        ("1,6789 kg", Fraction("1.6789")),
        ("1.234 kg", Fraction("1.234")),
        (".5 L", Fraction(5, 10_000)),
        ("5. L", Fraction(5, 1_000)),
        ("1e3 Pa", Fraction(1000)),
        ("1.5E-3 m", Fraction("0.0015")),
        ("2e+2 W", Fraction(200)),
        ("+5 K", Fraction(5)),
        ("-3 degC", Fraction("270.15")),
        ("−3 degC", Fraction("270.15")),
        ("-3.5 °C", Fraction("269.65")),
        ("30 %", Fraction(3, 10)),
        ("1.3 bar", Fraction(130_000)),
        ("2 m of water", Fraction("19613.3")),
        ("7 1", Fraction(7)),
        ("54 dB(A)", Fraction(54)),
    ],
)
def test_a_quantity_is_read_exactly(text: str, si: Fraction) -> None:
    assert parse_quantity(text).exact == si


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "does not begin with a number"),
        ("mm", "does not begin with a number"),
        ("about 5 mm", "does not begin with a number"),
        ("-", "does not begin with a number"),
        (".", "does not begin with a number"),
        ("e5 m", "does not begin with a number"),
        ("− mm", "does not begin with a number"),
        ("٣ mm", "does not begin with a number"),
        ("22", "has no unit"),
        ("-3.5", "has no unit"),
        ("1e5", "has no unit"),
        ("1,234 L", "two ways: write '1.234' or '1234'"),
        ("22 lmin", "Did you mean"),
        ("5 parsnips", "no known unit"),
        ("1 2 mm", "no unit"),
        ("1.2.3 mm", "no unit"),
        ("5 degC/W", "in K"),
        ("1e999 m", "too large"),
        ("1e306 km", "too large"),
        ("1e9999 m", "unit"),
    ],
)
def test_what_is_no_quantity_is_refused_with_a_sentence(text: str, said: str) -> None:
    with pytest.raises(MeasureError, match=said):
        parse_quantity(text)


def test_a_quantity_is_read_up_to_the_bound_and_no_further() -> None:
    longest = "0" * (LONGEST_QUANTITY - 3) + "1 m"
    assert parse_quantity(longest).exact == 1
    with pytest.raises(MeasureError, match="too long"):
        parse_quantity("0" + longest)


def test_one_length_in_three_units_is_one_length() -> None:
    lengths = {parse_quantity(text).exact for text in ("150 mm", "15 cm", "0.15 m", "0.00015 km")}
    assert lengths == {Fraction(3, 20)}
    assert {parse_quantity(text).si for text in ("150 mm", "15 cm", "0.15 m")} == {0.15}


def test_no_float_dust_gathers() -> None:
    tenth = parse_quantity("0.1 m").exact
    assert tenth + parse_quantity("0.2 m").exact == parse_quantity("0.3 m").exact
    assert sum([tenth] * 10) == 1


def test_what_was_written_is_shown_back() -> None:
    assert str(parse_quantity("22.0 L/min")) == "22.0 L/min"
    assert str(parse_quantity("1,60 kg")) == "1.60 kg"
    assert str(parse_quantity("5 °C")) == "5 °C"
    assert str(parse_quantity("1e3 Pa")) == "1000 Pa"
    assert str(Quantity(Decimal(3), read_unit("1"))) == "3"


def test_quantities_are_equal_as_written_only() -> None:
    assert parse_quantity("15 cm") != parse_quantity("150 mm")
    assert parse_quantity("15 cm") == parse_quantity("15 cm")
    assert len({parse_quantity("15 cm"), parse_quantity("15 cm")}) == 1


def test_a_quantity_says_what_it_measures() -> None:
    assert parse_quantity("22 L/min").dimension.name == "flow"


UNITS = [symbol for symbol in KNOWN if symbol != "1"]
NUMBERS = st.decimals(
    allow_nan=False, allow_infinity=False, min_value=-(10**9), max_value=10**9, places=6
)


@given(NUMBERS, st.sampled_from([*UNITS, "L/min", "W/(m2.K)", "ohm/km", "kJ/(kg.K)"]))
def test_printing_and_reading_back_changes_nothing(number: Decimal, unit: str) -> None:
    quantity = Quantity(number, read_unit(unit))
    read = parse_quantity(str(quantity))
    assert read.exact == quantity.exact
    assert str(read).lstrip("-") == str(quantity).lstrip("-")  # "-0" is read as it stands


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused_with_a_sentence(text: str) -> None:
    try:
        assert parse_quantity(text).si is not None
    except MeasureError as error:
        assert str(error).endswith((".", "?"))


@given(st.text(alphabet=string.digits + ".,eE+-−  mLkW/()^%", max_size=LONGEST_QUANTITY))
def test_anything_like_a_quantity_is_read_or_refused_with_a_sentence(text: str) -> None:
    try:
        quantity = parse_quantity(text)
    except MeasureError as error:
        assert str(error).endswith((".", "?"))
        return
    assume(len(str(quantity)) <= LONGEST_QUANTITY)
    assert parse_quantity(str(quantity)).exact == quantity.exact
