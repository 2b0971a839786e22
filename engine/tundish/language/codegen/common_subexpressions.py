"""Common subexpressions: which facts and quantities several conditions look at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Protocol

from tundish.language.budget.cost import round_weight
from tundish.language.operations.operators import ARITHMETIC
from tundish.language.tree import tree as t

Quantities = Mapping[tuple[str, str], tuple[t.Node, str]]


class Asked(Protocol):
    """The conditions of a rule."""

    @property
    def both(self) -> tuple[t.Node, t.Node]:
        """Return when it is asked, and what it asks."""

    @property
    def variable(self) -> str:
        """Return the name of an item in them, or ""."""

    @property
    def path(self) -> str:
        """Return the list whose every item it is asked of, or ""."""


class CommonSubexpressions:
    """What is worth having before any rule is asked.

    Attributes:
        paths: Facts of the whole job that several look at, each with a part that reads it.
        names: Quantities of the whole job that are worked out before, each behind all it is made
            of, with a part that stands for it.
        asked_by_items: Those of them that quantities of items ask for.
        free: Quantities of items that take no loop rounds.
        written_out: Quantities of items that are written out where they are asked for: those, and
            those that are asked for in one place only.
        lists: Paths of the lists of the job that somebody goes through.

    Args:
        rules: The conditions.
        quantities: All quantities that they need, each behind all it is made of.
    """

    def __init__(self, rules: Sequence[Asked], quantities: Quantities) -> None:
        self._quantities = quantities
        self.free: frozenset[tuple[str, str]] = frozenset()
        for name, (root, variable) in quantities.items():
            if name[0] and self.is_free(root, {variable: name[0]}):
                self.free |= {name}
        self.written_out = self.free | self._asked_once(rules)
        self.asked_by_items = frozenset(
            node.name
            for name, (root, _) in quantities.items()
            if name[0] and name not in self.written_out
            for node, _ in t.walk(root, {})
            if isinstance(node, t.Derived) and node.item is None
        )
        uses: Counter[tuple[type, str]] = Counter()
        parts: dict[tuple[type, str], t.Read | t.Derived] = {}
        for root, weight in self._roots(rules):
            for key, node in _looked_at(root):
                uses[key] += weight
                parts[key] = node
        self.paths = {
            key[1]: node for key, node in parts.items() if key[0] is t.Read and uses[key] > 1
        }
        roots = [root for root, _ in self._roots(rules)]
        self.lists = tuple(
            dict.fromkeys((*filter(None, (rule.path for rule in rules)), *_gone_through(roots)))
        )
        self.names = {
            name: parts[t.Derived, name]
            for of, name in quantities
            if not of and (t.Derived, name) in parts and self._is_before(name, uses)
        }

    def formula(self, name: str) -> t.Node:
        """Return the formula of a quantity of the whole job."""
        return self._quantities["", name][0]

    def formula_of_item(self, path: str, name: str) -> tuple[t.Node, str]:
        """Return the formula of a quantity of a list's items, and the name of an item in it."""
        return self._quantities[path, name]

    def of_several(self, rules: Sequence[Asked]) -> list[t.Read | t.Derived]:
        """Return the facts and free quantities of an item that several rules look at.

        Args:
            rules: The rules, which are asked of the items of one list.
        """
        uses: Counter[tuple[type, str]] = Counter()
        parts: dict[tuple[type, str], t.Read | t.Derived] = {}
        for rule in rules:
            own = {
                (type(node), node.path if isinstance(node, t.Read) else node.name): node
                for root in rule.both
                for node, _ in t.walk(root, {})
                if isinstance(node, t.Read | t.Derived) and node.item == rule.variable
            }
            uses.update(own.keys())
            parts.update(own)
        return [
            node
            for key, node in parts.items()
            if uses[key] > 1 and (key[0] is t.Read or (rules[0].path, key[1]) in self.free)
        ]

    def loop_invariant(self, rules: Sequence[Asked]) -> list[t.Node]:
        """Return what rules that are asked of items work out alike for each: it hangs on none.

        Args:
            rules: The rules, which are asked of the items of one list.
        """
        return [part for rule in rules for root in rule.both for part in _loop_invariant(root)[1]]

    def is_free(self, root: t.Node, lists: Mapping[str, str]) -> bool:
        """Say whether a part takes no loop rounds.

        Args:
            root: The part.
            lists: The list of each variable that is bound around it.
        """
        return not any(
            isinstance(node, t.Loop | t.Interpolation)
            or (
                isinstance(node, t.Derived)
                and node.item is not None
                and (bound[node.item], node.name) not in self.free
            )
            for node, bound in t.walk(root, lists)
        )

    def rounds(self, root: t.Node, lists: Mapping[str, str]) -> list[tuple[str, int]] | None:
        """Return the loops in a part: the list of the job each goes through, and a round's steps.

        Args:
            root: The part.
            lists: The list of each variable that is bound around it.

        Returns:
            The loops; None where one is inside another, goes through a list of an item, or is in a
            quantity that is not written out.
        """
        found: list[tuple[str, int]] = []
        outside = None
        for node, bound in t.walk(root, lists):
            outside = bound if outside is None else outside
            if isinstance(node, t.Loop | t.Interpolation):
                if bound is not outside or node.items.item is not None:
                    return None
                found.append((node.items.path, round_weight(node)))
            elif isinstance(node, t.Derived) and node.item is not None:
                key = bound[node.item], node.name
                if key in self.free:
                    continue
                if bound is not outside or key not in self.written_out:
                    return None
                formula, variable = self._quantities[key]
                inner = self.rounds(formula, {variable: key[0]})
                if inner is None:
                    return None
                found += inner
        return found

    def _asked_once(self, rules: Sequence[Asked]) -> frozenset[tuple[str, str]]:
        """Return the quantities of items that are asked for in one place only."""
        places = [
            *((root, {rule.variable: rule.path}) for rule in rules for root in rule.both),
            *((root, {of: path}) for (path, _), (root, of) in self._quantities.items()),
        ]
        asked = Counter(
            (bound[node.item], node.name)
            for root, lists in places
            for node, bound in t.walk(root, lists)
            if isinstance(node, t.Derived) and node.item is not None
        )
        return frozenset(name for name, times in asked.items() if times == 1)

    def _is_before(self, name: str, uses: Counter[tuple[type, str]]) -> bool:
        several = uses[t.Derived, name] > 1 or name in self.asked_by_items
        return several or not self.is_free(self.formula(name), {})

    def _roots(self, rules: Sequence[Asked]) -> Iterator[tuple[t.Node, int]]:
        """Give every condition and formula with how much its looking counts."""
        for rule in rules:
            for root in rule.both:
                # What is asked of each item is asked often.
                yield root, 2 if rule.path else 1
        for name, (root, _) in self._quantities.items():
            if not name[0] or name in self.written_out:
                yield root, 2 if name[0] else 1


