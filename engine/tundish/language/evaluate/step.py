"""A step of an explained evaluation: a part of the tree, its value, and where that comes from."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tundish.language.tree.tree import Node, Value


class Step(NamedTuple):
    """A part of an expression, evaluated.

    Attributes:
        node: The part.
        value: Its value in SI units, or None where it is unknown.
        parts: The steps it was made from, in the order they were looked at.
        path: For a fact, its path with positions from 1; for a quantity, its name.
        item: For a round of a loop, what the item is called.
        needs: The unknown facts that would decide it; empty where it has a value.
        obstacles: Why it has no value, where that is not a fact left out.
        assumed: Facts that a stated fallback stood in for.
        needed: Whether the outcome depended on looking at it.
    """

    node: Node
    value: Value | None
    parts: tuple[Step, ...] = ()
    path: str = ""
    item: str = ""
    needs: frozenset[str] = frozenset()
    obstacles: frozenset[str] = frozenset()
    assumed: frozenset[str] = frozenset()
    needed: bool = True

    def walk(self) -> Iterator[Step]:
        """Give this step and all below it, parents first."""
        yield self
        for part in self.parts:
            yield from part.walk()


def joined(
    node: Node, value: Value | None, parts: tuple[Step, ...], why: str = "", path: str = ""
) -> Step:
    """Make a step of its parts; what it still needs follows from the parts without a value.

    Args:
        node: The part of the tree.
        value: Its value, or None where it is unknown.
        parts: The steps it was made from.
        why: Why it has no value, where no part of it is to blame.
        path: For a quantity, its name.
    """
    assumed = _NONE.union(*[part.assumed for part in parts])
    if value is not None:
        return Step(node, value, parts, path, "", _NONE, _NONE, assumed)
    open_parts = [part for part in parts if part.value is None and part.needed]
    needs = _NONE.union(*[part.needs for part in open_parts])
    obstacles = _NONE.union(*[part.obstacles for part in open_parts])
    if why and not needs:
        obstacles |= {why}
    return Step(node, None, parts, path, "", needs, obstacles, assumed)


_NONE: frozenset[str] = frozenset()
