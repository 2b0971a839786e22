"""Common subexpressions: what several rules need, so that it is computed once before them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from tundish.groundwork.dataclass import dataclass
from tundish.language.budget.cost import round_cost
from tundish.language.operations.operators import ARITHMETIC
from tundish.language.tree import tree as t

Quantities = Mapping[tuple[str, str], tuple[t.Node, str]]
"""Formulas by path of the list they belong to (or "") and name, and the name of an item in it."""

Loops = Sequence[tuple[str, int]]
"""Loops: the path of the list that each goes through, and the cost of a round."""

_Name = tuple[type, str]
_Fact = t.Read | t.Derived


@dataclass(frozen=True, slots=True)
class Conditions:
    """The two conditions of a rule.

    Attributes:
        applies: When it is asked.
        requires: What it asks.
        variable: The name of an item in them, or "".
        path: The list whose every item it is asked of, or "".
    """

    applies: t.Node
    requires: t.Node
    variable: str = ""
    path: str = ""

    @property
    def both(self) -> tuple[t.Node, t.Node]:
        """Return both conditions."""
        return self.applies, self.requires


class CommonSubexpressions:
    """Finds what to compute before the rules.

    Attributes:
        facts: Facts of the whole job that several rules read, each with a node that reads it.
        quantities: Quantities of the whole job to be computed first, each behind all it is made
            of, with a node that reads it.
        needed_by_items: Those of them that functions for quantities of items need.
        loop_free: Quantities of items without loops.
        inlined: Quantities of items that are computed where they are needed: the loop-free ones,
            and those that are needed in one place only.
        lists: Paths of the lists of the job that anything loops through.

    Args:
        rules: The conditions.
        formulas: All quantities that they need, each behind all it is made of.
    """

    def __init__(self, rules: Sequence[Conditions], formulas: Quantities) -> None:
        self._formulas = formulas
        self.loop_free: frozenset[tuple[str, str]] = frozenset()
        for key, (root, variable) in formulas.items():
            if key[0] and self.is_loop_free(root, {variable: key[0]}):
                self.loop_free |= {key}
        self.inlined = self.loop_free | self._needed_once(rules)
        self.needed_by_items = frozenset(
            node.name
            for key, (root, _) in formulas.items()
            if key[0] and key not in self.inlined
            for node, _ in t.walk(root, {})
            if isinstance(node, t.Derived) and node.item is None
        )
        uses: Counter[_Name] = Counter()
        nodes: dict[_Name, _Fact] = {}
        roots = list(self._weighted_roots(rules))
        for root, weight in roots:
            read = _named(root, None)
            uses.update(dict.fromkeys(read, weight))
            nodes.update(read)
        self.facts = {
            name: node
            for (kind, name), node in nodes.items()
            if kind is t.Read and uses[kind, name] > 1
        }
        paths = [*filter(None, (rule.path for rule in rules)), *_looped(root for root, _ in roots)]
        self.lists = tuple(dict.fromkeys(paths))
        self.quantities = {
            name: nodes[t.Derived, name]
            for path, name in formulas
            if not path and (t.Derived, name) in nodes and self._is_first(name, uses)
        }

    def formula(self, name: str, path: str = "") -> tuple[t.Node, str]:
        """Return the formula of a quantity, and the name of an item in it.

        Args:
            name: The quantity.
            path: The list whose items it belongs to, or "" for one of the whole job.
        """
        return self._formulas[path, name]

    def shared(self, rules: Sequence[Conditions]) -> list[_Fact]:
        """Return the facts and loop-free quantities of an item that several rules read.

        Args:
            rules: The rules, which are asked of the items of one list.
        """
        uses: Counter[_Name] = Counter()
        nodes: dict[_Name, _Fact] = {}
        for rule in rules:
            read = {
                name: node
                for root in rule.both
                for name, node in _named(root, rule.variable).items()
            }
            uses.update(read.keys())
            nodes.update(read)
        return [
            node
            for (kind, name), node in nodes.items()
            if uses[kind, name] > 1 and (kind is t.Read or (rules[0].path, name) in self.loop_free)
        ]

    def is_loop_free(self, root: t.Node, lists: Mapping[str, str]) -> bool:
        """Say whether an expression costs no steps.

        Args:
            root: The expression.
            lists: The list of each variable that is bound around it.
        """
        return not any(
            isinstance(node, t.Loop | t.Interpolation)
            or (
                isinstance(node, t.Derived)
                and node.item is not None
                and (bound[node.item], node.name) not in self.loop_free
            )
            for node, bound in t.walk(root, lists)
        )

    def loops(self, roots: Iterable[t.Node], lists: Mapping[str, str]) -> Loops | None:
        """Return all loops in some expressions.

        Args:
            roots: The expressions.
            lists: The list of each variable that is bound around them.

        Returns:
            The loops; None where the cost is not known beforehand: where one is inside another,
            goes through a list of an item, or is in a quantity that is not inlined.
        """
        loops: list[tuple[str, int]] = []
        for root in roots:
            outside = None
            for node, bound in t.walk(root, lists):
                outside = bound if outside is None else outside
                if isinstance(node, t.Loop | t.Interpolation):
                    if bound is not outside or node.items.item is not None:
                        return None
                    loops.append((node.items.path, round_cost(node)))
                elif isinstance(node, t.Derived) and node.item is not None:
                    key = bound[node.item], node.name
                    if key in self.loop_free:
                        continue
                    if bound is not outside or key not in self.inlined:
                        return None
                    formula, variable = self._formulas[key]
                    inner = self.loops((formula,), {variable: key[0]})
                    if inner is None:
                        return None
                    loops += inner
        return loops

    def _needed_once(self, rules: Sequence[Conditions]) -> frozenset[tuple[str, str]]:
        """Return the quantities of items that are needed in one place only."""
        places = [
            *((root, {rule.variable: rule.path}) for rule in rules for root in rule.both),
            *((root, {of: path}) for (path, _), (root, of) in self._formulas.items()),
        ]
        needed = Counter(
            (bound[node.item], node.name)
            for root, lists in places
            for node, bound in t.walk(root, lists)
            if isinstance(node, t.Derived) and node.item is not None
        )
        return frozenset(key for key, times in needed.items() if times == 1)

    def _is_first(self, name: str, uses: Counter[_Name]) -> bool:
        """Say whether a quantity of the whole job is computed before the rules."""
        is_shared = uses[t.Derived, name] > 1 or name in self.needed_by_items
        return is_shared or not self.is_loop_free(self.formula(name)[0], {})

    def _weighted_roots(self, rules: Sequence[Conditions]) -> Iterator[tuple[t.Node, int]]:
        """Give every condition and formula with how many uses a use in it counts as."""
        for rule in rules:
            for root in rule.both:
                # A condition of items runs once for every item, so it counts twice.
                yield root, 2 if rule.path else 1
        for key, (root, _) in self._formulas.items():
            if not key[0] or key in self.inlined:
                yield root, 2 if key[0] else 1


def loop_invariant(rules: Sequence[Conditions]) -> list[t.Node]:
    """Return what rules compute alike for each item of their list, as it depends on none.

    Args:
        rules: The rules, which are asked of the items of one list.
    """
    return [part for rule in rules for root in rule.both for part in _loop_invariant(root)[1]]


def _loop_invariant(node: t.Node) -> tuple[bool, list[t.Node]]:
    """Find the largest parts that depend on no item and cost little.

    Returns:
        Whether the node is such a part, and the parts that are worth computing before.
    """
    operands = [_loop_invariant(part) for part in t.children(node)]
    of_item = isinstance(node, _Fact) and node.item is not None
    is_costly = isinstance(node, t.Loop | t.Interpolation | t.Call) or (
        isinstance(node, t.Arithmetic) and not ARITHMETIC[node.sign].code
    )
    is_invariant = not of_item and not is_costly and all(invariant for invariant, _ in operands)
    if is_invariant and isinstance(node, t.Lookup | t.Arithmetic | t.Comparison | t.Membership):
        return True, [node]
    return is_invariant, [part for _, parts in operands for part in parts]


def _looped(roots: Iterable[t.Node]) -> Iterator[str]:
    """Give the path of each list of the job that a loop goes through."""
    for root in roots:
        for node, _ in t.walk(root, {}):
            if isinstance(node, t.Loop | t.Interpolation) and node.items.item is None:
                yield node.items.path


def _named(root: t.Node, item: str | None) -> dict[_Name, _Fact]:
    """Return the facts and quantities of an item, or of the whole job, that are read somewhere."""
    return {
        (type(node), node.path if isinstance(node, t.Read) else node.name): node
        for node, _ in t.walk(root, {})
        if isinstance(node, _Fact) and node.item == item
    }
