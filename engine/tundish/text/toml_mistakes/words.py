"""Values that are words, numbers or days of everyday writing."""

from __future__ import annotations

import datetime
import re

from tundish.text.not_known import says_not_known
from tundish.text.quoted import quoted
from tundish.text.toml_mistakes.failure import Failure
from tundish.text.toml_mistakes.mistake import Mistake, in_place, in_quotes, to_write

_TRUTHS = {"true": "true", "yes": "true", "on": "true", "false": "false", "no": "false"} | {
    "off": "false"
}
_NUMBER = r"[+\-\u2212]?(?:[0-9][0-9_]*(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_COMMA_NUMBER = re.compile(r"([+-]?[0-9]+),([0-9]+)")
_QUANTITY = re.compile(
    rf"(?:{_NUMBER}|[+\-\u2212]?[0-9]+,[0-9]+)\s*(?:[^\W\d_]|[%°/\"'′″‰(])[^\n=]*"
)
_POINT_ALONE = re.compile(r"([+-]?)(?:([0-9]+)\.|\.([0-9]+))")
_ZEROS = re.compile(r"([+-]?)0+(0|[1-9][0-9]*(?:\.[0-9]+)?|0\.[0-9]+)")
_DAY_LAST = re.compile(r"([0-9]{4})[-./]([0-9]{1,2})[-./]([0-9]{1,2})")
_DAY_FIRST = re.compile(r"([0-9]{1,2})([-./])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})")
_NO_QUOTES = re.compile(r"[^\s\"'\[\]{}#][^\"'\[\]{}#\n]*")
_WORDS = re.compile(r"[^\W\d][^\n\"'=\[\]{}#]*")


def truth(failure: Failure) -> Mistake | None:
    """Recognise yes, no, True and their like."""
    word = _TRUTHS.get(failure.raw.lower())
    if word is None or not failure.in_value:
        return None
    return in_place(failure, f"TOML has true and false alone; write {word}.", word)


def not_known(failure: Failure) -> Mistake | None:
    """Recognise null and other signs that something is not known."""
    if not failure.in_value or not says_not_known(failure.raw):
        return None
    sentence = (
        f"{quoted(failure.raw)} is no value of TOML; leave the line out while it is not known, or "
        'write "none" if there is none.'
    )
    return in_place(failure, sentence, '"none"')


def other_value(failure: Failure) -> Mistake | None:
    """Recognise any other text without quotes."""
    raw = failure.raw
    if not failure.in_value or not _NO_QUOTES.fullmatch(raw) or not raw.isprintable():
        return None
    if failure.at > failure.end or "=" in raw or raw[-1] in ",;":
        return None
    if raw[0] == "(" and raw[-1] == ")":
        text = f"[{raw[1:-1]}]"
        return in_place(failure, f"A list stands in square brackets; {to_write(text)}.", text)
    text = in_quotes(raw)
    sentence = f"{quoted(raw)} is no value of TOML; as a text or quantity, {to_write(text)}."
    return in_place(failure, sentence, text)


def bare_words(failure: Failure) -> Mistake | None:
    """Recognise a text without quotes."""
    raw = failure.raw
    if not failure.in_value or not _WORDS.fullmatch(raw) or not raw.isprintable():
        return None
    text = in_quotes("none" if raw.lower() == "none" else raw)
    return in_place(failure, f"A text stands in quotes; {to_write(text)}.", text)


def quantity(failure: Failure) -> Mistake | None:
    """Recognise a number with a unit, without quotes."""
    raw = re.sub(r"\s+", " ", failure.raw)
    match = _QUANTITY.fullmatch(raw)
    if not failure.in_value or match is None or raw.count('"') > 1:
        return None
    spaced = re.sub(r"^([+\-\u2212]?[0-9.,_]+)(?=[^\W\d_]|°|%)", r"\1 ", raw)
    ways = [in_quotes(way) for way in _ways_to_read(spaced)]
    sentence = _two_ways(raw, ways) or f"A quantity stands in quotes; {to_write(ways[0])}."
    return in_place(failure, sentence, ways[0])


def decimal_comma(failure: Failure) -> Mistake | None:
    """Recognise a number with a comma in it; in a list a comma parts entries."""
    if failure.around or not failure.in_value or not _COMMA_NUMBER.fullmatch(failure.raw):
        return None
    ways = _ways_to_read(failure.raw)
    sentence = _two_ways(failure.raw, ways) or (
        f"A number has a point, not a comma; write {ways[0]}, or with its unit in quotes, "
        f'as in "{ways[0]} m".'
    )
    return in_place(failure, sentence, ways[0])


def _two_ways(raw: str, ways: list[str]) -> str:
    """Return the sentence for a number that can be read two ways; empty if there is one way."""
    if len(ways) == 1:
        return ""
    return f"{quoted(raw)} can be read two ways; write {ways[0]} or {ways[1]}."


def _ways_to_read(text: str) -> list[str]:
    """Return a number with a point for its comma, and without it where it may part thousands."""
    match = _COMMA_NUMBER.match(text)
    if match is None:
        return [text]
    whole, part = match.groups()
    behind = text[match.end() :]
    with_point = f"{whole}.{part}{behind}"
    return [with_point, f"{whole}{part}{behind}"] if len(part) == 3 else [with_point]


def number(failure: Failure) -> Mistake | None:
    """Recognise .5, 5. and 007."""
    if not failure.in_value:
        return None
    if match := _POINT_ALONE.fullmatch(failure.raw):
        sign, whole, part = match.groups()
        text = f"{sign}{whole or 0}.{part or 0}"
        sentence = f"A number has digits on both sides of the point; write {text}."
    elif match := _ZEROS.fullmatch(failure.raw):
        text = match[1] + match[2]
        sentence = f"A number does not begin with a zero too many; write {text}, or quote it."
    else:
        return None
    return in_place(failure, sentence, text)


def day(failure: Failure) -> Mistake | None:
    """Recognise a day that is written with its parts in another order, or that there is not."""
    if not failure.in_value:
        return None
    if match := _DAY_LAST.fullmatch(failure.raw):
        year, month, day_of_month = (int(part) for part in match.groups())
        days = _days((year, month, day_of_month))
    elif match := _DAY_FIRST.fullmatch(failure.raw):
        first, mark, second, year = int(match[1]), match[2], int(match[3]), int(match[4])
        year += 2000 if year < 100 else 0
        # Only with slashes do some write the month first.
        orders = [(year, second, first), *([(year, first, second)] if mark == "/" else [])]
        days = _days(*orders)
    else:
        return None
    if not days:
        sentence = f"There is no day {quoted(failure.raw)}; write one such as 2026-11-30."
        return in_place(failure, sentence, in_quotes(failure.raw))
    sentence = f"A day is written year-month-day; write {' or '.join(days)}."
    return in_place(failure, sentence, days[0])


def _days(*parts: tuple[int, int, int]) -> list[str]:
    """Return the days there are of those with the given year, month and day of the month."""
    days: list[str] = []
    for year, month, day_of_month in parts:
        try:
            days.append(datetime.date(year, month, day_of_month).isoformat())
        except ValueError:
            continue
    return list(dict.fromkeys(days))
