"""Figures that are not one plain number: "ca. 20 cm", "20-30 cm", "1 in 40"."""

from __future__ import annotations

import re

from tundish.text.bounds import LONGEST_QUANTITY

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
    """Say whether a text states a figure roughly, or as a range.

    Args:
        text: What was written, without white space around it.

    Example:
        >>> is_rough("ca. 20 cm"), is_rough("20-30 cm"), is_rough("20 cm")
        (True, True, False)
    """
    if len(text) > LONGEST_QUANTITY:
        return False
    return _ABOUT.match(text) is not None or _RANGE.fullmatch(text) is not None


_FALL = re.compile(r"1 ?(?:in|:|/) ?([1-9][0-9]{0,3})")


def fall_as_share(text: str) -> str:
    """Return a fall such as "1 in 40" as the share that it is; an empty text if it is no fall.

    Example:
        >>> fall_as_share("1 in 40"), fall_as_share("1:80"), fall_as_share("2 %")
        ('2.5 %', '1.25 %', '')
    """
    fall = _FALL.fullmatch(text)
    return f"{100 / int(fall[1]):.3g} %" if fall else ""
