"""Texts whose quotes are curly, not closed or too many, and backslashes in them."""

from __future__ import annotations

import re

from tundish.text.toml_mistakes.failure import Failure
from tundish.text.toml_mistakes.mistake import Cure, Mistake, in_place, in_quotes, to_write
from tundish.text.toml_mistakes.scanner import CURLY_DOUBLE, CURLY_SINGLE

_CURLY = CURLY_DOUBLE + CURLY_SINGLE
_CURLY_TEXT = re.compile(rf"(?:[{_CURLY}]|'')([^\n]*?)(?:[{_CURLY}\"']|'')")
_ENDS_CURLY = re.compile(rf"[\"']([^\n\"]*)[{_CURLY}]")
_BACKSLASH_TEXT = re.compile(r'"([^"\n]*)"')
_BACKSLASHES = re.compile(r"\\+")
_QUOTE_WITHIN = re.compile(r"""(["'])(.+)\1""")


def curly_quotes(failure: Failure) -> Mistake | None:
    """Recognise quotes as word processors make them."""
    raw = failure.raw
    if not raw or (raw[0] not in _CURLY and not _ENDS_CURLY.fullmatch(raw)):
        return None
    match = _CURLY_TEXT.fullmatch(raw) or _ENDS_CURLY.fullmatch(raw)
    if match is None:
        return Mistake(failure.begin, failure.begin + 1, _CURLY_SENTENCE, None)
    text = in_quotes(match[1])
    return in_place(failure, f"These quotes are curly; {to_write(text, _STRAIGHT)}.", text)


_STRAIGHT = "put the text in straight ones"
_CURLY_SENTENCE = f"This quote is curly; {_STRAIGHT}."


def backslash(failure: Failure) -> Mistake | None:
    r"""Recognise a backslash that begins no escape, as in "C:\jobs" or "jobs\"."""
    raw = failure.raw
    if not _stopped_at_escape(failure) and not (failure.closes_no_text and raw.endswith('\\"')):
        return None
    match = _BACKSLASH_TEXT.fullmatch(
        raw.replace('\\"', '\\\\"') if failure.closes_no_text else raw
    )
    at = failure.text.rfind("\\", failure.begin, failure.at + 1)
    at = failure.begin if at < 0 else at
    if match is None:
        return Mistake(at, at + 1, f'In "..." {_ESCAPE} \\\\.', None)
    plain = in_quotes(match[1].replace("\\\\", "\\"))
    slashes = in_quotes(_BACKSLASHES.sub("/", match[1]))
    sentence = f"In double quotes {_ESCAPE} {slashes} or {plain}."
    if len(raw) > 40:
        sentence = f"In double quotes {_ESCAPE} / for it, or single quotes around the text."
    return Mistake(at, at + 1, sentence, Cure(failure.begin, failure.end, plain))


_ESCAPE = "a backslash begins an escape; write"


def _stopped_at_escape(failure: Failure) -> bool:
    message = failure.message
    return "Unescaped" in message or "hex value" in message or "Escaped character" in message


def unclosed_quote(failure: Failure) -> Mistake | None:
    """Recognise a text that is not closed on its line, or a long one that never is."""
    token = failure.unclosed
    if token is None or not token.start <= failure.at <= token.end:
        return None
    text = failure.text[token.start : token.end]
    mark = text[:3] if text[:3] in ('"""', "'''") else text[0]
    end = token.start + len(text.rstrip(" \t\n"))
    if len(mark) == 3:
        sentence = f"The text that begins here is not closed; write {mark} behind its last line."
        return Mistake(token.start, token.start + 3, sentence, Cure(end, end, mark))
    if not failure.in_value:
        sentence = f"The key that begins here is not closed; close it with {mark}."
        return Mistake(token.start, token.start + 1, sentence, None)
    inner = failure.text[token.start + 1 : end]
    closed = f"{mark}{inner}{mark}" if mark == "'" else in_quotes(inner)
    if failure.around and inner[-1:] in tuple("]}"):
        sentence = f"The text that begins here has no closing {mark} on its line."
        closed = f"{mark}{inner[:-1].rstrip()}{mark}{inner[-1]}"
    elif re.search(r"\s(?:#|//)", inner):  # nobody can know whether a comment was meant
        sentence = f"The text that begins here is not closed; write {mark} where it ends."
    else:
        sentence = (
            f"The text that begins here is not closed; {to_write(closed, f'close it with {mark}')}."
        )
    return Mistake(token.start, token.start + 1, sentence, Cure(token.start, end, closed))


def unclosed_in_list(failure: Failure) -> Mistake | None:
    """Recognise a text in a list that is closed by the quote of the next."""
    match = _CLOSED_BY_NEXT.match(failure.text, failure.begin)
    if match is None or failure.inside != "[" or not failure.in_value:
        return None
    sentence = f"The text that begins here is not closed; write {match[1]}{match[2]}{match[1]}."
    at = failure.begin
    return Mistake(at, at + 1, sentence, Cure(match.end(2), match.end(2), match[1]))


_CLOSED_BY_NEXT = re.compile(r"""(["'])([^"'\n]{1,40}?)\s*,\s*\1(?=\w)""")


def apostrophe(failure: Failure) -> Mistake | None:
    """Recognise a text without quotes that has an apostrophe in it, as in the neighbour's."""
    if failure.around or not failure.in_value or failure.begin > failure.at:
        return None
    match = _APOSTROPHE.match(failure.text[: failure.line_end(failure.begin)], failure.begin)
    if match is None:
        return None
    written = match[0].rstrip()
    end, text = match.start() + len(written), in_quotes(written)
    sentence = f"A text stands in quotes; {to_write(text)}."
    return Mistake(match.start(), end, sentence, Cure(match.start(), end, text))


_APOSTROPHE = re.compile(r"[^\W\d_][^\n\"'=#]*'[^\n\"=#]*")


def quote_within(failure: Failure) -> Mistake | None:
    """Recognise a quote inside a text in the same quotes, which ends it."""
    match = _QUOTE_WITHIN.fullmatch(failure.raw)
    if match is None or not failure.in_value or match[1] not in match[2]:
        return None
    if failure.inside and re.search(r"""["']\s+["']""", match[2]):
        return None  # two entries of a list without a comma
    text = in_quotes(match[2])
    start = failure.text.index(match[1], failure.begin + 1)
    sentence = f"This quote ends the text; {to_write(text, 'put the text in the other quotes')}."
    return Mistake(start, start + 1, sentence, Cure(failure.begin, failure.end, text))
