"""Where the TOML parser stopped in a statement, and the text around that place."""

from __future__ import annotations

from functools import cached_property

from tundish.text.toml_mistakes.scanner import Scanner, Token


class Failure:
    """A statement that cannot be read.

    Attributes:
        text: The statement.
        at: Index of where the parser stopped.
        message: Its error message.
    """

    def __init__(self, text: str, at: int, message: str) -> None:
        self.text = text
        self.at = at
        self.message = message

    @property
    def is_header(self) -> bool:
        """Return whether the statement is the header of a table."""
        return self.text.lstrip(" \t").startswith("[")

    @property
    def here(self) -> str:
        """Return the text from where the parser stopped to the end of the line."""
        return self.text[self.at : self.line_end(self.at)]

    @property
    def raw(self) -> str:
        """Return the text where the value should be, without white space around it."""
        return self.text[self.begin : self.end]

    @property
    def in_value(self) -> bool:
        """Return whether the parser stopped in a value or right behind it."""
        return not self.is_header and (self._before == "=" or self.inside == "[")

    @property
    def inside(self) -> str:
        """Return the bracket around the place, or an empty text."""
        return self.text[self.around[-1]] if self.around else ""

    @property
    def begin(self) -> int:
        """Return the index at which the value, or the entry of a list, begins."""
        return self._item[0]

    @property
    def end(self) -> int:
        """Return the index behind it."""
        return self._item[1]

    @property
    def around(self) -> list[int]:
        """Return the indices of the brackets that are open where the parser stopped."""
        return self._context[0]

    @property
    def _before(self) -> str:
        """Return the mark behind which the value begins."""
        after = self._context[1]
        return self.text[after - 1] if after else ""

    @cached_property
    def tokens(self) -> list[Token]:
        """Return the tokens of the statement."""
        return list(Scanner(self.text).tokens())

    @cached_property
    def _context(self) -> tuple[list[int], int]:
        """Return the open brackets, and the index behind the last mark before the place."""
        around, outside, after = list[int](), list[int](), 0
        for token in self.tokens:
            if token.end > self.at:
                break
            if token.kind == "open":
                around.append(token.start)
                outside.append(after)
                after = token.end
            elif token.kind == "close" and around:
                around.pop()
                after = outside.pop()
            elif token.kind == "mark" and (around or (not after and self._parts(token))):
                after = token.end
        return around, after

    def _parts(self, token: Token) -> bool:
        """Return whether a mark outside all brackets parts a key from its value."""
        return self.text[token.start] == "="

    @cached_property
    def _item(self) -> tuple[int, int]:
        start, deeper, end = self._context[1], 0, len(self.text)
        while start < len(self.text) and self.text[start] in " \t\n":
            start += 1
        start = min(start, self.line_end(self._context[1])) if not self.around else start
        for token in self.tokens:
            if token.start < start:
                continue
            ends = token.kind in ("newline", "comment") or (
                self.around and (self.text[token.start] == "," or token.kind == "close")
            )
            if deeper == 0 and ends:
                end = token.start
                break
            deeper += (token.kind == "open") - (token.kind == "close")
        return start, max(start, start + len(self.text[start:end].rstrip(" \t\n")))

    def line_end(self, at: int) -> int:
        """Return the index of the end of the line on which an index is."""
        end = self.text.find("\n", at)
        return len(self.text) if end < 0 else end

    @property
    def unclosed(self) -> Token | None:
        """Return the text that is not closed, if there is one around the place."""
        unclosed = (token for token in self.tokens if token.kind == "unclosed")
        return next((token for token in unclosed if token.end >= self.at), None)

    @property
    def closes_no_text(self) -> bool:
        """Return whether the value is a text that is not closed."""
        return self.unclosed is not None and self.unclosed.start == self.begin

    @cached_property
    def unclosed_brackets(self) -> list[int]:
        """Return the indices of the brackets that nothing in the statement closes."""
        unclosed: list[int] = []
        for token in self.tokens:
            if token.kind == "open":
                unclosed.append(token.start)
            elif token.kind == "close" and unclosed:
                unclosed.pop()
        return unclosed

    @cached_property
    def end_of_tokens(self) -> int:
        """Return the index behind the last character that is neither white space nor comment."""
        end = 0
        for token in self.tokens:
            piece = self.text[token.start : token.end]
            if token.kind not in ("comment", "newline") and not piece.isspace():
                end = token.start + len(piece.rstrip(" \t\n"))
        return end
