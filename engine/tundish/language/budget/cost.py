"""The cost of expressions in steps, known before they are evaluated.

A loop costs what stands in it, each round, so that a long formula in a short loop costs what a
short one in a long loop does. Costs are the same in every form of evaluation, so that no verdict
depends on which form gave it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tundish.language.operations.operators import operation_of
from tundish.language.tree import tree as t

_COSTS: dict[type[t.Node], int] = {t.Derived: 5, t.Lookup: 10, t.Interpolation: 10, t.Loop: 5}
"""Steps of nodes that take longer than reading a fact or adding two numbers."""


def cost(*roots: t.Node | None) -> int:
    """Return how many steps expressions take, each evaluated once.

    The rounds of loops in them are left out: these are charged when they are run.

    Args:
        roots: The expressions; None costs nothing.
    """
    return sum(_own(node) for root in roots if root is not None for node in _outside_loops(root))


def round_cost(loop: t.Loop | t.Interpolation) -> int:
    """Return how many steps a round of a loop takes."""
    if isinstance(loop, t.Loop):
        return cost(loop.filter, loop.term)
    return cost(loop.filter, *loop.keys, loop.value)


def total_cost(root: t.Node) -> int:
    """Return how many steps an expression takes, with one round of each loop in it."""
    return sum(_own(node) for node, _ in t.walk(root, {}))


def _own(node: t.Node) -> int:
    if isinstance(node, t.Arithmetic | t.Call):
        return operation_of(node).steps
    return _COSTS.get(type(node), 1)


def _outside_loops(root: t.Node) -> Iterator[t.Node]:
    ahead = [root]
    while ahead:
        node = ahead.pop()
        yield node
        if isinstance(node, t.Interpolation):
            ahead.extend((node.items, *node.at))
        elif isinstance(node, t.Loop):
            ahead.append(node.items)
        else:
            ahead.extend(t.children(node))
