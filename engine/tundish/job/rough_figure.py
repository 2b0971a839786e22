"""Figures that are stated roughly, as in "ca. 20 cm" or "20-30 cm"."""

from __future__ import annotations

import re

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


def is_rough(text: str) -> bool:
    """Say whether a text states a figure roughly, or two between which it lies.

    Args:
        text: What was written, without white space around it.

    Example:
        >>> is_rough("ca. 20 cm"), is_rough("20-30 cm"), is_rough("20 cm")
        (True, True, False)
    """
    if len(text) > LONGEST_QUANTITY:
        return False
    return _ABOUT.match(text) is not None or _RANGE.fullmatch(text) is not None
