"""Conditions that hold or fail wherever facts lie, though nobody knows which."""

from __future__ import annotations

from typing import Protocol

from tundish.language.evaluate.environment import Bound, Environment
from tundish.language.evaluate.ranges.range import Range
from tundish.language.tree import tree as t


class Walker(Protocol):
    """What evaluates the parts of a tree over ranges."""

    @property
    def environment(self) -> Environment:
        """Return what names stand for."""

    def part(self, node: t.Node, bound: Bound) -> Range:
        """Return the range of a part."""

    def is_stated_later(self, node: t.Read, bound: Bound) -> bool:
        """Say whether every completion states a fact."""


def is_either(walker: Walker, node: t.Node, bound: Bound) -> bool:
    """Say whether a condition that is neither holds or fails, wherever facts lie."""
    match node:
        case t.Membership(texts=t.Read() as texts):
            is_stated = walker.part(texts, bound) is not None
            is_stated = is_stated or walker.is_stated_later(texts, bound)
            return is_stated and walker.part(node.member, bound) is not None
        case t.Comparison() | t.Membership():
            return None not in [walker.part(part, bound) for part in t.children(node)]
        case t.Read():
            return node.kind.name == "truth" and walker.is_stated_later(node, bound)
        case t.Present():
            return walker.is_stated_later(node.operand, bound)
        case t.Derived():
            _, root, inner = walker.environment.formula(node, bound)
            return is_either(walker, root, inner)
        case t.Not() | t.Logic():
            return all(is_either(walker, part, bound) for part in t.children(node))
        case _:
            return walker.part(node, bound) is not None
