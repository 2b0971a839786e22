"""The record of an operation on values: all that any form of evaluation has to know of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.language.tree.kind import Kind
from tundish.language.tree.node import Node


@dataclass(frozen=True, slots=True)
class Operation:
    """A function, or an operator that joins two quantities.

    Attributes:
        name: Its name in an expression or, of an operator, in generated code.
        calculate: The Python function; SI floats in, SI float out. Where it does not hold it raises
            ValueError, OverflowError or ZeroDivisionError, which makes the result unknown.
        result: Gives the kind of the result from the arguments; raises ValueError with a sentence
            where they do not fit.
        columns: The same by numpy, which is its first argument, on arrays in which not-a-number is
            unknown. It agrees with `calculate` to the last bit; where numpy does not, this is left
            out, and `calculate` is asked value by value.
        code: The same as Python text with {0} and {1} for the arguments, where that is quicker than
            a call; used with just as many arguments.
        is_finite: Whether a finite float comes out wherever it holds.
        is_monotone: Whether it rises or falls steadily in each argument, so that the ends of a
            range give the ends of the result.
        is_division: Whether its last argument must not be zero.
        steps: What it costs, in steps of a budget.
        keeps_sign: Says whether what it gives is never below zero, from whether each argument
            never is.
    """

    name: str
    calculate: Callable[..., float]
    result: Callable[[Sequence[Node]], Kind]
    columns: Callable[..., Any] | None = None
    code: str = ""
    is_finite: bool = False
    is_monotone: bool = False
    is_division: bool = False
    steps: int = 50
    keeps_sign: Callable[[Sequence[bool]], bool] = lambda _: False

    def __repr__(self) -> str:
        """Return the name alone: an operation has one meaning only."""
        return f"{type(self).__name__}({self.name})"

    @property
    def is_quick(self) -> bool:
        """Say whether it takes no longer than looking up what it gave before."""
        return self.steps < 10

    def is_inline(self, arguments: int) -> bool:
        """Say whether its code, and not a call of it, is generated for so many arguments."""
        return bool(self.uses(arguments - 1)) and not self.uses(arguments)

    def uses(self, position: int) -> int:
        """Return how often an argument stands in the code."""
        return self.code.count(f"{{{position}}}")


@dataclass(frozen=True, slots=True)
class Function(Operation):
    """An operation that is called by its name.

    Attributes:
        elsewhere: What other languages call it.
        may_be_left_out: Whether each argument could stand in its place, as a proof tries.
    """

    elsewhere: tuple[str, ...] = ()
    may_be_left_out: bool = False

    __repr__ = Operation.__repr__
