"""Conditions as Python tests, which pass or do not: true, or false, but never unknown."""

from __future__ import annotations

from tundish.language.codegen.condition_kind import (
    facts_held_against,
    is_of_numbers,
    is_of_text,
)
from tundish.language.codegen.emitter import CodeEmitter, Operands
from tundish.language.codegen.tolerance import comparison_test
from tundish.language.operations.operators import RELATIONS
from tundish.language.tree import tree as t


def true_test(emitter: CodeEmitter, node: t.Node, is_true: bool = True) -> str:
    """Return an expression that is true exactly where a condition is.

    Args:
        emitter: The emitter.
        node: The condition.
        is_true: Whether it is the condition's being true that is tested, and not its being false.
    """
    match node:
        case t.Not():
            return true_test(emitter, node.operand, not is_true)
        case t.Logic() if (fact := single_fact(emitter, node)) is not None:
            value = emitter.emit(fact)
            test = known_fact_test(emitter, node, value)
            return _known_and(emitter, [(fact, value)], test if is_true else f"not {test}")
        case t.Logic():
            # An "and" is false where any part is, an "or" where all are.
            word = " and " if (node.word == "and") is is_true else " or "
            return f"({word.join(true_test(emitter, part, is_true) for part in node.parts)})"
        case _:
            return _simple_test(emitter, node, is_true)


def false_test(emitter: CodeEmitter, node: t.Node) -> str:
    """Return an expression that is true exactly where a condition is false."""
    return true_test(emitter, node, is_true=False)


def _simple_test(emitter: CodeEmitter, node: t.Node, is_true: bool) -> str:
    """Test a condition that does not join others."""
    available = emitter.available(node)
    if available:
        return available if is_true else f"{available} is False"
    match node:
        case t.Comparison() if is_of_numbers(node):
            left, right = emitter.operand(node.left), emitter.operand(node.right)
            test, is_negated = comparison_test(node, left, right)
            test = f"not ({test})" if is_negated is is_true else f"({test})"
            return _known_and(emitter, [(node.left, left), (node.right, right)], test)
        case t.Comparison() | t.Membership() if is_of_text(node):
            value, test, is_negated = text_test(emitter, node)
            if is_negated is is_true:
                return _known_and(emitter, [(node, value)], f"not {test}")
            return test
        case t.Membership() if node.texts is not None:
            member, texts = emitter.operand(node.member), emitter.emit(node.texts)
            test = f"{member} {'in' if is_true else 'not in'} {texts}"
            return _known_and(emitter, [(node.member, member), (node.texts, texts)], test)
        case t.Known():
            return f"({emitter.emit(node.operand)} is {'not ' if is_true else ''}None)"
        case _:
            value = emitter.emit(node)
            return value if is_true else f"{value} is False"


def known_where_true(emitter: CodeEmitter, node: t.Node) -> list[str]:
    """Return names of values that are known wherever a condition is true."""
    match node:
        case t.Known():
            return [emitter.emit(node.operand)]
        case t.Comparison() | t.Membership():
            facts = (part for part in t.children(node) if isinstance(part, t.Read | t.Derived))
            return [emitter.emit(fact) for fact in facts]
        case t.Logic(word="and"):
            return [name for part in node.parts for name in known_where_true(emitter, part)]
        case _:
            return []


def _known_and(emitter: CodeEmitter, operands: Operands, test: str) -> str:
    """Return a test that passes where all operands are known and another test passes."""
    known = emitter.all_known(operands)
    return f"({known} and {test})" if known else f"({test})"


def text_test(emitter: CodeEmitter, node: t.Node) -> tuple[str, str, bool]:
    """Return the name of a text, a test that fails where it is unknown, and if it is negated."""
    if isinstance(node, t.Membership):
        value = emitter.emit(node.member)
        options = ", ".join(repr(option) for option in node.options or ())
        return value, f"({value} in {{{options}}})", False
    assert isinstance(node, t.Comparison)
    value = emitter.emit(node.left)
    assert isinstance(node.right, t.Constant)
    return value, f"({value} == {node.right.value!r})", bool(RELATIONS[node.sign].negates)


def is_eager(emitter: CodeEmitter, node: t.Node) -> bool:
    """Say whether all of a condition may be computed, even what would not be needed.

    Nothing in it may cost much or spend steps of a budget.
    """
    costly: tuple[type[t.Node], ...] = (t.Choice, t.Call, t.Lookup)
    if not emitter.runtime.quantities_first:
        costly += (t.Derived,)
    return emitter.numbering.number(node) is not None and not any(
        isinstance(part, costly) for part, _ in t.walk(node, {})
    )


# -- conditions on one fact, which are decided as soon as that is known ---------------------------


def single_fact(emitter: CodeEmitter, node: t.Node) -> t.Read | t.Derived | None:
    """Return the one fact that all parts compare with constants, if there is one."""
    facts = facts_held_against(node)
    if not facts or len({emitter.numbering.number(fact) for fact in facts}) > 1:
        return None
    return facts[0] if is_eager(emitter, node) else None


def known_fact_test(emitter: CodeEmitter, node: t.Node, value: str) -> str:
    """Return a test of whether a condition on one fact is true, where that is known."""
    with emitter.code.knowing(value):
        if not isinstance(node, t.Logic):
            return true_test(emitter, node)
        return f"({f' {node.word} '.join(true_test(emitter, part) for part in node.parts)})"
