"""The syntax tree: what was written, before any name or kind is known."""

from __future__ import annotations

from decimal import Decimal

from tundish.groundwork.dataclass import dataclass
from tundish.units.unit import Unit


@dataclass(frozen=True, slots=True)
class Syntax:
    """A part of an expression, with its place in the text (indices from 0)."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class NumberSyntax(Syntax):
    """A number, with its unit where one is written: ``150 mm``."""

    magnitude: Decimal
    unit: Unit | None


@dataclass(frozen=True, slots=True)
class TextSyntax(Syntax):
    """A text: ``'outdoor air'``."""

    text: str


@dataclass(frozen=True, slots=True)
class TruthSyntax(Syntax):
    """``true`` or ``false``."""

    value: bool


@dataclass(frozen=True, slots=True)
class NameSyntax(Syntax):
    """A dotted name: ``unit.water.minimum_flow``."""

    name: str


@dataclass(frozen=True, slots=True)
class NegateSyntax(Syntax):
    """A minus sign before a part."""

    operand: Syntax


@dataclass(frozen=True, slots=True)
class NotSyntax(Syntax):
    """``not`` before a condition."""

    operand: Syntax


@dataclass(frozen=True, slots=True)
class ArithmeticSyntax(Syntax):
    """Two parts joined by one of ``+ - * / ^``."""

    sign: str
    left: Syntax
    right: Syntax


@dataclass(frozen=True, slots=True)
class LogicSyntax(Syntax):
    """Two or more conditions joined by ``and`` or by ``or``."""

    word: str
    parts: tuple[Syntax, ...]


@dataclass(frozen=True, slots=True)
class ComparisonSyntax(Syntax):
    """A comparison, chained or not: ``a <= b <= c``."""

    signs: tuple[str, ...]
    operands: tuple[Syntax, ...]


@dataclass(frozen=True, slots=True)
class MembershipSyntax(Syntax):
    """``x in ['a', 'b']``, or ``'a' in list``."""

    member: Syntax
    options: Syntax


@dataclass(frozen=True, slots=True)
class ListSyntax(Syntax):
    """Literals in square brackets."""

    items: tuple[Syntax, ...]


@dataclass(frozen=True, slots=True)
class ChoiceSyntax(Syntax):
    """``if condition then this else that``."""

    condition: Syntax
    then: Syntax
    otherwise: Syntax


@dataclass(frozen=True, slots=True)
class CallSyntax(Syntax):
    """A function applied to its arguments: ``greatest(a, b)``."""

    function: str
    arguments: tuple[Syntax, ...]


@dataclass(frozen=True, slots=True)
class LoopSyntax(Syntax):
    """A function over the items of a list: ``sum(run.length for run in water.run if ...)``."""

    function: str
    term: Syntax
    variable: NameSyntax
    items: Syntax
    filter: Syntax | None


@dataclass(frozen=True, slots=True)
class InterpolationSyntax(Syntax):
    """A reading between items: ``interpolate(flow, point.flow, point.head for point in ...)``.

    `arguments` are where to read and an item's key, once for each key, and last its value.
    """

    function: str
    arguments: tuple[Syntax, ...]
    variable: NameSyntax
    items: Syntax
    filter: Syntax | None
