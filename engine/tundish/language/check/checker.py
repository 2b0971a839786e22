"""Checking an expression: every name resolved, every kind and dimension fitting, all at once."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language.check.calls import check_call, check_loop
from tundish.language.check.comparisons import (
    check_comparison,
    check_membership,
    not_a_choice,
)
from tundish.language.check.dimensions import arithmetic_kind, fit_levels, power_kind
from tundish.language.check.interpolation import check_interpolation
from tundish.language.check.names import check_name
from tundish.language.check.scope import Scope
from tundish.language.syntax import syntax_tree as s
from tundish.language.syntax.parser import parse_on
from tundish.language.syntax.problem import ExpressionError, ExpressionProblem
from tundish.language.tree import tree as t
from tundish.language.tree.kind import (
    TRUTH,
    Kind,
    fits,
    missing_unit,
    quantity_kind,
    text_kind,
    with_words_of,
)
from tundish.text.bounds import DEEPEST_TREE
from tundish.units.quantity import Quantity
from tundish.units.unit import MeasureError, read_unit

_ONE = read_unit("1")
_ONE_OF_SEVERAL = " To ask for one of several texts, write: name in ['a', 'b']."


def check_expression(
    expression: str,
    scope: Scope,
    variables: Mapping[str, str] | None = None,
    wanted: Kind | None = None,
) -> t.Node:
    """Read an expression and check it against the names it may use.

    Args:
        expression: The text.
        scope: What names mean.
        variables: Loop variables already bound, with the path of the list they run over.
        wanted: The kind the whole must have, where one is asked for.

    Returns:
        The checked tree.

    Raises:
        ExpressionError: With every problem found, each with its place.
    """
    root, problems = parse_on(expression)
    checker = Checker(scope, dict(variables or {}))
    checker.problems.extend(problems)
    node = checker.node(root)
    if node is not None and wanted is not None and not fits(node.kind, wanted):
        checker.refuse(root, f"This gives {node.kind}, where {wanted} is asked for.")
    if node is not None and wanted is not None and wanted.choices:
        for word in node.kind.choices:
            sentence = not_a_choice(word, wanted)
            if sentence:
                checker.refuse(root, sentence)
    if checker.problems or node is None:
        raise ExpressionError(checker.problems)
    return node


class Checker:
    """One check of one expression; a part that fails is None, and its parents stay silent."""

    def __init__(self, scope: Scope, variables: dict[str, str]) -> None:
        self.scope = scope
        self.variables = variables
        self.loops = 0
        self._depth = 0
        self._is_too_deep = False
        self.problems: list[ExpressionProblem] = []

    def refuse(self, part: s.Syntax, sentence: str) -> None:
        """Note a problem at a part."""
        self.problems.append(ExpressionProblem(part.start, part.end, sentence))

    def node(self, part: s.Syntax) -> t.Node | None:
        """Check a part that must have a value of its own (no group, no list)."""
        node = self.any_node(part)
        if node is not None and node.kind.name in ("record", "items"):
            words = "present(...) or one of its facts" if node.kind.name == "record" else "a loop"
            self.refuse(part, f"This is {node.kind}, which has no value: use {words}.")
            return None
        return node

    def any_node(self, part: s.Syntax) -> t.Node | None:
        """Check a part of any kind."""
        if self._depth == DEEPEST_TREE:
            if not self._is_too_deep:
                self.refuse(part, f"Parts stand more than {DEEPEST_TREE} deep inside each other.")
            self._is_too_deep = True
            return None
        self._depth += 1
        node = self._any_node(part)
        self._depth -= 1
        return node

    def _any_node(self, part: s.Syntax) -> t.Node | None:
        match part:
            case s.NumberSyntax():
                return self._number(part)
            case s.TextSyntax():
                kind = text_kind((part.text,))
                return t.Constant(kind, part.start, part.end, part.text, f"'{part.text}'")
            case s.TruthSyntax():
                shown = "true" if part.value else "false"
                return t.Constant(TRUTH, part.start, part.end, part.value, shown)
            case s.NameSyntax():
                return check_name(self, part)
            case s.NegateSyntax():
                return self._negation(part)
            case s.NotSyntax():
                operand = self.truth(part.operand)
                return operand and t.Not(TRUTH, part.start, part.end, operand)
            case s.ArithmeticSyntax():
                return self._arithmetic(part)
            case s.LogicSyntax():
                return self._logic(part)
            case s.ComparisonSyntax():
                return check_comparison(self, part)
            case s.MembershipSyntax():
                return check_membership(self, part)
            case s.ChoiceSyntax():
                return self._choice(part)
            case s.CallSyntax():
                return check_call(self, part)
            case s.LoopSyntax():
                return check_loop(self, part)
            case s.InterpolationSyntax():
                return check_interpolation(self, part)
            case _:
                raise TypeError(f"no check is known for {type(part).__name__}")

    def _number(self, part: s.NumberSyntax) -> t.Node | None:
        unit = part.unit or _ONE
        quantity = Quantity(part.magnitude, unit)
        kind = quantity_kind(unit.dimension, unit.point)
        try:
            return t.Constant(kind, part.start, part.end, quantity.si, str(quantity), unit)
        except MeasureError as error:
            self.refuse(part, str(error))
            return None

    # -- operators --------------------------------------------------------------------------

    def truth(self, part: s.Syntax) -> t.Node | None:
        """Check a part that must be a condition."""
        node = self.node(part)
        if node is not None and node.kind.name != "truth":
            is_word = isinstance(node, t.Constant) and node.kind.name == "text"
            hint = _ONE_OF_SEVERAL if is_word else ""
            self.refuse(part, f"A condition is asked for here, not {node.kind}.{hint}")
            return None
        return node

    def quantity(self, part: s.Syntax) -> t.Node | None:
        """Check a part that must be a quantity."""
        node = self.node(part)
        if node is not None and node.kind.name != "quantity":
            self.refuse(part, f"A quantity is asked for here, not {node.kind}.")
            return None
        return node

    def _negation(self, part: s.NegateSyntax) -> t.Node | None:
        operand = self.quantity(part.operand)
        if operand is None:
            return None
        if operand.kind.point:
            self.refuse(part, f"The opposite of {operand.kind} has no meaning.")
            return None
        return t.Negation(operand.kind, part.start, part.end, operand)

    def _arithmetic(self, part: s.ArithmeticSyntax) -> t.Node | None:
        left, right = self.quantity(part.left), self.quantity(part.right)
        if left is None or right is None:
            return None
        try:
            if part.sign == "^":
                kind = power_kind(left, right)
                return t.Power(kind, part.start, part.end, left, right)
            left, right = fit_levels(part.sign, left, right)
            kind = arithmetic_kind(part.sign, left.kind, right.kind)
        except ValueError as error:
            self.refuse(part, str(error))
            return None
        return t.Arithmetic(kind, part.start, part.end, part.sign, left, right)

    def _logic(self, part: s.LogicSyntax) -> t.Node | None:
        checked = [self.truth(inner) for inner in part.parts]
        parts = tuple(node for node in checked if node is not None)
        if len(parts) < len(checked):
            return None
        return t.Logic(TRUTH, part.start, part.end, part.word, parts)

    def _choice(self, part: s.ChoiceSyntax) -> t.Node | None:
        condition = self.truth(part.condition)
        then, otherwise = self.node(part.then), self.node(part.otherwise)
        if condition is None or then is None or otherwise is None:
            return None
        if not fits(then.kind, otherwise.kind):
            hint = missing_unit(then.kind, otherwise.kind)
            self.refuse(part, f"One way gives {then.kind}, the other {otherwise.kind}.{hint}")
            return None
        kind = with_words_of(then.kind, otherwise.kind)
        return t.Choice(kind, part.start, part.end, condition, then, otherwise)
