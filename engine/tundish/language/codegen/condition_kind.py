"""What kind of condition a node is, which decides what code it becomes."""

from __future__ import annotations

from tundish.language.operations.operators import RELATIONS
from tundish.language.tree import tree as t

_SHORT = 12
"""Nodes, at most, of values that are emitted twice to save a test of their condition."""


def is_of_numbers(node: t.Comparison) -> bool:
    """Say whether quantities or days are compared, which are numbers both."""
    return node.left.kind.name in ("quantity", "date")


def is_of_text(node: t.Node) -> bool:
    """Say whether a text or truth is compared with constants."""
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
    """Say whether a condition is never unknown."""
    if isinstance(node, t.Logic | t.Not):
        return all(is_certain(part) for part in t.children(node))
    return isinstance(node, t.Known | t.Constant)


def are_short(*values: t.Node) -> bool:
    """Say whether values may be emitted twice: together they are short, without loop or choice."""
    parts = [part for value in values for part, _ in t.walk(value, {})]
    return len(parts) <= _SHORT and not any(
        isinstance(part, t.Loop | t.Interpolation | t.Choice | t.Derived) for part in parts
    )


def is_between_constants(node: t.Choice) -> bool:
    """Say whether a choice is between two different constants."""
    match node.then, node.otherwise:
        case t.Constant(value=then), t.Constant(value=otherwise):
            return then != otherwise
        case _:
            return False


def facts_held_against(node: t.Node) -> list[t.Read | t.Derived]:
    """Return the facts and quantities that a condition tests, or compares with constants.

    Args:
        node: A condition.

    Returns:
        One for each test; none where the condition tests anything else.
    """
    facts: list[t.Read | t.Derived] = []
    waiting = [node]
    while waiting:
        part = waiting.pop()
        match part:
            case t.Logic() | t.Not():
                waiting.extend(t.children(part))
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
