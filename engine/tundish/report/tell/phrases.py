"""Words for counts, lists and severities, as a person would say them."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

from tundish.rulebook.model.choices import Severity, Stage

MEANING_OF_SEVERITY: dict[Severity, str] = {
    "danger": "People may be hurt.",
    "fault": "It will not work, will be damaged or will be refused.",
    "caution": "It will work worse, or wear.",
    "note": "Worth knowing.",
}

_NUMBERS = (
    "none",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)

_MOST_ASSUMED = 4


def counted(number: int, noun: str, nouns: str = "") -> str:
    """Return a number with its noun, small numbers as words.

    Args:
        number: How many [1].
        noun: What is counted, if it is one.
        nouns: What is counted, if it is not one; an "s" is added where this is left out.

    Example:
        >>> counted(2, "danger"), counted(14, "fault")
        ('two dangers', '14 faults')
    """
    return f"{in_words(number)} {noun if number == 1 else nouns or noun + 's'}"


def in_words(number: int) -> str:
    """Return a whole number, up to twelve as a word."""
    return _NUMBERS[number] if number < len(_NUMBERS) else str(number)


def listed(parts: Sequence[str]) -> str:
    """Return parts as a list in a sentence: ``a, b and c``."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def assumed_texts(assumed: Sequence[str], full: bool) -> list[str]:
    """Return what is taken for granted until it is known; of very much the first, and how much.

    Args:
        assumed: All of it.
        full: Whether to tell all of it.
    """
    more = len(assumed) - _MOST_ASSUMED
    if full or more <= 1:
        return list(assumed)
    return [*assumed[:_MOST_ASSUMED], f"and {more} more, which nobody has stated"]


def as_sentence(text: str) -> str:
    """Return text with a capital at its start, unless that would spoil a name or symbol."""
    first = text.split(" ", 1)[0]
    return text[:1].upper() + text[1:] if len(first) > 1 and first.islower() else text


def day(date: datetime.date) -> str:
    """Return a date as ``2 November 2026``."""
    # Written out here, as the words of strftime depend on where the program runs.
    return f"{date.day} {_MONTHS[date.month - 1]} {date.year}"


def from_stage(stage: Stage) -> str:
    """Return from when on something is due."""
    return "from the first enquiry on" if stage == "enquiry" else f"from {stage} on"


_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
