"""How each type of node is emitted, and the code of a single expression."""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language.codegen.arithmetic import emit_arithmetic
from tundish.language.codegen.branches import emit_choice, emit_logic
from tundish.language.codegen.emitter import CodeEmitter, Form
from tundish.language.codegen.loops import emit_interpolation, emit_loop
from tundish.language.codegen.tolerance import comparison_test
from tundish.language.tree import tree as t


class SessionRuntime:
    """Reaches everything through the running evaluation, which is called ``session``."""

    rows = "session.rows"
    quantities_first = False

    def derived(self, emitter: CodeEmitter, node: t.Derived) -> str:
        """Emit what asks the session for a quantity."""
        if node.item is None:
            return emitter.code.assign(f"session.derive('', {node.name!r})")
        item, path = emitter.variables[node.item]
        return emitter.code.assign(f"session.derive({path!r}, {node.name!r}, {item})")

    def charge(self, emitter: CodeEmitter, items: t.Read, steps: int) -> None:
        """Emit what spends the steps of a loop."""
        emitter.code.line(f"session.budget.spend({steps} * len({emitter.emit(items)}))")


def expression_lines(root: t.Node, variables: Mapping[str, tuple[str, str]]) -> list[str]:
    """Return the statements of a function of (facts, session) that returns an expression's value.

    Args:
        root: The checked tree.
        variables: The parameter that stands for each bound variable's item, and its list's path.
    """
    emitter = CodeEmitter(FORMS, SessionRuntime(), variables)
    value = emitter.emit(root)
    return [*emitter.code.lines, f"return {value}"]


def _comparison(emitter: CodeEmitter, node: t.Comparison) -> str:
    left, right = emitter.operand(node.left), emitter.operand(node.right)
    test, is_negated = comparison_test(node, left, right)
    test = f"not ({test})" if is_negated else f"({test})"
    return emitter.assign_if_known([(node.left, left), (node.right, right)], test)


def _membership(emitter: CodeEmitter, node: t.Membership) -> str:
    if node.member.kind.name == "quantity":
        member = emitter.emit(node.member)
        options = repr(node.options) if node.texts is None else emitter.emit(node.texts)
        return emitter.code.assign(f"member({member}, {options})")
    operands = [(node.member, emitter.operand(node.member))]
    # A set of constants is built once, by Python's own compiler.
    options = f"{{{', '.join(map(repr, node.options or ()))}}}"
    if node.texts is not None:
        options = emitter.emit(node.texts)
        operands.append((node.texts, options))
    return emitter.assign_if_known(operands, f"{operands[0][1]} in {options}")


def _not(emitter: CodeEmitter, node: t.Not) -> str:
    operand = emitter.emit(node.operand)
    return emitter.code.assign(f"None if {operand} is None else not {operand}")


def _assumed(emitter: CodeEmitter, node: t.Assumed) -> str:
    code = emitter.code
    result = code.assign(emitter.emit(node.operand))
    with code.block(f"if {result} is None:"):
        code.line(f"{result} = {emitter.operand(node.fallback)}")
    if isinstance(node.fallback, t.Constant):
        code.mark_known(result)
    return result


def _within(emitter: CodeEmitter, node: t.Within) -> str:
    operand, (least, most) = emitter.emit(node.operand), node.ends
    tests = [] if emitter.code.is_known(operand) else [f"{operand} is None"]
    tests += [] if least is None else [f"{operand} < {least!r}"]
    tests += [] if most is None else [f"{operand} > {most!r}"]
    return emitter.code.assign(f"None if {' or '.join(tests)} else {operand}")


def _lookup(emitter: CodeEmitter, node: t.Lookup) -> str:
    rows = emitter.runtime.rows
    names = [emitter.operand(argument) for argument in node.arguments]
    keys = f"({', '.join(names)}, )"
    hit = f"{rows}[{node.table!r}, {node.column!r}].get"
    hit += f"({names[0]})" if len(names) == 1 else f"({keys})"
    if not any(argument.kind.name == "quantity" for argument in node.arguments):
        return emitter.code.assign(hit)
    # Only a number can be read at a row that it does not hit.
    near = f"{rows}.tables[{node.table!r}].near({node.column!r}, {keys})"
    return emitter.code.assign(f"{hit} or {near}")


def _count(emitter: CodeEmitter, node: t.Count) -> str:
    items = emitter.emit(node.items)
    unknown = f"{items} is None or {items}.__class__ is open_list"
    return emitter.code.assign(f"None if {unknown} else len({items}) * 1.0")


FORMS: dict[type[t.Node], Form] = {
    t.Constant: lambda emitter, node: emitter.code.assign(repr(node.value)),
    t.Read: lambda emitter, node: emitter.code.assign(
        f"{emitter.item(node.item)}.get({node.path!r})"
    ),
    t.Derived: lambda emitter, node: emitter.runtime.derived(emitter, node),
    t.Negation: emit_arithmetic,
    t.Arithmetic: emit_arithmetic,
    t.Call: emit_arithmetic,
    t.Comparison: _comparison,
    t.Membership: _membership,
    t.Not: _not,
    t.Logic: emit_logic,
    t.Choice: emit_choice,
    t.Known: lambda emitter, node: emitter.code.assign(f"{emitter.emit(node.operand)} is not None"),
    t.Present: lambda emitter, node: emitter.emit(node.operand),
    t.Assumed: _assumed,
    t.Within: _within,
    t.Lookup: _lookup,
    t.Count: _count,
    t.Loop: emit_loop,
    t.Interpolation: emit_interpolation,
}
"""How to emit each type of node."""
