"""Quantities as people write them, and the sentence for each that cannot be read."""

from __future__ import annotations

import re

from tundish.measure.quantity import MalformedQuantityError, MeasureError, Quantity, parse_quantity
from tundish.reading.bounds import LONGEST_QUANTITY

_NUMBER = r"[+\-\u2212]?[0-9]+(?:[.,][0-9]+)?"
_UNIT = r"[^\W\d_%\u00b0][^\d]*?|[%\u00b0][^\d]*?"
_TO = r"(?:-|\u2013|\u2014|\.{2,}|\u2026|\bto\b|\+/-|\u00b1)"
_ABOUT = re.compile(
    r"(?:(?:ca|circa|c|about|approx|approximately|around|roughly|between)\b\.?"
    rf"|[~\u2248\u00b1<>\u2264\u2265]=?)\s*{_NUMBER}",
    re.IGNORECASE,
)
_RANGE = re.compile(
    rf"{_NUMBER}\s*{_TO}\s*{_NUMBER}(?!\d)\s*(?:{_UNIT})?"
    rf"|{_NUMBER}\s*(?!e[+-])(?:{_UNIT})\s*{_TO}\s*{_NUMBER}\s*(?:{_UNIT})",
    re.IGNORECASE,
)


def written_quantity(text: str, noun: str, example: str) -> Quantity:
    """Read the quantity that a fact is.

    Args:
        text: What was written.
        noun: What is measured, with its article, as in "a length".
        example: What would usually be written.

    Returns:
        The quantity, of whatever dimension.

    Raises:
        ValueError: If it is none; the text says what would be right.
    """
    try:
        return parse_quantity(text)
    except MeasureError as error:
        if _is_rough(text.strip()):
            raise ValueError(
                f"'{text}' is not one figure. Write one; [[tolerance]] tells how far off it may be."
            ) from None
        if not isinstance(error, MalformedQuantityError):
            raise
        raise ValueError(f"{error.fault}; write {noun} such as '{example}'.") from None


def no_unit(number: str, example: str) -> str:
    """Return the sentence for a number without a unit.

    Args:
        number: The number, as it is shown.
        example: What would usually be written.
    """
    return f"{number} has no unit; write a unit, such as '{example}'."


def _is_rough(text: str) -> bool:
    """Say whether a text states a figure roughly, or two between which it lies."""
    if len(text) > LONGEST_QUANTITY:
        return False
    return _ABOUT.match(text) is not None or _RANGE.fullmatch(text) is not None
