"""Weighing: how many steps a part of an expression takes, known before it is ever evaluated.

A loop is charged for what stands in it, each round, so that a long formula in a short loop costs
what a short one in a long loop does. Weights are the same in every form of evaluation, so that no
verdict hangs on which form came to it.
"""

from __future__ import annotations

from collections.abc import Iterator

from tundish.language.operations.operators import operation_of
from tundish.language.tree import tree as t

_WEIGHTS: dict[type[t.Node], int] = {t.Derived: 5, t.Lookup: 10, t.Interpolation: 10, t.Loop: 5}
"""Steps of parts that take longer than looking at a fact or adding two figures does."""


class TooManySteps(Exception):  # noqa: N818 - it reads as the sentence it is
    """A rule took more steps than it may."""


def weight(*parts: t.Node | None) -> int:
    """Return how many steps parts take, each evaluated once.

    What stands inside a loop in them is left out: each round of that is charged when it is taken.

    Args:
        parts: The parts; one that is None takes none.
    """
    return sum(_own(node) for part in parts if part is not None for node in _outside_loops(part))


def round_weight(loop: t.Loop | t.Interpolation) -> int:
    """Return how many steps a round of a loop takes."""
    if isinstance(loop, t.Loop):
        return weight(loop.filter, loop.term)
    return weight(loop.filter, *loop.keys, loop.value)


def whole_weight(root: t.Node) -> int:
    """Return how many steps an expression takes, with one round of each loop in it."""
    return sum(_own(node) for node, _ in t.walk(root, {}))


def _own(node: t.Node) -> int:
    if isinstance(node, t.Arithmetic | t.Call):
        return operation_of(node).steps
    return _WEIGHTS.get(type(node), 1)


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
