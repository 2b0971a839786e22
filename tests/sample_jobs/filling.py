"""Forms filled in by what they say themselves: every line by the hint that stands behind it."""

from __future__ import annotations

import json
import re

_LINE = re.compile(r'^(\w+) = ""  # (.*)$', re.MULTILINE)

_ANSWERS = (
    (r"true or false, without quotes$", "true"),
    (r"such as (\d{4}-\d\d-\d\d), without quotes$", r"\1"),
    (r"a number such as (\S+), without quotes$", r"\1"),
    (r"a list such as (\[.*\]); \[\] for none", r"\1"),
    (r'a list out of \[("[^"]*").*\]; \[\] for none', r"[\1]"),
    (r"a list \[\{ … \}\] in place of the quotes", "[]"),
    (r'"none", or a table', '"none"'),
    (r"a table \{ … \} in place of the quotes", "{}"),
    (r'a size such as ("[^"]*")$', r"\1"),
)
"""What hints say, each with what it asks to be written, as TOML has it."""


def lines(form: str) -> dict[int, tuple[str, str]]:
    """Return the blank lines of a form, each with its key and hint, by its number."""
    found: dict[int, tuple[str, str]] = {}
    for number, row in enumerate(form.splitlines(), start=1):
        match = _LINE.match(row)
        if match:
            found[number] = (match[1], match[2])
    return found


def answer(hint: str) -> str:
    """Return what a hint asks to be written, as TOML has it.

    Args:
        hint: What stands behind the line; one that says nothing of an answer raises ValueError.
    """
    for pattern, written in _ANSWERS:
        match = re.match(pattern, hint)
        if match:
            return match.expand(written)
    if hint.startswith("one of "):
        choices = hint.removeprefix("one of ")
        return json.dumps(re.split("; " if "; " in choices else ", ", choices)[0])
    if hint == "text":
        return '"text"'
    if hint.startswith("such as "):
        return json.dumps(hint.removeprefix("such as "), ensure_ascii=False)
    raise ValueError(hint)


def filled(form: str) -> str:
    """Return a form with every line filled in by its hint."""
    return _LINE.sub(lambda row: f"{row[1]} = {answer(row[2])}  # {row[2]}", form)
