"""Tokens and statements of a TOML text that may be broken."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from tundish.groundwork.dataclass import dataclass

CURLY_DOUBLE = "“”„‟«»＂"
CURLY_SINGLE = "‘’‚‛‹›´`"

_TOKEN = re.compile(
    rf"""
    (?P<long>\"{{3}}|'{{3}})
    |(?P<text>"[^"\\\n]*(?:\\[^\n][^"\\\n]*)*+"|'[^'\n]*'
        |[{CURLY_DOUBLE}][^\n{CURLY_DOUBLE}]*[{CURLY_DOUBLE}]
        |[{CURLY_SINGLE}][^\n{CURLY_SINGLE}]*[{CURLY_SINGLE}])
    |(?P<unclosed>["'][^\n]*)
    |(?P<comment>\#[^\n]*)
    |(?P<open>[\[{{])
    |(?P<close>[\]}}])
    |(?P<mark>[=,])
    |(?P<newline>\n(?:[ \t\n]*\n)?)
    |(?P<other>[^"'\#\[\]{{}}=,\n{CURLY_DOUBLE}{CURLY_SINGLE}]+|.)
    """,
    re.VERBOSE,
)
_ESCAPE_OR_CLOSE = re.compile(r'\\.|"""', re.DOTALL)

NAME = r"""(?:[A-Za-z0-9_-]+|"[^"\\\n]*(?:\\[^\n][^"\\\n]*)*+"|'[^'\n]*')"""
"""One name of a key, as a pattern."""

KEY = rf"{NAME}(?:[ \t]*\.[ \t]*{NAME})*"
"""A key of one name or of several with dots between them, as a pattern."""

# Neither can stand in a list: text like this begins a new statement.
_BEGINS_STATEMENT = re.compile(
    rf"^[ \t]*(?:{KEY}[ \t]*=(?!=)"
    r"|\[\[?[ \t]*(?!(?:true|false|inf|nan)\b)[A-Za-z_][A-Za-z0-9_. \t-]*\]\]?[ \t]*(?:\#.*)?$)",
    re.MULTILINE,
)
_LOOKED_AHEAD = 200
# Blank lines, and a comment that may stand behind them.
_BLANK = re.compile(r"[ \t\n]*(?:\#[^\x00-\x08\x0a-\x1f\x7f]*)?(?:\n|\Z)")


class Token(NamedTuple):
    """A piece of a text.

    Attributes:
        kind: ``text``, ``unclosed``, ``comment``, ``open``, ``close``, ``mark``, ``newline`` or
            ``other``.
        start: Index of its first character.
        end: Index after its last.
    """

    kind: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Statement:
    """A header, or a key with its value, from the start of its first line.

    Attributes:
        line: Its first line, counted from 1.
        text: Its lines, without the line end behind the last.
    """

    line: int
    text: str


class Scanner:
    """Splits a text into tokens, whether it is valid TOML or not, in linear time.

    Args:
        text: The text, with plain line ends.
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._unclosed: set[str] = set()  # triple quotes that are not closed from here on
        self._blank_run = (0, 0)  # the last run of blank lines and comments that was scanned

    def tokens(self, at: int = 0) -> Iterator[Token]:
        """Give the tokens from an index on."""
        while match := _TOKEN.match(self._text, at):
            kind, start, at = str(match.lastgroup), match.start(), match.end()
            if kind == "long":
                kind, at = self._long(match[0], at)
            yield Token(kind, start, at)

    def statements(self) -> Iterator[Statement]:
        """Give the statements, in order; together with blank lines and comments they are all."""
        at, line = 0, 1
        while True:
            after = self._past_blanks(at)
            line += self._text.count("\n", at, after)
            if after >= len(self._text):
                return
            end = self._end(after)
            statement = Statement(line, self._text[after:end])
            yield statement
            line += statement.text.count("\n") + 1
            at = end + 1

    def _long(self, mark: str, at: int) -> tuple[str, int]:
        """Return the kind and end of a text in three quotes."""
        end = -1 if mark in self._unclosed else self._closing(mark, at)
        if end < 0:
            self._unclosed.add(mark)
            begins = _BEGINS_STATEMENT.search(self._text, self._line_end(at))
            return "unclosed", begins.start() - 1 if begins else len(self._text)
        while end < len(self._text) and self._text[end] == mark[0] and end < at + len(mark) + 2:
            end += 1
        return "text", end

    def _closing(self, mark: str, at: int) -> int:
        """Return the index behind the closing quotes, or -1."""
        if mark == "'''":
            end = self._text.find(mark, at)
            return end if end < 0 else end + 3
        pieces = _ESCAPE_OR_CLOSE.finditer(self._text, at)
        return next((piece.end() for piece in pieces if piece[0] == mark), -1)

    def _end(self, at: int) -> int:
        """Return the index behind a statement."""
        if self._text[at : self._line_end(at)].lstrip(" \t").startswith("["):
            return self._line_end(at)
        around, last = list[str](), ""
        for token in self.tokens(at):
            piece = self._text[token.start]
            if token.kind == "open":
                around.append(piece)
            elif token.kind == "close" and around:
                around.pop()
            elif token.kind == "newline" and self._stops(token.end, around, last):
                return token.start
            if token.kind not in ("comment", "newline") and not (
                token.kind == "other" and self._text[token.start : token.end].isspace()
            ):
                last = piece
        return len(self._text)

    def _stops(self, at: int, around: list[str], last: str) -> bool:
        """Return whether a statement is at its end before the line that begins at an index."""
        if not around:
            return True
        if around[-1] == "[":
            return _BEGINS_STATEMENT.match(self._text, at) is not None
        after = self._past_blanks(at)
        following = self._text[after : after + _LOOKED_AHEAD].lstrip()
        return last not in tuple(",{[") and not following.startswith(tuple("},]"))

    def _past_blanks(self, at: int) -> int:
        """Return the start of the first line from an index on with more than a comment."""
        start, end = self._blank_run
        # Lines inside braces ask for the same run again and again; it is scanned once.
        if start <= at < end:
            return end
        start = at
        while at < len(self._text) and (blank := _BLANK.match(self._text, at)):
            at = blank.end()
        self._blank_run = (start, at)
        return at

    def _line_end(self, at: int) -> int:
        end = self._text.find("\n", at)
        return len(self._text) if end < 0 else end
