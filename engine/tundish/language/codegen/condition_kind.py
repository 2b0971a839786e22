"""What kind of condition a part of a tree is, for those who write it as Python."""

from __future__ import annotations

from tundish.language.operations.operators import RELATIONS
from tundish.language.tree import tree as t

_SHORT = 12
"""Nodes of what is written twice rather than put off until its condition has a value."""


def is_of_numbers(node: t.Comparison) -> bool:
    """Say whether quantities or days are compared, which are numbers both."""
    return node.left.kind.name in ("quantity", "date")


def is_of_text(node: t.Node) -> bool:
    """Say whether a text or truth is held against what is written out."""
    if isinstance(node, t.Membership):
        plain = node.texts is None and node.member.kind.name != "quantity" and bool(node.options)
        return plain and not isinstance(node.member, t.Constant)
    assert isinstance(node, t.Comparison)
    return (
        not RELATIONS[node.sign].code
        and node.left.kind.name in ("text", "truth")
        and isinstance(node.right, t.Constant)
        and not isinstance(node.left, t.Constant)
    )


def is_certain(node: t.Node) -> bool:
    """Say whether a condition always comes out one way or the other."""
    if isinstance(node, t.Logic | t.Not):
        return all(is_certain(part) for part in t.children(node))
    return isinstance(node, t.Known | t.Constant)


def are_short(*ways: t.Node) -> bool:
    """Say whether parts may be written twice: together they are short, and loop and choose not."""
    parts = [part for way in ways for part, _ in t.walk(way, {})]
    return len(parts) <= _SHORT and not any(
        isinstance(part, t.Loop | t.Interpolation | t.Choice | t.Derived) for part in parts
    )


def is_between_constants(node: t.Choice) -> bool:
    """Say whether a choice is between two values that are written out and are not the same."""
    match node.then, node.otherwise:
        case t.Constant(value=one), t.Constant(value=other):
            return one != other
        case _:
            return False


def facts_held_against(node: t.Node) -> list[t.Read | t.Derived]:
    """Return the facts and quantities that a condition asks, or holds against what is written out.

    Args:
        node: A condition.

    Returns:
        One for each question; none where anything else is asked in it.
    """
    facts: list[t.Read | t.Derived] = []
    ahead = [node]
    while ahead:
        part = ahead.pop()
        match part:
            case t.Logic() | t.Not():
                ahead.extend(t.children(part))
            case t.Read() | t.Derived():
                facts.append(part)
            case t.Comparison(left=t.Read() | t.Derived() as fact, right=t.Constant()):
                facts.append(fact)
            case t.Comparison(left=t.Constant(), right=t.Read() | t.Derived() as fact):
                facts.append(fact)
            case t.Membership(member=t.Read() | t.Derived() as fact, texts=None):
                facts.append(fact)
            case t.Membership(member=t.Constant(), texts=t.Read() | t.Derived() as fact):
                facts.append(fact)
            case _:
                return []
    return facts
