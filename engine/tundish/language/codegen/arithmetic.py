"""Arithmetic as one expression, and calls of functions, where all operands are known."""

from __future__ import annotations

from collections.abc import Callable

from tundish.language.codegen.condition_kind import is_between_constants
from tundish.language.codegen.conditions import known_fact_test, single_fact
from tundish.language.codegen.emitter import CodeEmitter
from tundish.language.operations.finiteness import can_overflow
from tundish.language.operations.operators import operation_of
from tundish.language.tree import tree as t

_Needed = dict[str, None]
"""Tests that must all pass for an expression to have a value, in their order."""


def emit_arithmetic(emitter: CodeEmitter, node: t.Node) -> str:
    """Emit a sum, product, quotient or call."""
    if isinstance(node, t.Negation) or (
        isinstance(node, t.Arithmetic | t.Call) and _is_inline(node)
    ):
        return _emit_expression(emitter, node)
    return _emit_call(emitter, node)


def _emit_expression(emitter: CodeEmitter, node: t.Node) -> str:
    """Emit arithmetic with all its terms as one expression.

    What is not finite stays so through ``+ - *``, so that one test at the end is enough; a divisor,
    which could make it finite again, has a name and a test of its own.
    """
    needed: _Needed = {}
    text = _term(emitter, node, needed)
    code = emitter.code
    result = code.new_name()

    def compute() -> None:
        code.line(f"{result} = {text}")
        if can_overflow(node):
            code.line(f"if {result} - {result}: {result} = None")

    _emit_if(emitter, " and ".join(needed), result, compute)
    if not needed and not can_overflow(node):
        code.mark_known(result)
    return result


def _emit_call(emitter: CodeEmitter, node: t.Node) -> str:
    """Emit the call of an operation, which may not hold for its arguments."""
    assert isinstance(node, t.Arithmetic | t.Call)
    operation, operands = operation_of(node), t.children(node)
    arguments = [emitter.operand(operand) for operand in operands]
    known = emitter.all_known(zip(operands, arguments, strict=True))
    code = emitter.code
    result = code.new_name()

    def compute() -> None:
        call = f"function_{operation.name}({', '.join(arguments)})"
        code.line(f"try: {result} = {call if operation.is_finite else f'float({call})'}")
        code.line(f"except does_not_hold: {result} = None")
        if not operation.is_finite:
            with code.block("else:"):
                code.line(f"if {result} - {result}: {result} = None")

    _emit_if(emitter, known, result, compute)
    return result


def _emit_if(emitter: CodeEmitter, test: str, result: str, compute: Callable[[], None]) -> None:
    """Emit a computation that has a value where a test passes, always if the test is ""."""
    if not test:
        compute()
        return
    with emitter.code.block(f"if {test}:"):
        compute()
    emitter.code.line(f"else: {result} = None")


def _term(emitter: CodeEmitter, node: t.Node, needed: _Needed) -> str:
    """Return the text of a term, and add the tests that must pass for it to have a value."""
    if isinstance(node, t.Constant):
        return f"({node.value!r})"
    if not emitter.available(node):
        if isinstance(node, t.Negation):
            return f"(-{_term(emitter, node.operand, needed)})"
        if isinstance(node, t.Arithmetic | t.Call) and _is_inline(node):
            return _inline(emitter, node, needed)
        if isinstance(node, t.Choice) and is_between_constants(node):
            fact = single_fact(emitter, node.condition)
            if fact is not None:
                value = _require_known(emitter, emitter.emit(fact), needed)
                test = known_fact_test(emitter, node.condition, value)
                then, otherwise = emitter.operand(node.then), emitter.operand(node.otherwise)
                return f"({then} if {test} else {otherwise})"
    return _require_known(emitter, emitter.emit(node), needed)


def _require_known(emitter: CodeEmitter, name: str, needed: _Needed) -> str:
    """Add the test that a value is known, unless it certainly is; return its name."""
    if not emitter.code.is_known(name):
        needed[f"{name} is not None"] = None
    return name


def _inline(emitter: CodeEmitter, node: t.Arithmetic | t.Call, needed: _Needed) -> str:
    """Return the text of an operation that is as short as its call."""
    operation, texts = operation_of(node), list[str]()
    operands = t.children(node)
    divisor = operands[-1] if operation.is_division else None
    for position, operand in enumerate(operands):
        is_named = operand is divisor or operation.uses(position) > 1
        texts.append(emitter.operand(operand) if is_named else _term(emitter, operand, needed))
        if operand is divisor:
            if not (isinstance(operand, t.Constant) and operand.value):
                needed[texts[-1]] = None  # neither unknown nor zero
        elif is_named and not isinstance(operand, t.Constant):
            _require_known(emitter, texts[-1], needed)
    return operation.code.format(*texts)


def _is_inline(node: t.Arithmetic | t.Call) -> bool:
    """Say whether an operation is generated inline, as a call would take longer than it does."""
    return operation_of(node).is_inline(len(t.children(node)))
