"""Checking an expression: every name resolved, every kind and dimension fitting, all at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from tundish.language.check.calls import check_call
from tundish.language.check.comparisons import (
    check_comparison,
    check_membership,
    not_a_choice,
)
from tundish.language.check.context import Context
from tundish.language.check.levels import fit_levels
from tundish.language.check.loops import check_interpolation, check_loop
from tundish.language.check.names import check_name
from tundish.language.check.scope import Scope
from tundish.language.operations.operators import ARITHMETIC
from tundish.language.syntax import syntax_tree as s
from tundish.language.syntax.parser import parse_on
from tundish.language.syntax.problem import ExpressionError
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
from tundish.units.quantity import Quantity
from tundish.units.unit import MeasureError, read_unit

_ONE = read_unit("1")


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
    context = Context(scope, dict(variables or {}), check_part)
    context.problems.extend(problems)
    node = context.node(root)
    if node is not None and wanted is not None and not fits(node.kind, wanted):
        context.refuse(root, f"This gives {node.kind}, where {wanted} is asked for.")
    if node is not None and wanted is not None and wanted.choices:
        for word in node.kind.choices:
            sentence = not_a_choice(word, wanted)
            if sentence:
                context.refuse(root, sentence)
    if context.problems or node is None:
        raise ExpressionError(context.problems)
    return node


def check_part(context: Context, part: s.Syntax) -> t.Node | None:
    """Check one part of an expression, whatever it is.

    Args:
        context: The check of the expression.
        part: The part.

    Returns:
        The checked part, or None where it is refused.
    """
    check = _CHECKS.get(type(part))
    if check is None:
        raise TypeError(f"no check is known for {type(part).__name__}")
    return check(context, part)


def _number(context: Context, part: s.NumberSyntax) -> t.Node | None:
    unit = part.unit or _ONE
    quantity = Quantity(part.magnitude, unit)
    kind = quantity_kind(unit.dimension, unit.point)
    try:
        return t.Constant(kind, part.start, part.end, quantity.si, str(quantity), unit)
    except MeasureError as error:
        context.refuse(part, str(error))
        return None


def _text(_: Context, part: s.TextSyntax) -> t.Node:
    kind = text_kind((part.text,))
    return t.Constant(kind, part.start, part.end, part.text, f"'{part.text}'")


def _truth(_: Context, part: s.TruthSyntax) -> t.Node:
    shown = "true" if part.value else "false"
    return t.Constant(TRUTH, part.start, part.end, part.value, shown)


def _negation(context: Context, part: s.NegateSyntax) -> t.Node | None:
    operand = context.quantity(part.operand)
    if operand is None:
        return None
    if operand.kind.point:
        context.refuse(part, f"The opposite of {operand.kind} has no meaning.")
        return None
    return t.Negation(operand.kind, part.start, part.end, operand)


def _not(context: Context, part: s.NotSyntax) -> t.Node | None:
    operand = context.truth(part.operand)
    return operand and t.Not(TRUTH, part.start, part.end, operand)


def _arithmetic(context: Context, part: s.ArithmeticSyntax) -> t.Node | None:
    left, right = context.quantity(part.left), context.quantity(part.right)
    if left is None or right is None:
        return None
    try:
        operator = ARITHMETIC[part.sign]
        left, right = fit_levels(operator, left, right)
        kind = operator.result((left, right))
    except ValueError as error:
        context.refuse(part, str(error))
        return None
    return t.Arithmetic(kind, part.start, part.end, part.sign, left, right)


def _logic(context: Context, part: s.LogicSyntax) -> t.Node | None:
    checked = [context.truth(inner) for inner in part.parts]
    parts = tuple(node for node in checked if node is not None)
    if len(parts) < len(checked):
        return None
    return t.Logic(TRUTH, part.start, part.end, part.word, parts)


def _choice(context: Context, part: s.ChoiceSyntax) -> t.Node | None:
    condition = context.truth(part.condition)
    then, otherwise = context.node(part.then), context.node(part.otherwise)
    if condition is None or then is None or otherwise is None:
        return None
    if not fits(then.kind, otherwise.kind):
        hint = missing_unit(then.kind, otherwise.kind)
        context.refuse(part, f"One way gives {then.kind}, the other {otherwise.kind}.{hint}")
        return None
    kind = with_words_of(then.kind, otherwise.kind)
    return t.Choice(kind, part.start, part.end, condition, then, otherwise)


_CHECKS: dict[type[s.Syntax], Callable[[Context, Any], t.Node | None]] = {
    s.NumberSyntax: _number,
    s.TextSyntax: _text,
    s.TruthSyntax: _truth,
    s.NameSyntax: check_name,
    s.NegateSyntax: _negation,
    s.NotSyntax: _not,
    s.ArithmeticSyntax: _arithmetic,
    s.LogicSyntax: _logic,
    s.ComparisonSyntax: check_comparison,
    s.MembershipSyntax: check_membership,
    s.ChoiceSyntax: _choice,
    s.CallSyntax: check_call,
    s.LoopSyntax: check_loop,
    s.InterpolationSyntax: check_interpolation,
}
