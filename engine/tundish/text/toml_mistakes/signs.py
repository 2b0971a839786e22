"""Signs between key, value and comment that are wrong or missing, and spaces that are none."""

from __future__ import annotations

import re
import unicodedata

from tundish.text.toml_mistakes.failure import Failure
from tundish.text.toml_mistakes.mistake import Cure, Mistake
from tundish.text.toml_mistakes.scanner import KEY

_COMMENT_MARK = re.compile(r"//|/\*|;|--[ \t]|<!--|%")
VALUE_BEHIND = re.compile(r"[\"'0-9+\-\[{“”„«‘’]|(?:true|false|yes|no|none)\b", re.IGNORECASE)
"""How a value begins."""

_OTHER_EQUALS = re.compile(r"[ \t]*(:=|==+|=>|->|:|＝|：|<-)[ \t]*")


def odd_space(failure: Failure) -> Mistake | None:
    """Recognise spaces and signs without width that look like nothing and are no white space."""
    text, at = failure.text, failure.at
    if at >= len(text) or not is_odd(text[at]):
        return None
    if text[at] == "\r":
        return Mistake(at, at + 1, _LINE_ENDS, None)
    end = at
    while end < len(text) and is_odd(text[end]) and text[end].isspace() == text[at].isspace():
        end += 1
    behind_number = failure.in_value and failure.begin < at and end < failure.end
    if behind_number and text[at - 1].isdigit():
        return None  # a quantity without quotes, its unit behind a space that does not break
    code = f"U+{ord(text[at]):04X}"
    name = unicodedata.name(text[at], "").lower() or "a control character"
    blank = text[at].isspace()
    mend = "type a plain space" if blank else "delete it"
    sentence = f"Here stands {code} ({name}), which TOML does not take; {mend}."
    return Mistake(at, end, sentence, Cure(at, end, " " * (end - at) if blank else ""))


_LINE_ENDS = (
    "Here stands a carriage return without a line feed; save the file with the line ends of your "
    "system."
)


def is_odd(character: str) -> bool:
    """Return whether a character shows nothing and is no white space of TOML."""
    if character in " \t\n":
        return False
    return character.isspace() or unicodedata.category(character) in ("Cf", "Cc", "Zs", "Zl", "Zp")


def comment_mark(failure: Failure) -> Mistake | None:
    """Recognise //, ; and their like before a comment."""
    text = failure.text
    if not failure.around and (match := _COMMENT_MARK.match(text, first_sign(text))):
        return _comment(match.start(), match.end(), text)
    if not failure.in_value and not failure.is_header:
        return None
    for token in failure.tokens:
        if token.end <= failure.at or token.start >= failure.line_end(failure.at):
            continue
        start = max(token.start, failure.at)
        if token.kind != "other":
            if token.kind in ("text", "unclosed", "comment"):
                return None
            continue
        if match := re.compile(r"(?:(?<=\s)|(?<=[\"'\]}]))//|;|/\*").search(text, start, token.end):
            if text[match.end() : failure.line_end(match.end())].strip() or match[0] != ";":
                return _comment(match.start(), match.end(), text)
            return Mistake(*match.span(), _NO_SEMICOLON, Cure(*match.span(), " " * len(match[0])))
    return None


_NO_SEMICOLON = "A line ends without a semicolon; delete it."


def _comment(start: int, end: int, text: str) -> Mistake:
    sentence = f"A comment begins with #; write # for {text[start:end].strip()}."
    return Mistake(start, end, sentence, Cure(start, end, "#".ljust(end - start)))


def first_sign(text: str) -> int:
    """Return the index of the first sign of a statement."""
    return len(text) - len(text.lstrip(" \t"))


def other_equals(failure: Failure) -> Mistake | None:
    """Recognise a colon, or another sign, for the =."""
    text = failure.text
    if failure.in_value:
        return _equals_twice(failure)
    if failure.is_header or "=" not in failure.message:
        return None
    match = _OTHER_EQUALS.match(text, failure.at)
    if match is None:
        return None
    start, end = match.span(1)
    key = text[: failure.at].strip()
    if not text[end : failure.line_end(end)].strip() and not failure.around and match[1] == ":":
        sentence = f"A table is opened by its name in brackets; write [{key}]."
        return Mistake(start, end, sentence, Cure(0, end, f"[{key}]"))
    sentence = f"Between a key and its value stands =, not {match[1]}."
    return Mistake(start, end, sentence, Cure(start, end, "="))


def _equals_twice(failure: Failure) -> Mistake | None:
    match = re.match(r"[=>]+", failure.raw)
    if match is None or failure.at != failure.begin:
        return None
    start, end = failure.begin - 1, failure.begin + match.end()
    sentence = "Between a key and its value stands one =; delete what stands behind it."
    return Mistake(start, end, sentence, Cure(start + 1, end, " " * (end - start - 1)))


def no_equals(failure: Failure) -> Mistake | None:
    """Recognise a key and a value with nothing between them, or a key alone."""
    if failure.is_header or failure.in_value or "'='" not in failure.message.replace('"', "'"):
        return None
    before, behind = failure.text[: failure.at], failure.here
    key = before.strip(" \t,{")
    if not behind.strip() or behind.lstrip()[0] in "},#":
        sentence = f"Behind the key there is no = and no value; write {key} = and the value."
        return Mistake(failure.at - 1, failure.at, sentence, None)
    if not VALUE_BEHIND.match(behind) or re.match(rf"{KEY}[ \t]*[=:]", behind):
        return None
    sentence = "Between a key and its value stands =; write it here."
    return Mistake(failure.at, failure.at + 1, sentence, Cure(failure.at, failure.at, "= "))


def missing_value(failure: Failure) -> Mistake | None:
    """Recognise a key with nothing behind its =."""
    if not failure.in_value or failure.raw or failure.inside == "[":
        return None
    sentence = (
        "Behind the = there is no value; write one, or leave the line out while it is not known."
    )
    text = failure.text
    cure = None if failure.around else Cure(0, len(text), "\n" * text.count("\n"))
    return Mistake(failure.begin, failure.begin + 1, sentence, cure)


def text_after(failure: Failure) -> Mistake | None:
    """Recognise more on a line than a value or a header."""
    if failure.around or not failure.message.startswith("Expected newline"):
        return None
    at, behind = failure.at, failure.here
    end = at + len(behind.rstrip())
    delete = Cure(at, end, " " * (end - at))
    if re.fullmatch(r"[\]})]+", behind.strip()):
        return Mistake(at, end, "This bracket closes nothing; delete it.", delete)
    if behind.strip() == ",":
        return Mistake(at, end, "A line ends without a comma; delete it.", delete)
    before = "the header" if failure.is_header else "the value"
    if re.match(rf"[,;]?[ \t]*{KEY}[ \t]*=", behind):
        sentence = f"Behind {before} begins another key; write it on a line of its own."
    else:
        sentence = f"Behind {before} stands more; put # before it if it is a comment, or delete it."
    return Mistake(at, end, sentence, Cure(at, at, "#"))
