"""Lists, tables in braces and headers whose brackets, commas or line ends are wrong."""

from __future__ import annotations

import re

from tundish.text.quoted import quoted
from tundish.text.toml_mistakes.failure import Failure
from tundish.text.toml_mistakes.mistake import Cure, Mistake, in_place, to_write
from tundish.text.toml_mistakes.scanner import KEY

_HEADER = re.compile(rf"[ \t]*(\[+)[ \t]*({KEY})[ \t]*(\]*)")
_CLOSES = {"[": "]", "{": "}"}


def header(failure: Failure) -> Mistake | None:
    """Recognise a header whose brackets are missing or do not match."""
    match = _HEADER.match(failure.text)
    if match is None or failure.at < match.end(2) or failure.at > match.end(3):
        return None
    opening, key, closing = match.groups()
    behind = failure.text[match.end() :].strip()
    if len(opening) == len(closing) or (behind and not behind.startswith("#")):
        return None
    double = len(opening) >= 2 and len(closing) != 1
    right = f"[[{key}]]" if double else f"[{key}]"
    other = "" if double == (len(opening) >= 2) else f", or [[{key}]] for an item of a list"
    fault = "is not closed" if len(closing) < len(opening) else "is closed too often"
    start, end = match.start(3), max(match.end(3), match.start(3) + 1)
    sentence = f"The header {fault}; write {right}{other}."
    return Mistake(start, end, sentence, Cure(match.start(1), match.end(3), right))


def list_outside(failure: Failure) -> Mistake | None:
    """Recognise an entry, or the end, of a list that is not open."""
    match = _OUTSIDE.match(failure.text)
    if match is None:
        return None
    sentence = "No list is open here: the one above is closed too early, or has no [ at its start."
    return Mistake(match.start(1), match.start(1) + 1, sentence, None)


_OUTSIDE = re.compile(r"[ \t]*([\]}]|\[(?=.*,[ \t]*(?:#.*)?$|[ \t]*[\"'0-9].*,))", re.MULTILINE)


def empty_header(failure: Failure) -> Mistake | None:
    """Recognise a header without a name."""
    match = re.match(r"[ \t]*(\[\[?[ \t]*\]\]?)", failure.text)
    if match is None:
        return None
    return Mistake(*match.span(1), "A header has a name, as in [site]; write one.", None)


def no_brackets(failure: Failure) -> Mistake | None:
    """Recognise several texts behind a key, without the brackets of a list."""
    if failure.around or not failure.in_value or not _TEXTS.fullmatch(failure.raw):
        return None
    text = f"[{failure.raw.rstrip(', ')}]"
    return in_place(
        failure, f"A list stands in square brackets; {to_write(text, _BRACKETS)}.", text
    )


_TEXT = r"(?:\"[^\"\\\n]*\"|'[^'\n]*')"
_TEXTS = re.compile(rf"{_TEXT}(?:[ \t]*,[ \t]*{_TEXT})+[ \t]*,?")
_BRACKETS = "put [ and ] around it"


def missing_comma(failure: Failure) -> Mistake | None:
    """Recognise two entries of a list without a comma between them."""
    if failure.inside != "[" or failure.message != "Unclosed array":
        return None
    if failure.at >= len(failure.text) or not re.match(r"[\"'\[{\w+\-]", failure.here):
        return None
    before = len(failure.text[: failure.at].rstrip())
    sentence = "Before this entry of the list there is no comma; write one."
    return Mistake(failure.at, failure.at + 1, sentence, Cure(before, before, ","))


def comma_at_end(failure: Failure) -> Mistake | None:
    """Recognise a comma behind the last key of a table in braces."""
    before = failure.text[: failure.at].rstrip()
    if failure.inside != "{" or not before.endswith(",") or not failure.here.startswith("}"):
        return None
    at = len(before) - 1
    sentence = "Behind the last key of a table in braces stands no comma; delete it."
    return Mistake(at, at + 1, sentence, Cure(at, at + 1, " "))


def braces_on_lines(failure: Failure) -> Mistake | None:
    """Recognise a table in braces that goes over several lines."""
    if failure.inside != "{" or failure.here or failure.at >= len(failure.text):
        return None
    if len(failure.unclosed_brackets) >= len(failure.around):
        return None
    at = failure.around[-1]
    sentence = (
        "A table in braces stands on one line; write it so, or as a table with a header of its "
        "own, its keys below."
    )
    return Mistake(at, at + 1, sentence, None)


def unclosed_bracket(failure: Failure) -> Mistake | None:
    """Recognise a bracket that nothing closes."""
    unclosed = failure.unclosed_brackets
    if not unclosed or failure.at < failure.end_of_tokens or failure.is_header:
        return None
    at, mark = unclosed[-1], failure.text[unclosed[-1]]
    closing = "".join(_CLOSES[failure.text[index]] for index in reversed(unclosed))
    last_part = "last entry" if mark == "[" else "last value"
    sentence = (
        f"The {mark} that opens here is not closed; write {_CLOSES[mark]} behind the {last_part}."
    )
    end = failure.end_of_tokens
    return Mistake(at, at + 1, sentence, Cure(end, end, closing))


def comma_in_braces(failure: Failure) -> Mistake | None:
    """Recognise a decimal comma, or a quantity without quotes, in a table in braces."""
    if failure.inside != "{":
        return None
    match = None
    for match in re.finditer(r"=[ \t]*([0-9]+,[ \t]*[0-9]+[^,}\"'\n=]*)", failure.text):
        if match.start() < failure.at <= match.end():
            break
    else:
        return None
    written = match[1].rstrip()
    point = re.sub(r",[ \t]*", ".", written)
    right = f'"{point}"' if re.search(r"[^0-9.]", point) else point
    start = match.start(1)
    sentence = f"{quoted(written)} has a comma, which parts keys here; write {right}."
    return Mistake(start, start + len(written), sentence, Cure(start, start + len(written), right))


def key_twice_in_braces(failure: Failure) -> Mistake | None:
    """Recognise a key that stands twice in one table in braces."""
    if not failure.message.startswith("Duplicate inline table key"):
        return None
    start = failure.begin
    keys = list(re.finditer(rf"({KEY})[ \t]*=", failure.text[:start]))
    at = keys[-1].span(1) if keys else (start, start + 1)
    return Mistake(*at, "This key stands twice in one table in braces; keep one of them.", None)
