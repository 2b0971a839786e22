"""The operators of the language: one record each, which every form of evaluation reads.

The lexer takes their signs from here, the parser how tightly they bind, the checker the kinds they
take, and the forms of evaluation what they mean.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Sequence
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations import dimensions
from tundish.language.operations.values import Truth, nearly_equal
from tundish.language.tree import tree as t
from tundish.language.tree.operation import Operation

TIGHTEST = 3
"""The tightness of what binds tighter than a minus sign, and takes what is right of it first."""

_LOST_ON_THE_GREATEST = 2.0**960
"""What makes no difference to the greatest float there is, of which the last bit is 2**971."""


def _never(_: Sequence[float], __: bool) -> bool:
    return False


@dataclass(frozen=True, slots=True)
class Operator(Operation):
    """An operation on two quantities that is written between them.

    Attributes:
        sign: What is written.
        tightness: Its precedence; 1 as a sum, 2 as a product, 3 as a power.
        unless_before: What must not follow the sign, as both are then a sign of another notation.
        keeps_finite: Says whether every finite value stays finite by it, from the sizes that the
            other operand can have, and whether that is the right one.
        is_sum: Whether it adds to a value, or takes from it, another of its kind.
        inverse: The sign of the operator that undoes it, if one does.
        shown: What stands between figures in a sentence.
        names_operands: Whether a sentence names its operands, and does not give its value alone.
    """

    steps: int = 1
    sign: str = ""
    tightness: int = 1
    unless_before: str = ""
    keeps_finite: Callable[[Sequence[float], bool], bool] = _never
    is_sum: bool = False
    inverse: str = ""
    shown: str = ""
    names_operands: bool = True

    __repr__ = Operation.__repr__


ARITHMETIC: dict[str, Operator] = {
    record.sign: record
    for record in (
        Operator(
            "addition",
            operator.add,
            dimensions.sum_kind,
            columns=lambda _, left, right: left + right,
            code="({0} + {1})",
            is_monotone=True,
            sign="+",
            keeps_finite=lambda sizes, _: max(sizes) <= _LOST_ON_THE_GREATEST,
            is_sum=True,
            keeps_sign=all,
            inverse="-",
            shown=" + ",
        ),
        Operator(
            "subtraction",
            operator.sub,
            dimensions.difference_kind,
            columns=lambda _, left, right: left - right,
            code="({0} - {1})",
            is_monotone=True,
            sign="-",
            keeps_finite=lambda sizes, _: max(sizes) <= _LOST_ON_THE_GREATEST,
            is_sum=True,
            inverse="+",
            shown=" - ",
        ),
        Operator(
            "multiplication",
            operator.mul,
            dimensions.product_kind,
            columns=lambda _, left, right: left * right,
            code="({0} * {1})",
            is_monotone=True,
            sign="*",
            tightness=2,
            unless_before="*",
            keeps_finite=lambda sizes, _: max(sizes) <= 1,
            keeps_sign=all,
            inverse="/",
            shown=" x ",
        ),
        Operator(
            "division",
            operator.truediv,
            dimensions.quotient_kind,
            columns=lambda _, left, right: left / right,
            code="({0} / {1})",
            is_monotone=True,  # on either side of zero, where it does not hold
            is_division=True,
            sign="/",
            tightness=2,
            keeps_finite=lambda sizes, is_right: is_right and min(sizes) >= 1,
            keeps_sign=all,
            inverse="*",
            shown=" / ",
        ),
        Operator(
            "power",
            math.pow,
            dimensions.power_kind,
            is_finite=True,
            keeps_sign=lambda signs: signs[0],
            sign="^",
            tightness=TIGHTEST,
            shown="^",
            names_operands=False,
        ),
    )
}
"""Operators that give a quantity, by sign."""


@dataclass(frozen=True, slots=True)
class Relation:
    """A comparison of two values by one sign.

    Attributes:
        sign: What is written.
        holds: Says whether it holds, from both values and whether they are nearly equal; takes
            arrays as well.
        met: The words of a sentence where it holds.
        breached: The words of a sentence where it does not.
        limit: The words before a limit that is still to be met; None where it sets none.
        mirrored: The sign that says the same with the sides exchanged.
        others: The signs that a proof tries in its place.
        takes_any: Whether it compares texts and truths too, and not only what has an order.
        direction: Which way is better: 1 up, -1 down, 0 where neither is.
        negates: The sign that it is the opposite of, where code is generated as that one's failure.
        code: Python text of it, with {0} and {1} for known values; "" where `codegen/tolerance.py`
            knows quicker code.
        unless_before: What must not follow the sign, as both are then a sign of another notation.
    """

    sign: str
    holds: Callable[[Any, Any, Any], Any]
    met: str
    breached: str
    limit: str | None
    mirrored: str
    others: tuple[str, ...]
    direction: int = 0
    takes_any: bool = False
    negates: str = ""
    code: str = ""
    unless_before: str = ""

    def truth(self, left: object, right: object) -> Truth:
        """Return whether it holds of two values of one kind, quantities within the tolerance."""
        if left is None or right is None:
            return None
        if isinstance(left, float) and isinstance(right, float):
            return bool(self.holds(left, right, nearly_equal(left, right)))
        return bool(self.holds(left, right, left == right))


RELATIONS: dict[str, Relation] = {
    record.sign: record
    for record in (
        # Of truths, "a > b" is "a and not b", and "a ^ True" is "not a"; both hold of arrays too.
        Relation(
            "<",
            lambda left, right, near: (left < right) > near,
            "is less than",
            "is not less than",
            "less than ",
            ">",
            ("<=", ">"),
            direction=-1,
            negates=">=",
            unless_before=">",
        ),
        Relation(
            "<=",
            lambda left, right, near: (left <= right) | near,
            "is at most",
            "is more than",
            "at most ",
            ">=",
            ("<", ">"),
            direction=-1,
        ),
        Relation(
            ">",
            lambda left, right, near: (left > right) > near,
            "is more than",
            "is not more than",
            "more than ",
            "<",
            (">=", "<"),
            direction=1,
            negates="<=",
        ),
        Relation(
            ">=",
            lambda left, right, near: (left >= right) | near,
            "is at least",
            "is less than",
            "at least ",
            "<=",
            (">", "<"),
            direction=1,
        ),
        Relation(
            "==",
            lambda _, __, near: near,
            "equals",
            "does not equal",
            "",
            "==",
            ("!=",),
            takes_any=True,
            unless_before="=",
        ),
        Relation(
            "!=",
            lambda _, __, near: near ^ True,
            "does not equal",
            "equals",
            None,
            "!=",
            ("==",),
            takes_any=True,
            negates="==",
            unless_before="=",
        ),
    )
}
"""Signs that compare two values, by themselves."""


@dataclass(frozen=True, slots=True)
class Connective:
    """A word that joins conditions, in Kleene's logic.

    Attributes:
        word: What is written.
        settles: The truth of a part that settles the whole, whatever the others are.
        other: The other word, which joins the opposites of the parts to the opposite.
    """

    word: str
    settles: bool
    other: str


CONNECTIVES: dict[str, Connective] = {
    "and": Connective("and", settles=False, other="or"),
    "or": Connective("or", settles=True, other="and"),
}
"""Words that join conditions, by themselves."""


def operation_of(node: t.Arithmetic | t.Call) -> Operation:
    """Return the operation that a part applies to its own parts."""
    return node.function if isinstance(node, t.Call) else ARITHMETIC[node.sign]
