import pytest

from tundish.text.bounds import LONGEST_QUANTITY
from tundish.units.unit import MeasureError, nearest_units, read_unit


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("W/(m2.K)", "W/m2/K"),
        ("kJ/(kg.K)", "kJ/kg/K"),
        ("m3/h", "m^3/h"),
        ("m²", "m^2"),
        ("(m.s)/kg", "m.s/kg"),
        ("m.(kg/s)", "kg.m/s"),
        ("L·mg", "L.mg"),
        ("1/s", "Hz"),
        ("mm3", "mm^3"),
        ("m/s2", "m/s^2"),
    ],
)
def test_two_ways_to_write_a_unit_are_one(one: str, other: str) -> None:
    assert read_unit(one).factor == read_unit(other).factor
    assert read_unit(one).dimension == read_unit(other).dimension


def test_a_slash_divides_by_what_follows_it_alone() -> None:
    assert read_unit("W/m.K").dimension == read_unit("W.K/m").dimension


@pytest.mark.parametrize(
    "text",
    [
        "",
        "mm4",
        "m..s",
        "m.",
        "/m",
        ".m",
        "m s",
        "()",
        "m()",
        "m(s)",
        ")",
        "m)",
        "W/(m.K",
        "W/(m.K))",
        "m^",
        "m^12",
        "2",
        "m1",
        "(((m)))",
        "m2^2^2",
        "m24",
        "m^-",
    ],
)
def test_what_is_built_wrong_is_no_unit(text: str) -> None:
    with pytest.raises(MeasureError, match="unit"):
        read_unit(text)


@pytest.mark.parametrize(
    ("text", "near"),
    [("Kw", "kW"), ("lmin", "min"), ("kpa", "kPa"), ("litr", "litre"), ("W/(m.Kelvin)", "")],
)
def test_an_unknown_unit_is_met_with_the_nearest(text: str, near: str) -> None:
    with pytest.raises(MeasureError) as caught:
        read_unit(text)
    assert (f"Did you mean '{near}'?" in str(caught.value)) == bool(near)


def test_an_unknown_part_is_told_with_the_whole_it_stands_in() -> None:
    with pytest.raises(MeasureError, match=r"^'qqqqqq' is no known unit\.$"):
        read_unit("qqqqqq")
    with pytest.raises(MeasureError, match=r"^'qqqqqq' in 'm/qqqqqq' is no known unit\.$"):
        read_unit("m/qqqqqq")


def test_nothing_near_is_not_guessed_at() -> None:
    assert nearest_units("qqqqqq") == ""


@pytest.mark.parametrize("text", ["W/(m.degC)", "°C/W", "K.degC", "degC2"])
def test_degrees_celsius_cannot_be_part_of_a_unit(text: str) -> None:
    with pytest.raises(MeasureError, match="difference is written in K"):
        read_unit(text)


def test_decibels_cannot_be_part_of_a_unit() -> None:
    with pytest.raises(MeasureError, match=r"'dB' cannot be part of the unit 'dB/m'\.$"):
        read_unit("dB/m")


def test_a_closing_bracket_is_asked_for() -> None:
    with pytest.raises(MeasureError, match="closing bracket is missing"):
        read_unit("kJ/(kg.K")


def test_a_unit_is_read_up_to_the_bound_and_no_further() -> None:
    longest = "m" + ".m" * 31 + "/"
    assert len(longest) == LONGEST_QUANTITY
    with pytest.raises(MeasureError, match="no unit"):
        read_unit(longest)
    assert read_unit(longest[:-1]).dimension == read_unit("m").dimension ** 32
    with pytest.raises(MeasureError, match="too long"):
        read_unit(longest + "m")


@pytest.mark.parametrize("text", ["km^9" + ".km^9" * 9, "um^9" + ".um^9" * 9])
def test_a_unit_past_all_measure_is_refused(text: str) -> None:
    with pytest.raises(MeasureError, match="no unit that anything is measured in"):
        read_unit(text)
