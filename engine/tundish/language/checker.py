"""Checking an expression: every name resolved, every kind and dimension fitting, all at once."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language import syntax as s
from tundish.language import tree as t
from tundish.language.arithmetic import arithmetic_kind, fit_levels, power_kind
from tundish.language.calls import check_call, check_loop
from tundish.language.functions import CONSTANTS
from tundish.language.kind import PLAIN_NUMBER, TRUTH, Kind, quantity_kind, text_kind
from tundish.language.parser import parse
from tundish.language.problem import ExpressionError, ExpressionProblem
from tundish.language.scope import Meaning, Scope
from tundish.measure.quantity import Quantity
from tundish.measure.unit import read_unit
from tundish.reading.nearest import did_you_mean

ORDERED = ("quantity", "date")
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
    root = parse(expression)
    checker = Checker(scope, dict(variables or {}))
    node = checker.node(root)
    if node is not None and wanted is not None and not fits(node.kind, wanted):
        checker.refuse(root, f"This gives {node.kind}, where {wanted} is asked for.")
    if checker.problems or node is None:
        raise ExpressionError(checker.problems)
    return node


def fits(given: Kind, wanted: Kind) -> bool:
    """Say whether a value of one kind may stand where another is asked for."""
    return (given.name, given.dimension, given.point, given.record) == (
        wanted.name,
        wanted.dimension,
        wanted.point,
        wanted.record,
    )


class Checker:
    """One check of one expression; a part that fails is None, and its parents stay silent."""

    def __init__(self, scope: Scope, variables: dict[str, str]) -> None:
        self.scope = scope
        self.variables = variables
        self.loops = 0
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
        match part:
            case s.NumberSyntax():
                return self._number(part)
            case s.TextSyntax():
                return t.Constant(text_kind(), part.start, part.end, part.text, f"'{part.text}'")
            case s.TruthSyntax():
                shown = "true" if part.value else "false"
                return t.Constant(TRUTH, part.start, part.end, part.value, shown)
            case s.NameSyntax():
                return self._name(part)
            case s.NegateSyntax():
                return self._negation(part)
            case s.NotSyntax():
                operand = self._truth(part.operand)
                return operand and t.Not(TRUTH, part.start, part.end, operand)
            case s.ArithmeticSyntax():
                return self._arithmetic(part)
            case s.LogicSyntax():
                return self._logic(part)
            case s.ComparisonSyntax():
                return self._comparison(part)
            case s.MembershipSyntax():
                return self._membership(part)
            case s.ChoiceSyntax():
                return self._choice(part)
            case s.CallSyntax():
                return check_call(self, part)
            case s.LoopSyntax():
                return check_loop(self, part)
            case _:
                self.refuse(part, "A list in square brackets can only stand after 'in'.")
                return None

    # -- literals and names -----------------------------------------------------------------

    def _number(self, part: s.NumberSyntax) -> t.Node:
        unit = part.unit or _ONE
        quantity = Quantity(part.magnitude, unit)
        kind = quantity_kind(unit.dimension, unit.point)
        return t.Constant(kind, part.start, part.end, quantity.si, str(quantity), unit)

    def _name(self, part: s.NameSyntax) -> t.Node | None:
        first, _, rest = part.name.partition(".")
        if first in self.variables:
            return self._item_name(part, first, rest)
        meaning = self.scope.quantities.get(("", part.name))
        if meaning is not None:
            return t.Derived(
                meaning.kind, part.start, part.end, part.name, meaning.label, meaning.unit
            )
        if part.name in CONSTANTS:
            value = CONSTANTS[part.name]
            return t.Constant(PLAIN_NUMBER, part.start, part.end, value, part.name, _ONE)
        meaning = self.scope.facts.get(part.name)
        if meaning is None or self._is_inside_items(part.name):
            self._unknown_name(part)
            return None
        return self._read(part, meaning, part.name, None)

    def _item_name(self, part: s.NameSyntax, variable: str, rest: str) -> t.Node | None:
        path = self.variables[variable]
        if not rest:
            self.refuse(part, f"'{variable}' is an item, which has no value: name one of its facts.")
            return None
        meaning = self.scope.quantities.get((path, rest))
        if meaning is not None:
            return t.Derived(
                meaning.kind, part.start, part.end, rest, meaning.label, meaning.unit, variable
            )
        meaning = self.scope.facts.get(f"{path}.{rest}")
        if meaning is None or self._is_inside_items(rest, path + "."):
            self._unknown_name(part)
            return None
        return self._read(part, meaning, rest, variable)

    def _read(self, part: s.Syntax, meaning: Meaning, path: str, item: str | None) -> t.Read:
        return t.Read(
            meaning.kind, part.start, part.end, path, meaning.label, item, meaning.unit
        )

    def _is_inside_items(self, path: str, prefix: str = "") -> bool:
        """Say whether a path runs through a list without choosing one of its items."""
        steps = path.split(".")
        return any(
            (meaning := self.scope.facts.get(prefix + ".".join(steps[:length]))) is not None
            and meaning.kind.name == "items"
            for length in range(1, len(steps))
        )

    def _unknown_name(self, part: s.NameSyntax) -> None:
        if self._is_inside_items(part.name):
            self.refuse(
                part, f"'{part.name}' is a fact of every item of a list: use a loop over the list."
            )
            return
        hint = did_you_mean(part.name, list(self.scope.names(self.variables)))
        self.refuse(part, f"Nothing is called '{part.name}'.{hint}")

    # -- operators --------------------------------------------------------------------------

    def _truth(self, part: s.Syntax) -> t.Node | None:
        node = self.node(part)
        if node is not None and node.kind.name != "truth":
            self.refuse(part, f"A condition is asked for here, not {node.kind}.")
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
        checked = [self._truth(inner) for inner in part.parts]
        parts = tuple(node for node in checked if node is not None)
        if len(parts) < len(checked):
            return None
        return t.Logic(TRUTH, part.start, part.end, part.word, parts)

    def _comparison(self, part: s.ComparisonSyntax) -> t.Node | None:
        operands = [self.node(inner) for inner in part.operands]
        comparisons: list[t.Node] = []
        for index, sign in enumerate(part.signs):
            left, right = operands[index], operands[index + 1]
            if left is None or right is None:
                continue
            sentence = self._misfit(sign, left, right)
            if sentence:
                self.refuse(part, sentence)
                continue
            comparisons.append(t.Comparison(TRUTH, left.start, right.end, sign, left, right))
        if len(comparisons) < len(part.signs):
            return None
        if len(comparisons) == 1:
            return comparisons[0]
        return t.Logic(TRUTH, part.start, part.end, "and", tuple(comparisons))

    def _misfit(self, sign: str, left: t.Node, right: t.Node) -> str:
        """Say why two values cannot be compared, or nothing where they can."""
        first, second = left.kind, right.kind
        if not fits(first, second):
            hint = _missing_unit(first, second)
            return f"{str(first).capitalize()} cannot be compared with {second}.{hint}"
        if first.name == "texts":
            return "Lists of texts cannot be compared; ask whether a text is 'in' one."
        if sign not in ("==", "!=") and first.name not in ORDERED:
            return f"'{sign}' compares quantities or dates, not {first}."
        for given, wanted in ((left, second), (right, first)):
            if isinstance(given, t.Constant) and wanted.choices:
                return self.not_a_choice(given.value, wanted)
        return ""

    def not_a_choice(self, value: t.Value, kind: Kind) -> str:
        """Say that a text is none of the words a fact can take, or nothing where it is one."""
        if not kind.choices or value in kind.choices:
            return ""
        hint = did_you_mean(str(value), list(kind.choices))
        return f"'{value}' is none of the words this can be: {', '.join(kind.choices)}.{hint}"

    def _membership(self, part: s.MembershipSyntax) -> t.Node | None:
        member = self.node(part.member)
        if isinstance(part.options, s.ListSyntax):
            return self._in_literals(part, member, part.options)
        texts = self.node(part.options)
        if member is None or texts is None:
            return None
        if texts.kind.name != "texts" or member.kind.name != "text":
            self.refuse(part, f"'in' asks for a text in a list of texts, not in {texts.kind}.")
            return None
        if isinstance(member, t.Constant):
            sentence = self.not_a_choice(member.value, texts.kind)
            if sentence:
                self.refuse(part.member, sentence)
                return None
        return t.Membership(TRUTH, part.start, part.end, member, None, texts)

    def _in_literals(
        self, part: s.MembershipSyntax, member: t.Node | None, options: s.ListSyntax
    ) -> t.Node | None:
        values: list[t.Value] = []
        for item in options.items:
            option = self.node(item)
            if option is None or member is None:
                continue
            if not isinstance(option, t.Constant):
                self.refuse(item, "Only literals may stand in a list in square brackets.")
                continue
            sentence = self._misfit("==", member, option)
            if sentence:
                self.refuse(item, sentence)
            values.append(option.value)
        if not options.items:
            self.refuse(options, "An empty list holds nothing: this would never be true.")
        if member is None or len(values) < len(options.items):
            return None
        return t.Membership(TRUTH, part.start, part.end, member, tuple(values), None)

    def _choice(self, part: s.ChoiceSyntax) -> t.Node | None:
        condition = self._truth(part.condition)
        then, otherwise = self.node(part.then), self.node(part.otherwise)
        if condition is None or then is None or otherwise is None:
            return None
        if not fits(then.kind, otherwise.kind):
            hint = _missing_unit(then.kind, otherwise.kind)
            self.refuse(part, f"One way gives {then.kind}, the other {otherwise.kind}.{hint}")
            return None
        kind = then.kind if then.kind.choices else otherwise.kind
        return t.Choice(kind, part.start, part.end, condition, then, otherwise)


def _missing_unit(first: Kind, second: Kind) -> str:
    """Hint at a forgotten unit where one side is a plain number and the other is not."""
    quantities = first.name == second.name == "quantity"
    if quantities and first.dimension.is_number != second.dimension.is_number:
        return " Is a unit missing?"
    return ""


