"""Signs: which quantities can never be below zero, whatever the facts of a job are."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language.check.scope import Meaning, Scope
from tundish.language.operations.operators import operation_of
from tundish.language.tree import tree as t


def is_never_negative(node: t.Node, scope: Scope, lists: Mapping[str, str]) -> bool:
    """Say whether a quantity is certainly zero or more wherever it is known [SI units].

    Args:
        node: The checked tree of the quantity.
        scope: What names mean.
        lists: The list that each variable bound around it runs over.
    """
    parts = t.children(node)
    match node:
        case t.Constant():
            return isinstance(node.value, float) and node.value >= 0
        case t.Read() | t.Derived():
            meaning = _meaning(node, scope, lists)
            return meaning is not None and meaning.least >= 0
        case t.Arithmetic() | t.Call():
            return operation_of(node).keeps_sign(
                [is_never_negative(part, scope, lists) for part in parts]
            )
        case t.Choice() | t.Assumed():
            values = (node.then, node.otherwise) if isinstance(node, t.Choice) else parts
            return all(is_never_negative(value, scope, lists) for value in values)
        case t.Lookup():
            cells = scope.tables[node.table].rows(node.column).values()
            return all(isinstance(cell, float) and cell >= 0 for cell in cells)
        case t.Loop() | t.Interpolation():
            value = node.term if isinstance(node, t.Loop) else node.value
            inner = {**lists, node.variable: node.items.kind.record}
            return value.kind.name == "truth" or is_never_negative(value, scope, inner)
        case t.Within():
            is_bounded = node.least is not None and node.least >= 0
            return is_bounded or is_never_negative(node.operand, scope, lists)
        case _:
            return isinstance(node, t.Count)


def _meaning(node: t.Read | t.Derived, scope: Scope, lists: Mapping[str, str]) -> Meaning | None:
    of = "" if node.item is None else lists[node.item]
    if isinstance(node, t.Derived):
        return scope.quantities.get((of, node.name))
    return scope.facts.get(f"{of}.{node.path}" if of else node.path)
