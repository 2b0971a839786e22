"""The columnar form: a checked tree over many jobs at once, which share all but some facts.

Whatever depends on shared facts alone is computed once, when the form is made. All jobs share their
lists, so a loop over items is unrolled. The form gives the value of the compiled form, for every
tree and every job; property tests and the shared case files hold the two together. It counts no
steps: its user makes sure that no rule can exceed its budget.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field

from tundish.groundwork.dataclass import dataclass
from tundish.groundwork.open_list import OpenList, number_of
from tundish.language.evaluate.columns import values as c
from tundish.language.evaluate.columns.calls import (
    Argument,
    by_distinct,
    operated,
    strictly_by_distinct,
)
from tundish.language.evaluate.columns.column import (
    NOT_KNOWN,
    Array,
    Chunk,
    ColumnValue,
    Uniform,
    Varying,
    Vocabulary,
    as_varying,
    encoded,
    is_number,
    known_in,
)
from tundish.language.evaluate.columns.interpolation import interpolation
from tundish.language.evaluate.columns.lists import Round, looped
from tundish.language.evaluate.columns.tables import table_reading
from tundish.language.evaluate.environment import Formula
from tundish.language.evaluate.session import Item
from tundish.language.operations import values as v
from tundish.language.operations.operators import RELATIONS, operation_of
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.language.tree.kind import DATE, TRUTH

Bound = Mapping[str, tuple[Item, str]]
"""The items that variables stand for, each with the path of its list."""


@dataclass(frozen=True, slots=True)
class Shared:
    """What all jobs share.

    Attributes:
        values: The facts, by path.
        varying: Paths of facts that differ between jobs; groups of facts too.
        formulas: The quantities, by (path of the list they belong to or "", name).
        tables_on: Gives the tables by name that hold on a day, or on none.
        dated: Tables that have editions.
        words: Where texts stand.
    """

    values: Item
    varying: frozenset[str]
    formulas: Mapping[tuple[str, str], Formula]
    tables_on: Callable[[object], Mapping[str, Table]]
    dated: frozenset[str] = frozenset()
    words: Vocabulary = field(default_factory=Vocabulary)


DAY = "job.date"
"""The fact that chooses between editions."""


class ColumnEvaluator:
    """Makes the columnar form of trees over one set of shared facts."""

    def __init__(self, shared: Shared) -> None:
        self._shared = shared
        self._words = shared.words
        self._tables = shared.tables_on(shared.values.get(DAY))
        self._quantities: dict[tuple[str, str, int], ColumnValue] = {}

    def part(self, node: t.Node, bound: Bound | None = None) -> ColumnValue:
        """Return what a tree comes to.

        Args:
            node: The checked tree.
            bound: The items that variables stand for.
        """
        return self._of(node, bound or {})

    def fact(self, path: str) -> ColumnValue:
        """Return a fact of the whole job, by its path."""
        if path in self._shared.varying:
            return lambda chunk: chunk.columns[path]
        return Uniform(self._shared.values.get(path))

    def _of(self, node: t.Node, bound: Bound) -> ColumnValue:
        match node:
            case t.Constant():
                return Uniform(node.value)
            case t.Read():
                if node.item is None:
                    return self.fact(node.path)
                return Uniform(bound[node.item][0].get(node.path))
            case t.Derived():
                return self._derived(node, bound)
            case t.Negation():
                return c.negative(self._of(node.operand, bound))
            case t.Comparison():
                return self._comparison(node, bound)
            case t.Not():
                return c.opposite(self._of(node.operand, bound))
            case t.Logic():
                return c.logic(node.word, [self._of(part, bound) for part in node.parts])
            case t.Present():
                return self._of(node.operand, bound)
            case t.Within():
                return c.within(self._of(node.operand, bound), node)
            case t.Known():
                return _known(self._of(node.operand, bound))
            case t.Choice():
                return self._choice(node, bound)
            case t.Assumed():
                return self._assumed(node, bound)
            case t.Membership():
                return self._membership(node, bound)
            case _:
                return self._valued(node, bound)

    def _valued(self, node: t.Node, bound: Bound) -> ColumnValue:
        """Make what is worked out value by value, or item by item."""
        match node:
            case t.Arithmetic() | t.Call():
                arguments = self._arguments(t.children(node), bound)
                return operated(operation_of(node), arguments, self._words)
            case t.Lookup():
                return self._lookup(node, bound)
            case t.Count():
                return Uniform(number_of(self._items(node.items, bound)))
            case t.Loop():
                return self._loop(node, bound)
            case t.Interpolation():
                return self._interpolation(node, bound)
            case _:
                raise TypeError(f"no columnar form is known of {type(node).__name__}")

    def _derived(self, node: t.Derived, bound: Bound) -> ColumnValue:
        item, of = (None, "") if node.item is None else bound[node.item]
        key = (of, node.name, id(item))
        if key not in self._quantities:
            formula = self._shared.formulas[of, node.name]
            inner = {} if item is None else {str(formula.variable): (item, of)}
            part = self._of(formula.root, inner)
            self._quantities[key] = part if isinstance(part, Uniform) else self._once(part)
        return self._quantities[key]

    def _once(self, value: Varying) -> Varying:
        """Work a quantity out once a chunk, whoever asks for it."""
        number = len(self._quantities)

        def work(chunk: Chunk) -> Array:
            column = chunk.computed.get(number)
            if column is None:
                column = chunk.computed[number] = value(chunk)
            return column

        return work

    def _varying(self, part: ColumnValue, node: t.Node) -> Varying:
        return as_varying(part, node.kind, self._words)

    def _arguments(self, nodes: Iterable[t.Node], bound: Bound) -> list[Argument]:
        return [(self._of(node, bound), node.kind) for node in nodes]

    # -- conditions ---------------------------------------------------------------------------

    def _comparison(self, node: t.Comparison, bound: Bound) -> ColumnValue:
        relation = RELATIONS[node.sign]
        left, right = self._of(node.left, bound), self._of(node.right, bound)
        if isinstance(left, Uniform) and isinstance(right, Uniform):
            return Uniform(relation.truth(left.value, right.value))
        if NOT_KNOWN in (left, right):
            return NOT_KNOWN
        compare = c.compared if is_number(node.left.kind) else c.equated
        first, second = self._varying(left, node.left), self._varying(right, node.right)
        return lambda chunk: compare(relation, first(chunk), second(chunk))

    def _membership(self, node: t.Membership, bound: Bound) -> ColumnValue:
        member = self._of(node.member, bound)
        options = Uniform(node.options) if node.texts is None else self._of(node.texts, bound)
        if NOT_KNOWN in (member, options):
            return NOT_KNOWN
        if not isinstance(options, Uniform):
            assert node.texts is not None
            arguments = [(member, node.member.kind), (options, node.texts.kind)]
            return strictly_by_distinct(v.member, arguments, node.kind, self._words)
        if isinstance(member, Uniform):
            return Uniform(v.member(member.value, options.value))
        kind = node.member.kind
        raw = [encoded(option, kind, self._words) for option in options.value or ()]
        return c.among(member, raw, tolerant=is_number(kind))

    def _choice(self, node: t.Choice, bound: Bound) -> ColumnValue:
        condition = self._of(node.condition, bound)
        if isinstance(condition, Uniform) and condition.value is not None:
            return self._of(node.then if condition.value else node.otherwise, bound)
        then, otherwise = self._of(node.then, bound), self._of(node.otherwise, bound)
        if isinstance(then, Uniform) and isinstance(otherwise, Uniform):
            agreed = v.agreed(then.value, otherwise.value)
            if agreed is not None or isinstance(condition, Uniform) or then == otherwise:
                return Uniform(agreed)
        return c.choice(
            self._varying(condition, node.condition),
            self._varying(then, node.then),
            self._varying(otherwise, node.otherwise),
            encoded(None, node.kind, self._words),
        )

    def _assumed(self, node: t.Assumed, bound: Bound) -> ColumnValue:
        first = self._of(node.operand, bound)
        if isinstance(first, Uniform):
            return self._of(node.fallback, bound) if first.value is None else first
        return c.assumed(first, self._varying(self._of(node.fallback, bound), node.fallback))

    # -- value by value -------------------------------------------------------------------------

    def _lookup(self, node: t.Lookup, bound: Bound) -> ColumnValue:
        arguments = self._arguments(node.arguments, bound)
        if node.table in self._shared.dated and DAY in self._shared.varying:

            def read_on(day: object, *keys: t.Value | None) -> object:
                table = self._shared.tables_on(day)[node.table]
                known = [key for key in keys if key is not None and not isinstance(key, tuple)]
                return table.read(node.column, known).value if len(known) == len(keys) else None

            dated = [(self.fact(DAY), DATE), *arguments]
            return by_distinct(read_on, dated, node.kind, self._words)
        table = self._tables[node.table]
        constants = [part.value for part, _ in arguments if isinstance(part, Uniform)]
        if None in constants:
            return NOT_KNOWN
        if len(constants) == len(arguments):
            return Uniform(table.read(node.column, constants).value)
        keys = [as_varying(part, kind, self._words) for part, kind in arguments]
        return table_reading(table, node.column, keys, node.kind, self._words)

    # -- lists ----------------------------------------------------------------------------------

    def _items(self, node: t.Read, bound: Bound) -> list[Item] | None:
        items = self._of(node, bound)
        assert isinstance(items, Uniform)
        assert items.value is None or isinstance(items.value, list)
        return items.value

    def _loop(self, node: t.Loop, bound: Bound) -> ColumnValue:
        items = self._items(node.items, bound)
        if items is None:
            return NOT_KNOWN
        rounds: list[Round] = []
        for item in items:
            inner = {**bound, node.variable: (item, node.items.kind.record)}
            test = Uniform(True) if node.filter is None else self._of(node.filter, inner)
            if test != Uniform(False):
                rounds.append((test, self._of(node.term, inner)))
        return looped(node, rounds, isinstance(items, OpenList), self._words)

    def _interpolation(self, node: t.Interpolation, bound: Bound) -> ColumnValue:
        items = self._items(node.items, bound)
        arguments = self._arguments(node.at, bound)
        if (
            items is None
            or isinstance(items, OpenList)
            or NOT_KNOWN in [part for part, _ in arguments]
        ):
            return NOT_KNOWN
        cells: list[Argument] = []
        for item in items:
            inner = {**bound, node.variable: (item, node.items.kind.record)}
            test = Uniform(True) if node.filter is None else self._of(node.filter, inner)
            if test != Uniform(False):
                cells.append((test, TRUTH))
                cells += self._arguments((*node.keys, node.value), inner)
        return interpolation(arguments, cells, len(node.keys) + 2, node.kind, self._words)


def _known(part: ColumnValue) -> ColumnValue:
    if isinstance(part, Uniform):
        return Uniform(part.value is not None)
    return lambda chunk: c.truths_of(known_in(part(chunk)))
