"""The checked tree: every name resolved, every kind known.

Every form of evaluation reads this one tree.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from tundish.groundwork.dataclass import dataclass
from tundish.language.tree.node import Node as Node
from tundish.language.tree.operation import Function
from tundish.units.unit import Unit

Value = float | str | bool | tuple[str, ...]
"""A known value: quantities as SI floats, dates as day numbers, texts, truths, lists of texts."""


@dataclass(frozen=True, slots=True)
class Constant(Node):
    """A literal, as an SI value; `shown` is how it was written."""

    value: Value
    shown: str
    unit: Unit | None = None


@dataclass(frozen=True, slots=True)
class Read(Node):
    """A fact of the job, or of a loop's item where `item` names the loop variable."""

    path: str
    label: str
    item: str | None = None
    unit: Unit | None = None


@dataclass(frozen=True, slots=True)
class Derived(Node):
    """A quantity of the rulebook; `item` names the loop variable it is taken of, if any."""

    name: str
    label: str
    unit: Unit | None
    item: str | None = None


@dataclass(frozen=True, slots=True)
class Within(Node):
    """A quantity that is unknown where it leaves the range that it can have.

    Attributes:
        operand: What it comes to.
        least: The least that it can be [SI units]; None where nothing bounds it.
        greatest: The most that it can be [SI units]; None where nothing bounds it.
        label: What it is called in a sentence.
        unit: The unit it is shown in.
        because: Why it cannot be beyond; "" where its kind of quantity says so already.
    """

    operand: Node
    least: float | None
    greatest: float | None
    label: str
    unit: Unit
    because: str = ""

    @property
    def ends(self) -> tuple[float | None, float | None]:
        """Return the last values that pass: a rounding error beyond the limits is none."""
        size = float(self.unit.factor)
        least = None if self.least is None else self.least - _ROUNDING * max(abs(self.least), size)
        most = self.greatest
        return least, None if most is None else most + _ROUNDING * max(abs(most), size)

    def accepts(self, value: float) -> bool:
        """Say whether a value lies in the range."""
        least, most = self.ends
        return (least is None or value >= least) and (most is None or value <= most)


_ROUNDING = 1e-9
"""What a sum may be off by, as a share of a limit or of one unit."""


@dataclass(frozen=True, slots=True)
class Negation(Node):
    """The opposite of a quantity."""

    operand: Node


@dataclass(frozen=True, slots=True)
class Arithmetic(Node):
    """Two quantities joined by an operator such as ``+`` or ``^``."""

    sign: str
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Comparison(Node):
    """Two values compared by one sign; ``==`` and ``!=`` also take texts and truths."""

    sign: str
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Membership(Node):
    """Whether a value is one of some constants, or a text one of a list of the job."""

    member: Node
    options: tuple[Value, ...] | None
    texts: Node | None


@dataclass(frozen=True, slots=True)
class Not(Node):
    """The opposite of a condition."""

    operand: Node


@dataclass(frozen=True, slots=True)
class Logic(Node):
    """Conditions joined by ``and`` or by ``or``."""

    word: str
    parts: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Choice(Node):
    """``if condition then this else that``."""

    condition: Node
    then: Node
    otherwise: Node


@dataclass(frozen=True, slots=True)
class Known(Node):
    """Whether a value is known at all."""

    operand: Node


@dataclass(frozen=True, slots=True)
class Present(Node):
    """Whether a group of facts is there: true if given, false if known to be absent."""

    operand: Read


@dataclass(frozen=True, slots=True)
class Assumed(Node):
    """A value, or a stated fallback where it is unknown."""

    operand: Node
    fallback: Node


@dataclass(frozen=True, slots=True)
class Call(Node):
    """A function applied to its arguments."""

    function: Function
    arguments: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Lookup(Node):
    """A reading of a table at some keys."""

    table: str
    column: str
    arguments: tuple[Node, ...]
    unit: Unit | None = None


@dataclass(frozen=True, slots=True)
class Count(Node):
    """The number of items in a list of the job."""

    items: Read


@dataclass(frozen=True, slots=True)
class Loop(Node):
    """A function over the items of a list; `function` is all, any, sum, count, least, greatest."""

    function: str
    term: Node
    variable: str
    items: Read
    filter: Node | None


@dataclass(frozen=True, slots=True)
class Interpolation(Node):
    """A reading between the items of a list, at a place given by as many values as keys."""

    at: tuple[Node, ...]
    keys: tuple[Node, ...]
    value: Node
    variable: str
    items: Read
    filter: Node | None


def walk(root: Node, variables: Mapping[str, str]) -> Iterator[tuple[Node, dict[str, str]]]:
    """Give every part of a tree, with the lists that the variables bound there run over.

    Args:
        root: The tree.
        variables: The lists that are bound around it, by variable.
    """
    ahead: list[tuple[Node, dict[str, str]]] = [(root, dict(variables))]
    while ahead:
        node, bound = ahead.pop()
        yield node, bound
        parts = children(node)
        if isinstance(node, Loop | Interpolation):
            # The list, and the places to read at, are worked out before the rounds.
            before = 1 + (len(node.at) if isinstance(node, Interpolation) else 0)
            within = {**bound, node.variable: node.items.kind.record}
            ahead.extend((part, within) for part in reversed(parts[before:]))
            parts = parts[:before]
        ahead.extend((part, bound) for part in reversed(parts))


def children(node: Node) -> tuple[Node, ...]:
    """Return the parts of a node, in the order they are written."""
    match node:
        case Negation() | Not() | Known() | Present() | Within():
            return (node.operand,)
        case Arithmetic() | Comparison():
            return (node.left, node.right)
        case Membership():
            return (node.member,) if node.texts is None else (node.member, node.texts)
        case Logic():
            return node.parts
        case Choice():
            return (node.condition, node.then, node.otherwise)
        case Assumed():
            return (node.operand, node.fallback)
        case Call() | Lookup():
            return node.arguments
        case Count():
            return (node.items,)
        case Loop():
            inner = (node.term,) if node.filter is None else (node.filter, node.term)
            return (node.items, *inner)
        case Interpolation():
            test = () if node.filter is None else (node.filter,)
            return (node.items, *node.at, *test, *node.keys, node.value)
        case _:
            return ()


def mentions(node: Node, variable: str) -> bool:
    """Say whether a part reads a fact or quantity of the item a variable stands for."""
    own = isinstance(node, Read | Derived) and node.item == variable
    return own or any(mentions(part, variable) for part in children(node))


def part_of_job(condition: Node, variables: Collection[str]) -> Logic:
    """Return what a condition asks of the job as a whole, whatever the items of a list are.

    Args:
        condition: The condition.
        variables: The variables that stand for an item.
    """
    parts = tuple(
        part
        for part in conjuncts(condition)
        if not any(mentions(part, variable) for variable in variables)
    )
    return Logic(condition.kind, condition.start, condition.end, "and", parts)


def conjuncts(node: Node) -> tuple[Node, ...]:
    """Return the conditions that must all hold for a condition to hold."""
    if isinstance(node, Logic) and node.word == "and":
        return tuple(inner for part in node.parts for inner in conjuncts(part))
    return (node,)
