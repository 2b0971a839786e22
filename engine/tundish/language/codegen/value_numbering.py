"""Value numbering: nodes that have the same value wherever they are computed."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from tundish.language.tree import tree as t

_ATTRIBUTES: dict[type[t.Node], Callable[..., object]] = {
    # 1.0 and True are one to Python, but not to a rule.
    t.Constant: lambda node: repr(node.value),
    t.Arithmetic: lambda node: node.sign,
    t.Comparison: lambda node: (node.sign, node.left.kind.name),
    t.Membership: lambda node: repr(node.options),
    t.Logic: lambda node: node.word,
    t.Call: lambda node: node.function.name,
    t.Lookup: lambda node: (node.table, node.column),
    t.Within: lambda node: node.ends,
}
"""What tells a node from others of its type, besides its operands."""


class ValueNumbering:
    """Gives nodes that have the same value the same number.

    Args:
        variables: The name that stands for each variable's item in the code, and its list.
        loop_free: Quantities of items without loops, by path of their list and name.
    """

    def __init__(
        self,
        variables: Mapping[str, tuple[str, str]],
        loop_free: frozenset[tuple[str, str]] = frozenset(),
    ) -> None:
        self._variables = variables
        self._loop_free = loop_free
        self._numbers: dict[object, int] = {}
        self._of_job: dict[int, tuple[t.Node, int | None]] = {}

    def number(self, node: t.Node) -> int | None:
        """Return the number of a node; None where it loops, which each who asks pays for."""
        return self._numbered(node)[0]

    def _numbered(self, node: t.Node) -> tuple[int | None, bool]:
        """Return the number of a node, and whether its value depends on an item."""
        cached = self._of_job.get(id(node))
        if cached is not None:
            return cached[1], False
        number, of_item = self._new(node)
        if not of_item:
            self._of_job[id(node)] = (node, number)  # kept, so that no other node gets its id
        return number, of_item

    def _new(self, node: t.Node) -> tuple[int | None, bool]:
        if isinstance(node, t.Loop | t.Interpolation):
            return None, True
        if isinstance(node, t.Read | t.Derived):
            return self._of_name(node)
        operands = [self._numbered(operand) for operand in t.children(node)]
        of_item = any(depends for _, depends in operands)
        if any(number is None for number, _ in operands):
            return None, of_item
        attributes = _ATTRIBUTES.get(type(node))
        own = attributes(node) if attributes else None
        return self._number_of((type(node), own, *(number for number, _ in operands))), of_item

    def _of_name(self, node: t.Read | t.Derived) -> tuple[int | None, bool]:
        name = node.path if isinstance(node, t.Read) else node.name
        if node.item is None:
            return self._number_of((type(node), "", name)), False
        item, path = self._variables[node.item]
        if isinstance(node, t.Derived) and (path, node.name) not in self._loop_free:
            return None, True
        return self._number_of((type(node), item, name)), True

    def _number_of(self, value: object) -> int:
        return self._numbers.setdefault(value, len(self._numbers))
