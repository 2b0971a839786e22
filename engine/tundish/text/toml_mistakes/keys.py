"""Keys that TOML cannot read, and lines that have none."""

from __future__ import annotations

import re

from tundish.text.toml_mistakes.failure import Failure
from tundish.text.toml_mistakes.mistake import Cure, Mistake, in_quotes, to_write
from tundish.text.toml_mistakes.scanner import NAME
from tundish.text.toml_mistakes.signs import VALUE_BEHIND, first_sign


def key_with_spaces(failure: Failure) -> Mistake | None:
    """Recognise a key, or a name in a header, of several words."""
    match = _WORDS_OF_KEY.match(failure.text)
    if match is None or not match.start(1) <= failure.at <= match.end(1):
        return None
    written = match[1]
    joined = re.sub(r"[ \t]+", "_", written)
    sentence = f"A key has no spaces; {to_write(joined, 'join its words by _')}."
    return Mistake(match.start(1), match.end(1), sentence, Cure(*match.span(1), joined))


_WORDS_OF_KEY = re.compile(
    rf"[ \t]*(?:\[\[?[ \t]*)?((?:{NAME}[ \t]*\.[ \t]*)*[A-Za-z0-9_-]+(?:[ \t]+[A-Za-z0-9_-]+)+)"
    r"[ \t]*(?:=|:|\])"
)


def odd_dots(failure: Failure) -> Mistake | None:
    """Recognise a key with dots that part nothing."""
    match = _DOTS.match(failure.text)
    if match is None or not match.start(1) <= failure.at <= match.end():
        return None
    names = [name for name in re.split(r"[ \t]*\.[ \t]*", match[1]) if name]
    right = ".".join(names)
    sentence = f"Dots stand between the names of a key; {to_write(right, 'delete the others')}."
    return Mistake(*match.span(1), sentence, Cure(*match.span(1), right) if names else None)


_DOTS = re.compile(r"[ \t]*(?:\[\[?[ \t]*)?([A-Za-z0-9_. \t-]*?)[ \t]*(?:=|\])")


def odd_key(failure: Failure) -> Mistake | None:
    """Recognise a key with letters or signs that a key without quotes cannot have."""
    match = _ODD_KEY.match(failure.text)
    if match is None or failure.in_value or not match[1].isprintable():
        return None
    if not match.start(1) <= failure.at <= match.end(1):
        return None
    text = in_quotes(match[1])
    sentence = (
        "A key without quotes has the letters a to z, digits, _ and - alone; "
        f"{to_write(text, 'put it in quotes')}, or another name."
    )
    return Mistake(match.start(1), match.end(1), sentence, Cure(*match.span(1), text))


_ODD_KEY = re.compile(r"[ \t]*(?:\[\[?[ \t]*)?([^\s=\[\]{}\"'#:,]+)[ \t]*(?:=|\])")


def no_key(failure: Failure) -> Mistake | None:
    """Recognise a value without a key."""
    at = first_sign(failure.text)
    if not failure.text.startswith("=", at):
        return None
    return Mistake(at, at + 1, "Before the = there is no key; write one.", None)


def prose(failure: Failure) -> Mistake | None:
    """Recognise a line for reading, of two or more words, whose # is missing."""
    line = failure.text[: failure.line_end(0)]
    match = _PROSE.fullmatch(line)
    if match is None or failure.in_value or failure.around:
        return None
    if VALUE_BEHIND.match(match[2]) and match[2].rstrip()[-1] not in ".?!":
        return None  # a key and its value, and no = between them
    start, end = match.start(1), len(line.rstrip())
    sentence = "This is no fact; put # before it if it is for reading."
    return Mistake(start, end, sentence, Cure(start, start, "# "))


# The first word is none that only a key can be, such as snow_depth or site.altitude.
_PROSE = re.compile(r"[ \t]*(\(?[^\W_][^\s=:_.]*[.]?)[ \t]+([^\s=#/][^=\n]*)")


def other_language(failure: Failure) -> Mistake | None:
    """Recognise JSON, and a list as YAML has them."""
    at = first_sign(failure.text)
    if failure.text.startswith("{", at):
        sentence = "A file of TOML has lines such as key = value and headers such as [site]; "
        return Mistake(at, at + 1, f"{sentence}this looks like JSON.", None)
    if re.match(r"-[ \t]", failure.text[at:]):
        sentence = 'The entries of a list stand in brackets, as in ["one", "two"].'
        return Mistake(at, at + 1, sentence, None)
    return None
