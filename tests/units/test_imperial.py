"""Inches, feet, gallons and the like are refused with what to write in metric."""

import pytest

from tundish.units.imperial import _WRITTEN, metric_at
from tundish.units.quantity import parse_quantity
from tundish.units.unit import KNOWN, SPELLINGS, MeasureError, read_unit


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("6 in", "'6 in' is not metric: write it in mm, as 152.4 mm."),
        ('6"', "'6\"' is not metric: write it in mm, as 152.4 mm."),
        ("6 Inch", "'6 Inch' is not metric: write it in mm, as 152.4 mm."),
        ("2,5 inches", "'2,5 inches' is not metric: write it in mm, as 63.5 mm."),
        ("3/4 in", "'3/4 in' is not metric: write it in mm, as 19.05 mm."),
        ('1 1/4"', "'1 1/4\"' is not metric: write it in mm, as 31.75 mm."),
        ("5' 6\"", "'5' 6\"' is not metric: write it in mm, as 1676.4 mm."),
        ("5 ft 6 in", "'5 ft 6 in' is not metric: write it in mm, as 1676.4 mm."),
        ("10 ft", "'10 ft' is not metric: write it in m, as 3.048 m."),
        ("50 psi", "'50 psi' is not metric: write it in bar, as 3.44738 bar."),
        ("32 °F", "'32 °F' is not metric: write it in degC, as 0 degC."),
        ("12000 BTU/h", "'12000 BTU/h' is not metric: write it in W, as 3516.85 W."),
        ("0 lb", "'0 lb' is not metric: write it in kg, as 0 kg."),
        (
            "6 gal",
            "'6 gal' is not metric: write it in L, as 27.2765 L (imperial gallon) or 22.7125 L "
            "(American gallon).",
        ),
        ("-6 in", "'in' is no known unit. Write it in mm: 1 inch is 25.4 mm."),
        (
            "5 ft/s",
            "'ft' in 'ft/s' is no known unit. Write it in m: 1 foot is 0.3048 m.",
        ),
    ],
)
def test_a_quantity_of_another_trade_is_refused_with_what_it_is_in_metric(
    written: str, said: str
) -> None:
    with pytest.raises(MeasureError) as caught:
        parse_quantity(written)
    assert str(caught.value) == said


def test_what_is_told_as_metric_can_be_read() -> None:
    for symbol in _WRITTEN:
        metric = metric_at(f"7 {symbol}")
        assert metric is not None, symbol
        assert read_unit(metric.unit)
        assert metric.end == len(f"7 {symbol}")


def test_no_unit_of_this_program_is_taken_for_one_of_another_trade() -> None:
    taken = {symbol.lower() for symbol in (*KNOWN, *SPELLINGS)} & set(_WRITTEN)
    assert taken == set()
    for symbol in KNOWN:
        assert parse_quantity(f"7 {symbol}")


def test_what_is_no_unit_of_another_trade_either_is_told_as_before() -> None:
    assert metric_at("6 inn") is None
    with pytest.raises(MeasureError, match="Did you mean 'mm'"):
        parse_quantity("6 mmm")
