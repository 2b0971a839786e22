"""What someone wrote was shown back cut short, or so that it could not be read again."""

from __future__ import annotations

import tomllib

import pytest

from tundish import Job
from tundish.job.facts import flatten, value_and_text
from tundish.text.inline_toml import inline
from tundish.units.quantity import parse_quantity


@pytest.mark.parametrize("written", ["1e308 g", "-7e-300 m", "2.50e200 W/(m2.K)"])
def test_a_quantity_of_many_zeros_is_read_back(written: str) -> None:
    quantity = parse_quantity(written)
    assert parse_quantity(str(quantity)).exact == quantity.exact


def test_a_quantity_of_few_zeros_is_shown_without_an_exponent() -> None:
    assert str(parse_quantity("2e3 mm")) == "2000 mm"


@pytest.mark.parametrize(
    ("value", "text"), [(0.123456789, "0.123456789"), (12345678.5, "12345678.5"), (2.0, "2")]
)
def test_a_plain_number_is_shown_with_all_its_digits(value: float, text: str) -> None:
    assert value_and_text(value) == (value, text)


def test_a_plain_number_of_a_job_is_shown_as_it_was_written() -> None:
    facts = flatten(Job.from_data({"water.run": [{"loss_coefficient": 1234567.25}]}))
    assert facts.written["water.run[1].loss_coefficient"] == "1234567.25"


@pytest.mark.parametrize("value", [{"": 1}, {"a": "\x7f"}, {"\x7f": True}])
def test_odd_texts_on_one_line_of_toml_are_read_back(value: dict[str, object]) -> None:
    assert tomllib.loads(f"x = {inline(value)}") == {"x": value}
