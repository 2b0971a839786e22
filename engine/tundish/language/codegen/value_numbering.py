"""Value numbering: parts of trees that have the same value wherever they are computed."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from tundish.language.tree import tree as t

_OWN: dict[type[t.Node], Callable[..., object]] = {
    # 1.0 and True are one to Python, but not to a rule.
    t.Constant: lambda node: repr(node.value),
    t.Arithmetic: lambda node: node.sign,
    t.Comparison: lambda node: (node.sign, node.left.kind.name),
    t.Membership: lambda node: repr(node.options),
    t.Logic: lambda node: node.word,
    t.Call: lambda node: node.function.name,
    t.Lookup: lambda node: (node.table, node.column),
}
"""What a part is besides its kind of node and the parts it is made of."""


class ValueNumbering:
    """Gives parts that have the same value the same key.

    Args:
        variables: The name that stands for each variable's item in what is written, and its list.
        free: Quantities of items that take no loop rounds, by path of their list and name.
    """

    def __init__(
        self,
        variables: Mapping[str, tuple[str, str]],
        free: frozenset[tuple[str, str]] = frozenset(),
    ) -> None:
        self._variables = variables
        self._free = free
        self._keys: dict[object, int] = {}
        self._of_whole_job: dict[int, tuple[t.Node, int | None]] = {}

    def key(self, node: t.Node) -> int | None:
        """Return the key of a part; None where it takes loop rounds, which each asker pays."""
        return self._key(node)[0]

    def _key(self, node: t.Node) -> tuple[int | None, bool]:
        """Return the key of a part, and whether it hangs on an item."""
        found = self._of_whole_job.get(id(node))
        if found is not None:
            return found[1], False
        key, of_item = self._new_key(node)
        if not of_item:
            self._of_whole_job[id(node)] = (node, key)  # held, so that its id stays its own
        return key, of_item

    def _new_key(self, node: t.Node) -> tuple[int | None, bool]:
        if isinstance(node, t.Loop | t.Interpolation):
            return None, True
        if isinstance(node, t.Read | t.Derived):
            return self._name_key(node)
        parts = [self._key(part) for part in t.children(node)]
        of_item = any(hangs for _, hangs in parts)
        if any(key is None for key, _ in parts):
            return None, of_item
        own = _OWN.get(type(node))
        what = (type(node), own(node) if own else None, *(key for key, _ in parts))
        return self._numbered(what), of_item

    def _name_key(self, node: t.Read | t.Derived) -> tuple[int | None, bool]:
        named = node.path if isinstance(node, t.Read) else node.name
        if node.item is None:
            return self._numbered((type(node), "", named)), False
        item, path = self._variables[node.item]
        if isinstance(node, t.Derived) and (path, node.name) not in self._free:
            return None, True
        return self._numbered((type(node), item, named)), True

    def _numbered(self, what: object) -> int:
        return self._keys.setdefault(what, len(self._keys))
