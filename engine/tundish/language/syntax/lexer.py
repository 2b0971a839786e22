"""The lexer: an expression split into tokens, with the habits of other notations understood.

A sign of another notation is a problem, but it does not stop the lexer: the sign that was meant
takes its place, so that one run reports everything that is wrong.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tundish.groundwork.dataclass import dataclass
from tundish.language.syntax import tokens as w
from tundish.language.syntax.problem import ExpressionError, ExpressionProblem
from tundish.language.syntax.tokens import RESERVED, Token
from tundish.text.bounds import LONGEST_EXPRESSION, MOST_TOKENS
from tundish.units.unit import nearest_units, read_unit

if TYPE_CHECKING:
    from tundish.language.syntax.other_notations import Foreign


@dataclass(frozen=True, slots=True)
class Lexed:
    """An expression as tokens.

    Attributes:
        tokens: The tokens; the last is of kind ``end``.
        problems: What is written in another notation.
    """

    tokens: list[Token]
    problems: list[ExpressionProblem]


def tokenize(expression: str) -> Lexed:
    """Split an expression into its tokens.

    Raises:
        ExpressionError: If something means nothing, in whatever notation: a character that fits
            nowhere, a unit that is unknown; or if a bound is passed.

    Example:
        >>> [token.text for token in tokenize("depth >= 150 mm").tokens]
        ['depth', '>=', '150', '']
    """
    if len(expression) > LONGEST_EXPRESSION:
        sentence = f"An expression holds at most {LONGEST_EXPRESSION:,} characters."
        raise ExpressionError([ExpressionProblem(0, 1, sentence)])
    lexer = _Lexer(expression)
    lexer.read()
    if lexer.is_lost:
        raise ExpressionError(lexer.problems)
    return Lexed(lexer.tokens, lexer.problems)


class _Lexer:
    """One walk through one expression."""

    def __init__(self, expression: str) -> None:
        self.tokens: list[Token] = []
        self.problems: list[ExpressionProblem] = []
        self.is_lost = False
        self._text = expression
        self._at = 0
        self._open: list[bool] = []  # of each open bracket, whether commas may stand in it

    def read(self) -> None:
        text = self._text
        while self._at < len(text):
            if match := w.SPACE.match(text, self._at):
                self._blanks(match[0], match.end())
                continue
            self._next()
            if len(self.tokens) > MOST_TOKENS:
                sentence = f"An expression holds at most {MOST_TOKENS:,} words and signs."
                raise ExpressionError([ExpressionProblem(self._at, self._at, sentence)])
        self.tokens.append(Token("end", "", len(text), len(text)))

    def _blanks(self, blanks: str, end: int) -> None:
        if not blanks.isascii():
            from tundish.language.syntax.other_notations import strange_blanks

            for at in range(self._at, end):
                for foreign in strange_blanks(self._text, at)[:1]:
                    self._report(foreign)
        self._at = end

    def _next(self) -> None:
        text, at = self._text, self._at
        if match := w.NUMBER.match(text, at):
            self._number(match[0], match.end())
        elif match := w.NAME.match(text, at):
            self._name(match[0], match.end())
        elif match := w.TEXT.match(text, at):
            self._add(Token("text", match[1], at, match.end()))
        elif match := w.SIGN.match(text, at):
            self._sign(match[0], match.end())
        else:
            self._other()

    # -- numbers ----------------------------------------------------------------------------

    def _number(self, number: str, end: int) -> None:
        if self._is_decimal_comma(end):
            return
        end = self._past_strange_blanks(end)
        try:
            unit, after = w.unit_after(self._text, end)
        except w.UnknownUnitError as unknown:
            if not self._is_imperial(end):
                hint = nearest_units(unknown.text)
                self._fail(unknown.start, unknown.end, f"'{unknown.text}' is no known unit.{hint}")
                self._at = unknown.end
            return
        if unit is not None or not self._may_be_inches(end) or not self._is_imperial(end):
            self._add(Token("number", number, self._at, after, unit))

    def _past_strange_blanks(self, end: int) -> int:
        """Report unusual blanks between a number and its unit; return where they end."""
        if self._text[end : end + 1].isascii():
            return end
        from tundish.language.syntax.other_notations import strange_blanks

        for foreign in strange_blanks(self._text, end):
            self._report(foreign)
            end = foreign.end
        return end

    def _may_be_inches(self, end: int) -> bool:
        """Say whether a number without a unit may have inches or feet after it: 6", 3/4", 6 in."""
        following = self._text[end : end + 3].lstrip(" ")
        return following[:1] in tuple("\"'/″′’”0123456789") or following[:2] == "in"

    def _is_imperial(self, end: int) -> bool:
        """Read a quantity in an imperial unit, if one stands here."""
        from tundish.units.imperial import metric_at

        metric = metric_at(self._text, self._at)
        if metric is None or self._is_membership(end, metric.end):
            return False
        self._note(self._at, metric.end, metric.sentence)
        number, unit = f"{metric.magnitude:f}", read_unit(metric.unit)
        self._add(Token("number", number, self._at, metric.end, unit))
        return True

    def _is_membership(self, end: int, after: int) -> bool:
        """Say whether "in" after a number asks for it in a list, and is no inch."""
        if self._text[end:after].strip() != "in":
            return False
        following = self._text[after:].lstrip()
        name = w.NAME.match(following)
        return following[:1] in ("[", "(", "{") or (
            name is not None and name[0].lower() not in RESERVED
        )

    def _is_decimal_comma(self, end: int) -> bool:
        """Read a number with a decimal comma, where no other comma can stand."""
        text = self._text
        decimals = w.NUMBER.match(text, end + 1) if text[end : end + 1] == "," else None
        if decimals is None or (self._open and self._open[-1]):
            return False
        written = text[self._at : decimals.end()]
        if "." in written or "e" in written.lower():
            return False
        number = written.replace(",", ".")
        sentence = f"The decimal sign is a point: write {number}."
        if len(decimals[0]) == 3:
            whole = written.replace(",", "")
            sentence = f"'{written}' can be read two ways: write {number} or {whole}."
        self._note(self._at, decimals.end(), sentence)
        try:
            unit, after = w.unit_after(text, decimals.end())
        except w.UnknownUnitError:
            unit, after = None, decimals.end()
            self.is_lost = True
        self._add(Token("number", number, self._at, after, unit))
        return True

    # -- names and signs --------------------------------------------------------------------

    def _name(self, name: str, end: int) -> None:
        if name in RESERVED:
            self._add(Token("reserved", name, self._at, end, mark=name))
        elif name.lower() in RESERVED:
            self._note(self._at, end, f"Write '{name.lower()}' in small letters.")
            self._add(Token("reserved", name.lower(), self._at, end, mark=name.lower()))
        elif not self._is_phrase():
            self._add(Token("name", name, self._at, end))

    def _is_phrase(self) -> bool:
        """Read words that stand for a sign right after a value, where no name can stand."""
        if not self.tokens or not _ends_a_value(self.tokens[-1]):
            return False
        from tundish.language.syntax.other_notations import foreign_phrase

        foreign = foreign_phrase(self._text, self._at)
        if foreign is None:
            return False
        self._report(foreign)
        self._add_meant(foreign)
        return True

    def _sign(self, sign: str, end: int) -> None:
        if sign in "([":
            before = self.tokens[-1] if self.tokens else None
            is_call = before is not None and (before.kind == "name" or before.mark == "in")
            self._open.append(sign == "[" or is_call)
        elif sign in ")]" and self._open:
            self._open.pop()
        self._add(Token("sign", sign, self._at, end, mark=sign))

    def _other(self) -> None:
        """Read what no token of the language begins with."""
        from tundish.language.syntax import other_notations as other

        text, at = self._text, self._at
        if foreign := other.foreign_quotes(text, at):
            self._report(foreign)
            self._add(Token("text", foreign.meant, at, foreign.after))
        elif foreign := other.foreign_sign(text, at):
            self._report(foreign)
            self._add_meant(foreign)
        elif blanks := other.strange_blanks(text, at):
            self._report(blanks[0])
            self._at += 1
        else:
            self._stray(text[at])

    def _stray(self, character: str) -> None:
        from tundish.language.syntax.other_notations import QUOTES, SPELLED_OUT

        at = self._at
        if character in QUOTES:
            # It is not known where the text should end, so nothing behind it is read.
            sentence = "A text stands between single quotes, on one line: 'outdoor air'."
            self._fail(at, at + 1, sentence)
            self._at = len(self._text)
            return
        sentence = f"The character {character!r} has no meaning in an expression."
        self._fail(at, at + 1, SPELLED_OUT.get(character, sentence))
        self._at += 1

    # -- tokens and problems ----------------------------------------------------------------

    def _add(self, token: Token) -> None:
        self.tokens.append(token)
        self._at = token.end

    def _add_meant(self, foreign: Foreign) -> None:
        for meant in foreign.meant.split():
            self._at = foreign.start
            if meant in RESERVED:
                self._add(Token("reserved", meant, foreign.start, foreign.after, mark=meant))
            elif meant[0].isdigit():
                self._add(Token("number", meant, foreign.start, foreign.after))
            elif meant[0].isalpha():
                self._add(Token("name", meant, foreign.start, foreign.after))
            else:
                self._sign(meant, foreign.after)

    def _report(self, foreign: Foreign) -> None:
        self._note(foreign.start, foreign.end, foreign.sentence)

    def _note(self, start: int, end: int, sentence: str) -> None:
        self.problems.append(ExpressionProblem(start, end, sentence))

    def _fail(self, start: int, end: int, sentence: str) -> None:
        """Report what cannot be understood; the tokens are then not worth parsing."""
        self._note(start, end, sentence)
        self.is_lost = True


def _ends_a_value(token: Token) -> bool:
    return token.kind in ("number", "name", "text") or token.mark in (")", "]", "true", "false")
