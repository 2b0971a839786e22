"""Splitting an expression into its words; what another notation writes is told and understood.

What is told so does not end the reading: the sign that was meant stands in its place, so that all
that is wrong in an expression is told at once.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tundish.groundwork.dataclass import dataclass
from tundish.language.syntax import tokens as w
from tundish.language.syntax.problem import ExpressionError, ExpressionProblem
from tundish.language.syntax.tokens import RESERVED, Word
from tundish.text.bounds import LONGEST_EXPRESSION, MOST_TOKENS
from tundish.units.unit import nearest_units, read_unit

if TYPE_CHECKING:
    from tundish.language.syntax.other_notations import Foreign


@dataclass(frozen=True, slots=True)
class Lexed:
    """An expression as words.

    Attributes:
        words: The words, ending with one of kind ``end``.
        problems: What is written as another notation writes it.
    """

    words: list[Word]
    problems: list[ExpressionProblem]


def split_words(expression: str) -> Lexed:
    """Split an expression into its words.

    Raises:
        ExpressionError: If something means nothing, in whatever notation: a character that fits
            nowhere, a unit that is unknown; or if a bound is passed.

    Example:
        >>> [word.text for word in split_words("depth >= 150 mm").words]
        ['depth', '>=', '150', '']
    """
    if len(expression) > LONGEST_EXPRESSION:
        sentence = f"An expression holds at most {LONGEST_EXPRESSION:,} characters."
        raise ExpressionError([ExpressionProblem(0, 1, sentence)])
    lexer = _Lexer(expression)
    lexer.read()
    if lexer.is_lost:
        raise ExpressionError(lexer.problems)
    return Lexed(lexer.words, lexer.problems)


class _Lexer:
    """One walk through one expression."""

    def __init__(self, expression: str) -> None:
        self.words: list[Word] = []
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
            self._word()
            if len(self.words) > MOST_TOKENS:
                sentence = f"An expression holds at most {MOST_TOKENS:,} words and signs."
                raise ExpressionError([ExpressionProblem(self._at, self._at, sentence)])
        self.words.append(Word("end", "", len(text), len(text)))

    def _blanks(self, blanks: str, end: int) -> None:
        if not blanks.isascii():
            from tundish.language.syntax.other_notations import strange_blanks

            for at in range(self._at, end):
                for foreign in strange_blanks(self._text, at)[:1]:
                    self._tell(foreign)
        self._at = end

    def _word(self) -> None:
        text, at = self._text, self._at
        if match := w.NUMBER.match(text, at):
            self._number(match[0], match.end())
        elif match := w.NAME.match(text, at):
            self._name(match[0], match.end())
        elif match := w.TEXT.match(text, at):
            self._add(Word("text", match[1], at, match.end()))
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
                self._lose(unknown.start, unknown.end, f"'{unknown.text}' is no known unit.{hint}")
                self._at = unknown.end
            return
        if unit is not None or not self._may_be_inches(end) or not self._is_imperial(end):
            self._add(Word("number", number, self._at, after, unit))

    def _past_strange_blanks(self, end: int) -> int:
        """Tell blanks between a number and its unit that are no ordinary ones; return their end."""
        if self._text[end : end + 1].isascii():
            return end
        from tundish.language.syntax.other_notations import strange_blanks

        for foreign in strange_blanks(self._text, end):
            self._tell(foreign)
            end = foreign.end
        return end

    def _may_be_inches(self, end: int) -> bool:
        """Say whether a number without a unit may have inches or feet after it: 6", 3/4", 6 in."""
        following = self._text[end : end + 3].lstrip(" ")
        return following[:1] in tuple("\"'/″′’”0123456789") or following[:2] == "in"

    def _is_imperial(self, end: int) -> bool:
        """Take a quantity in a unit of another trade, if one stands here."""
        from tundish.units.imperial import metric_at

        metric = metric_at(self._text, self._at)
        if metric is None or self._is_membership(end, metric.end):
            return False
        self._note(self._at, metric.end, metric.sentence)
        number, unit = f"{metric.magnitude:f}", read_unit(metric.unit)
        self._add(Word("number", number, self._at, metric.end, unit))
        return True

    def _is_membership(self, end: int, after: int) -> bool:
        """Say whether "in" after a number asks for it in a list, and is no inch."""
        if self._text[end:after].strip() != "in":
            return False
        rest = self._text[after:].lstrip()
        name = w.NAME.match(rest)
        return rest[:1] in ("[", "(", "{") or (name is not None and name[0].lower() not in RESERVED)

    def _is_decimal_comma(self, end: int) -> bool:
        """Take a number with a decimal comma, if one stands where no comma can."""
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
        self._add(Word("number", number, self._at, after, unit))
        return True

    # -- names and signs --------------------------------------------------------------------

    def _name(self, name: str, end: int) -> None:
        if name in RESERVED:
            self._add(Word("reserved", name, self._at, end, mark=name))
        elif name.lower() in RESERVED:
            self._note(self._at, end, f"Write '{name.lower()}' in small letters.")
            self._add(Word("reserved", name.lower(), self._at, end, mark=name.lower()))
        elif not self._is_phrase():
            self._add(Word("name", name, self._at, end))

    def _is_phrase(self) -> bool:
        """Take words that stand for a sign, where no name can stand: right after a value."""
        if not self.words or not _ends_a_value(self.words[-1]):
            return False
        from tundish.language.syntax.other_notations import foreign_phrase

        foreign = foreign_phrase(self._text, self._at)
        if foreign is None:
            return False
        self._tell(foreign)
        self._put_meant(foreign)
        return True

    def _sign(self, sign: str, end: int) -> None:
        if sign in "([":
            before = self.words[-1] if self.words else None
            is_call = before is not None and (before.kind == "name" or before.mark == "in")
            self._open.append(sign == "[" or is_call)
        elif sign in ")]" and self._open:
            self._open.pop()
        self._add(Word("sign", sign, self._at, end, mark=sign))

    def _other(self) -> None:
        """Take what no word of the language begins with."""
        from tundish.language.syntax import other_notations as other

        text, at = self._text, self._at
        if foreign := other.foreign_quotes(text, at):
            self._tell(foreign)
            self._add(Word("text", foreign.meant, at, foreign.after))
        elif foreign := other.foreign_sign(text, at):
            self._tell(foreign)
            self._put_meant(foreign)
        elif blanks := other.strange_blanks(text, at):
            self._tell(blanks[0])
            self._at += 1
        else:
            self._stray(text[at])

    def _stray(self, character: str) -> None:
        from tundish.language.syntax.other_notations import QUOTES, SPELLED_OUT

        at = self._at
        if character in QUOTES:
            # Where the text was to end nobody knows, so that nothing after it is looked at.
            sentence = "A text stands between single quotes, on one line: 'outdoor air'."
            self._lose(at, at + 1, sentence)
            self._at = len(self._text)
            return
        sentence = f"The character {character!r} has no meaning in an expression."
        self._lose(at, at + 1, SPELLED_OUT.get(character, sentence))
        self._at += 1

    # -- what all do ------------------------------------------------------------------------

    def _add(self, word: Word) -> None:
        self.words.append(word)
        self._at = word.end

    def _put_meant(self, foreign: Foreign) -> None:
        for meant in foreign.meant.split():
            self._at = foreign.start
            if meant in RESERVED:
                self._add(Word("reserved", meant, foreign.start, foreign.after, mark=meant))
            elif meant[0].isdigit():
                self._add(Word("number", meant, foreign.start, foreign.after))
            elif meant[0].isalpha():
                self._add(Word("name", meant, foreign.start, foreign.after))
            else:
                self._sign(meant, foreign.after)

    def _tell(self, foreign: Foreign) -> None:
        self._note(foreign.start, foreign.end, foreign.sentence)

    def _note(self, start: int, end: int, sentence: str) -> None:
        self.problems.append(ExpressionProblem(start, end, sentence))

    def _lose(self, start: int, end: int, sentence: str) -> None:
        """Note what cannot be understood, so that the words are not worth reading further."""
        self._note(start, end, sentence)
        self.is_lost = True


def _ends_a_value(word: Word) -> bool:
    return word.kind in ("number", "name", "text") or word.mark in (")", "]", "true", "false")