def _loop_invariant(node: t.Node) -> tuple[bool, list[t.Node]]:
    """Find the greatest parts that hang on no item and take little to work out.

    Returns:
        Whether the whole does, and the parts that are worth working out.
    """
    inner = [_loop_invariant(part) for part in t.children(node)]
    of_item = isinstance(node, t.Read | t.Derived) and node.item is not None
    takes_much = isinstance(node, t.Loop | t.Interpolation | t.Call) or (
        isinstance(node, t.Arithmetic) and not ARITHMETIC[node.sign].code
    )
    whole = not of_item and not takes_much and all(is_whole for is_whole, _ in inner)
    if whole and isinstance(node, t.Lookup | t.Arithmetic | t.Comparison | t.Membership):
        return True, [node]
    return whole, [part for _, parts in inner for part in parts]


def _gone_through(roots: Iterable[t.Node]) -> Iterator[str]:
    """Give the path of each list of the job that a loop goes through."""
    for root in roots:
        for node, _ in t.walk(root, {}):
            if isinstance(node, t.Loop | t.Interpolation) and node.items.item is None:
                yield node.items.path


def _looked_at(root: t.Node) -> Iterator[tuple[tuple[type, str], t.Read | t.Derived]]:
    """Give each fact and quantity of the whole job that a part looks at, once."""
    seen = set()
    for node, _ in t.walk(root, {}):
        if isinstance(node, t.Read | t.Derived) and node.item is None:
            key = (type(node), node.path if isinstance(node, t.Read) else node.name)
            if key not in seen:
                seen.add(key)
                yield key, node
