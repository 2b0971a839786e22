"""Reading an expression into its syntax tree, by recursive descent.

From loosest to tightest: if-then-else, or, and, not, comparison and ``in``, ``+ -``, ``* /``,
minus sign, ``^``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from tundish.language.operations.operators import ARITHMETIC, RELATIONS, TIGHTEST
from tundish.language.syntax import syntax_tree as s
from tundish.language.syntax.lexer import tokenize
from tundish.language.syntax.problem import ExpressionError, ExpressionProblem
from tundish.language.syntax.tokens import Token, missing_quotes
from tundish.text.bounds import DEEPEST_NESTING, LONGEST_CHAIN


def parse(expression: str) -> s.Syntax:
    """Read an expression.

    Args:
        expression: The text, for instance ``free_water_volume >= unit.water.minimum_free_volume``.

    Returns:
        The root of its syntax tree.

    Raises:
        ExpressionError: If it is not an expression of the language, or passes a bound.
    """
    root, problems = parse_on(expression)
    if problems:
        raise ExpressionError(problems)
    return root


def parse_on(expression: str) -> tuple[s.Syntax, list[ExpressionProblem]]:
    """Read an expression, past what another notation writes in it.

    Args:
        expression: The text.

    Returns:
        The root of its syntax tree, as it was meant; and what is to be written otherwise.

    Raises:
        ExpressionError: If it is not an expression of the language even so, or passes a bound.
    """
    lexed = tokenize(expression)
    parser = _Parser(lexed.tokens, lexed.problems)
    try:
        return parser.whole(), parser.problems
    except ExpressionError as error:
        raise ExpressionError([*parser.problems, *error.problems]) from None


class _Parser:
    """One pass over the tokens of one expression."""

    def __init__(self, tokens: list[Token], problems: list[ExpressionProblem]) -> None:
        self.problems = problems
        self._tokens = tokens
        self._at = 0
        self._token = tokens[0]
        self._depth = 0

    def whole(self) -> s.Syntax:
        if self._at_end():
            raise self._refusal("The expression is empty.")
        root = self._expression()
        if not self._at_end():
            sentence = f"Nothing fits here after what stands before{self._where()}."
            raise self._refusal(sentence + missing_quotes(self._tokens, self._at))
        return root

    # -- from loosest to tightest ---------------------------------------------------------

    def _expression(self) -> s.Syntax:
        self._depth += 1
        if self._depth > DEEPEST_NESTING:
            raise self._refusal(f"Parts are nested more than {DEEPEST_NESTING} deep.")
        node = self._choice() if self._is("if") else self._logic("or", self._conjunction)
        self._depth -= 1
        return node

    def _choice(self) -> s.Syntax:
        start = self._take().start
        condition = self._expression()
        self._expect("then")
        then = self._expression()
        self._expect("else")
        otherwise = self._expression()
        return s.ChoiceSyntax(start, otherwise.end, condition, then, otherwise)

    def _conjunction(self) -> s.Syntax:
        return self._logic("and", self._negation)

    def _logic(self, word: str, part: Callable[[], s.Syntax]) -> s.Syntax:
        parts = [part()]
        while self._is(word):
            self._take()
            parts.append(part())
        if len(parts) == 1:
            return parts[0]
        return s.LogicSyntax(parts[0].start, parts[-1].end, word, tuple(parts))

    def _negation(self) -> s.Syntax:
        if not self._is("not"):
            return self._comparison()
        start = self._take().start
        operand = self._nested(self._negation)
        return s.NotSyntax(start, operand.end, operand)

    def _comparison(self) -> s.Syntax:
        operands = [self._sum()]
        signs: list[str] = []
        if self._is("in") or (self._is("not") and self._next_is("in")):
            return self._membership(operands[0])
        while self._token.mark in RELATIONS:
            signs.append(self._take().text)
            operands.append(self._sum())
        if not signs:
            return operands[0]
        return s.ComparisonSyntax(
            operands[0].start, operands[-1].end, tuple(signs), tuple(operands)
        )

    def _membership(self, member: s.Syntax) -> s.Syntax:
        negated = self._is("not")
        if negated:
            self._take()
        self._expect("in")
        options = self._options()
        node: s.Syntax = s.MembershipSyntax(member.start, options.end, member, options)
        return s.NotSyntax(node.start, node.end, node) if negated else node

    def _options(self) -> s.Syntax:
        if self._is("["):
            return self._list("]")
        if not self._is("(") or self._tokens[self._at + 1].kind not in ("text", "number"):
            return self._sum()
        begin = self._at + 1
        options = self._list(")")
        inside = " ".join(token.written for token in self._tokens[begin : self._at - 1])
        sentence = f"A list stands in square brackets: [{inside.replace(' ,', ',')}]."
        self.problems.append(ExpressionProblem(options.start, options.end, sentence))
        return options

    def _list(self, closing: str) -> s.Syntax:
        start = self._take().start
        items: list[s.Syntax] = []
        while not self._is(closing):
            if items:
                self._expect(",")
            items.append(self._minus())
        return s.ListSyntax(start, self._take().end, tuple(items))

    def _sum(self, tightness: int = 1) -> s.Syntax:
        """Read what is joined by operators that bind as tightly as this, or tighter."""
        if tightness == TIGHTEST:
            return self._minus()
        node = self._sum(tightness + 1)
        length = 1
        while self._binds(tightness):
            length += 1
            if length > LONGEST_CHAIN:
                raise self._refusal(f"At most {LONGEST_CHAIN} terms may stand in a row.")
            sign = self._take().text
            right = self._sum(tightness + 1)
            node = s.ArithmeticSyntax(node.start, right.end, sign, node, right)
        return node

    def _minus(self) -> s.Syntax:
        if not self._is("-"):
            return self._power()
        start = self._take().start
        operand = self._nested(self._minus)
        if isinstance(operand, s.NumberSyntax):
            # "-3 degC" is a place on the scale, not the opposite of "3 degC".
            return replace(operand, start=start, magnitude=-operand.magnitude)
        return s.NegateSyntax(start, operand.end, operand)

    def _power(self) -> s.Syntax:
        node = self._atom()
        if not self._binds(TIGHTEST):
            return node
        sign = self._take().text
        right = self._nested(self._minus)
        return s.ArithmeticSyntax(node.start, right.end, sign, node, right)

    def _binds(self, tightness: int) -> bool:
        """Say whether an operator stands here that binds just so tightly."""
        operator = ARITHMETIC.get(self._token.mark)
        return operator is not None and operator.tightness == tightness

    # -- the smallest parts -----------------------------------------------------------------

    def _atom(self) -> s.Syntax:
        token = self._token
        if token.kind == "number":
            self._take()
            return s.NumberSyntax(token.start, token.end, Decimal(token.text), token.unit)
        if token.kind == "text":
            self._take()
            return s.TextSyntax(token.start, token.end, token.text)
        if self._is("true") or self._is("false"):
            self._take()
            return s.TruthSyntax(token.start, token.end, token.text == "true")
        if token.kind == "name":
            self._take()
            if self._is("("):
                return self._call(token)
            return s.NameSyntax(token.start, token.end, token.text)
        if self._is("("):
            self._take()
            inner = self._expression()
            end = self._expect(")").end
            return replace(inner, start=token.start, end=end)
        raise self._refusal(f"A value is missing here{self._where()}.")

    def _call(self, name: Token) -> s.Syntax:
        self._take()
        if self._is(")"):
            return s.CallSyntax(name.start, self._take().end, name.text, ())
        arguments = [self._expression()]
        while self._is(","):
            self._take()
            arguments.append(self._expression())
        if self._is("for"):
            return self._loop(name, arguments)
        end = self._expect(")").end
        return s.CallSyntax(name.start, end, name.text, tuple(arguments))

    def _loop(self, name: Token, terms: list[s.Syntax]) -> s.Syntax:
        self._take()
        token = self._token
        if token.kind != "name" or "." in token.text:
            raise self._refusal("After 'for' stands a name for the item, such as 'run'.")
        self._take()
        variable = s.NameSyntax(token.start, token.end, token.text)
        self._expect("in")
        items = self._sum()
        test: s.Syntax | None = None
        if self._is("if"):
            self._take()
            test = self._expression()
        end = self._expect(")").end
        if len(terms) == 1:
            return s.LoopSyntax(name.start, end, name.text, terms[0], variable, items, test)
        return s.InterpolationSyntax(
            name.start, end, name.text, tuple(terms), variable, items, test
        )

    # -- tokens -----------------------------------------------------------------------------

    def _at_end(self) -> bool:
        return self._token.kind == "end"

    def _is(self, text: str) -> bool:
        return self._token.mark == text

    def _next_is(self, text: str) -> bool:
        following = self._tokens[min(self._at + 1, len(self._tokens) - 1)]
        return following.kind == "reserved" and following.text == text

    def _take(self) -> Token:
        token = self._token
        self._at += 1
        # The last token, which marks the end, stays the current one.
        self._token = self._tokens[min(self._at, len(self._tokens) - 1)]
        return token

    def _expect(self, text: str) -> Token:
        if not self._is(text):
            sentence = f"'{text}' is missing here{self._where()}."
            raise self._refusal(sentence + missing_quotes(self._tokens, self._at))
        return self._take()

    def _nested(self, part: Callable[[], s.Syntax]) -> s.Syntax:
        """Read a part that can contain itself without brackets, within the bound."""
        self._depth += 1
        if self._depth > DEEPEST_NESTING:
            raise self._refusal(f"Parts are nested more than {DEEPEST_NESTING} deep.")
        node = part()
        self._depth -= 1
        return node

    def _where(self) -> str:
        token = self._token
        return ", where the expression ends" if self._at_end() else f", before '{token.text}'"

    def _refusal(self, sentence: str) -> ExpressionError:
        token = self._token
        return ExpressionError([ExpressionProblem(token.start, token.end, sentence)])
