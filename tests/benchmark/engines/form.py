"""What every translation shares: what cannot be said, quantities put in their place, documents."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping
from typing import Any, Generic, TypeVar

from tundish import Rulebook
from tundish.language.operations.table import Table
from tundish.language.tree import tree as t
from tundish.rulebook.model.rule import Rule

MET, BREACHED, NOT_APPLICABLE = 1, 0, 2

Part = TypeVar("Part")
Names = Mapping[str, tuple[str, str]]
"""What a loop's variable is called in the engine, and the list it runs over."""


class NotExpressible(Exception):  # noqa: N818 - it reads as the sentence it is
    """An engine has no words for a part of a rule; its text is the kind of part."""


def name_of(path: str) -> str:
    """Return the flat name of a fact: a word that every engine takes for one variable."""
    return path.replace(".", "__").replace("[]", "")


class Form(ABC, Generic[Part]):
    """A translation of checked trees; quantities are written out where they stand.

    Comparisons are plain, without the tolerance of the rulebook: in the engines' favour.
    """

    def __init__(self, rulebook: Rulebook) -> None:
        self._rulebook = rulebook
        self._names = 0

    def rule(self, rule: Rule) -> Part:
        """Return a rule as one expression: 1 met, 0 breached, 2 not applicable.

        Raises:
            NotExpressible: If the engine has no words for it.
        """
        if rule.each is None:
            return self._verdict(rule, {})
        variable = self._variable()
        bound = {rule.each.variable: (variable, rule.each.path)}
        return self.mapped(self.fact(rule.each.path), variable, self._verdict(rule, bound))

    def _verdict(self, rule: Rule, bound: Names) -> Part:
        number = self.constant
        met = self.choice(self.part(rule.requires, bound), number(MET), number(BREACHED))
        if isinstance(rule.applies, t.Constant):
            return met
        return self.choice(self.part(rule.applies, bound), met, number(NOT_APPLICABLE))

    def part(self, node: t.Node, bound: Names) -> Part:
        """Translate one part of a tree."""
        match node:
            case t.Constant():
                return self.constant(node.value)
            case t.Read():
                if node.item is None:
                    return self.fact(node.path)
                return self.item_fact(bound[node.item][0], node.path)
            case t.Derived():
                return self._derived(node, bound)
            case t.Negation():
                return self.arithmetic("-", self.constant(0.0), self.part(node.operand, bound))
            case t.Arithmetic(sign="^"):
                return self._power(node, bound)
            case t.Arithmetic():
                left, right = self.part(node.left, bound), self.part(node.right, bound)
                return self.arithmetic(node.sign, left, right)
            case t.Comparison():
                left, right = self.part(node.left, bound), self.part(node.right, bound)
                return self.comparison(node.sign, left, right)
            case t.Membership():
                member = self.part(node.member, bound)
                if node.texts is not None:
                    return self.among(member, self.part(node.texts, bound))
                return self.among(member, self.listed(node.options or ()))
            case t.Not():
                return self.opposite(self.part(node.operand, bound))
            case t.Logic():
                return self.logic(node.word, [self.part(one, bound) for one in node.parts])
            case t.Choice():
                ways = (self.part(one, bound) for one in (node.then, node.otherwise))
                return self.choice(self.part(node.condition, bound), *ways)
            case t.Known():
                return self.known(self.part(node.operand, bound))
            case t.Present():
                return self.part(node.operand, bound)
            case t.Assumed():
                operand = self.part(node.operand, bound)
                return self.choice(self.known(operand), operand, self.part(node.fallback, bound))
            case t.Call():
                given = [self.part(one, bound) for one in node.arguments]
                return self.call(node.function.name, given)
            case t.Lookup():
                keys = [self.part(one, bound) for one in node.arguments]
                return self._lookup(node, keys)
            case t.Count():
                return self.length(self.part(node.items, bound))
            case t.Loop():
                return self._loop(node, bound)
            case _:
                raise NotExpressible("interpolation between items")

    def _derived(self, node: t.Derived, bound: Names) -> Part:
        variable, path = ("", "") if node.item is None else bound[node.item]
        quantity = self._rulebook.quantities[path, node.name]
        inner = {} if quantity.each is None else {quantity.each.variable: (variable, path)}
        return self.part(quantity.formula.root, inner)

    def _power(self, node: t.Arithmetic, bound: Names) -> Part:
        radix = self.part(node.left, bound)
        if isinstance(node.right, t.Constant) and node.right.value == 2.0:
            return self.arithmetic("*", radix, radix)
        return self.power(radix, self.part(node.right, bound))

    def _lookup(self, node: t.Lookup, keys: list[Part]) -> Part:
        table = self._rulebook.scope.tables[node.table]
        return self._rows(table, table.tree, keys, list(table.columns).index(node.column))

    def _rows(self, table: Table, level: Any, keys: list[Part], column: int) -> Part:
        """Write a table out as choices; null where it does not reach."""
        depth = len(table.keys) - len(keys)
        if not keys:
            return self.constant(level[column])
        manner = table.keys[depth].manner
        if manner == "linear":
            raise NotExpressible("lookup between rows")
        sign = "<=" if manner == "next up" else "=="
        found = self.null()
        for key, inner in reversed(level.items()):
            row = self._rows(table, inner, keys[1:], column)
            found = self.choice(self.comparison(sign, keys[0], self.constant(key)), row, found)
        return found

    def _loop(self, node: t.Loop, bound: Names) -> Part:
        items, variable = self.part(node.items, bound), self._variable()
        inner = {**bound, node.variable: (variable, node.items.kind.record)}
        term = self.part(node.term, inner)
        test = None if node.filter is None else self.part(node.filter, inner)
        return self.loop(node.function, items, variable, term, test)

    def _variable(self) -> str:
        self._names += 1
        return f"i{self._names}"

    @abstractmethod
    def constant(self, value: Any) -> Part: ...
    @abstractmethod
    def null(self) -> Part: ...
    @abstractmethod
    def fact(self, path: str) -> Part: ...
    @abstractmethod
    def item_fact(self, variable: str, path: str) -> Part: ...
    @abstractmethod
    def arithmetic(self, sign: str, left: Part, right: Part) -> Part: ...
    @abstractmethod
    def power(self, radix: Part, exponent: Part) -> Part: ...
    @abstractmethod
    def comparison(self, sign: str, left: Part, right: Part) -> Part: ...
    @abstractmethod
    def among(self, member: Part, options: Part) -> Part: ...
    @abstractmethod
    def listed(self, values: Iterable[Any]) -> Part: ...
    @abstractmethod
    def opposite(self, operand: Part) -> Part: ...
    @abstractmethod
    def logic(self, word: str, parts: list[Part]) -> Part: ...
    @abstractmethod
    def choice(self, condition: Part, then: Part, otherwise: Part) -> Part: ...
    @abstractmethod
    def known(self, operand: Part) -> Part: ...
    @abstractmethod
    def call(self, name: str, given: list[Part]) -> Part: ...
    @abstractmethod
    def length(self, items: Part) -> Part: ...
    @abstractmethod
    def loop(
        self, function: str, items: Part, variable: str, term: Part, test: Part | None
    ) -> Part: ...
    @abstractmethod
    def mapped(self, items: Part, variable: str, term: Part) -> Part: ...
