"""Conditions as branches: what is done where one is true, is false, or is unknown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice, takewhile

from tundish.groundwork.dataclass import dataclass
from tundish.language.codegen.condition_kind import are_short, is_certain, is_of_text
from tundish.language.codegen.conditions import (
    false_test,
    is_eager,
    known_fact_test,
    known_where_true,
    single_fact,
    text_test,
    true_test,
)
from tundish.language.codegen.emitter import CodeEmitter
from tundish.language.codegen.tolerance import comparison_test
from tundish.language.tree import tree as t

_MOST_PARTS, _MOST_NODES = 3, 20
"""Parts, and nodes in all, of a condition that is emitted part by part."""

_MOST_DEPTH = 30
"""Blocks within which nothing goes deeper that need not; Python reads 100."""


@dataclass(frozen=True, slots=True)
class Branch:
    """What is done where a condition comes out one way.

    Attributes:
        emit: Emits it.
        is_short: Whether it may be emitted several times.
    """

    emit: Callable[[], None]
    is_short: bool = True


@dataclass(frozen=True, slots=True)
class Branches:
    """What is done for each way a condition can come out."""

    on_true: Branch
    on_false: Branch
    on_unknown: Branch

    def negated(self, is_negated: bool = True) -> Branches:
        """Return the branches of the opposite condition."""
        if not is_negated:
            return self
        return Branches(self.on_false, self.on_true, self.on_unknown)


def emit_branches(emitter: CodeEmitter, node: t.Node, branches: Branches) -> None:
    """Emit a condition and its branches."""
    is_available = bool(emitter.available(node))
    match node:
        case t.Constant():
            (branches.on_true if node.value else branches.on_false).emit()
        case t.Not():
            emit_branches(emitter, node.operand, branches.negated())
        case t.Known():
            value = emitter.emit(node.operand)
            _branch(emitter, f"if {value} is not None:", branches.on_true, value)
            _branch(emitter, "else:", branches.on_false)
        case t.Comparison() | t.Membership() if is_of_text(node) and not is_available:
            value, test, is_negated = text_test(emitter, node)
            _branch_on_value(emitter, value, test, branches.negated(is_negated))
        case t.Comparison() if not is_available:
            left, right = emitter.operand(node.left), emitter.operand(node.right)
            test, is_negated = comparison_test(node, left, right)
            operands = [(node.left, left), (node.right, right)]
            _branch_if_known(emitter, operands, test, branches, is_negated)
        case t.Membership() if node.texts is not None and not is_available:
            member, texts = emitter.operand(node.member), emitter.emit(node.texts)
            operands = [(node.member, member), (node.texts, texts)]
            _branch_if_known(emitter, operands, f"{member} in {texts}", branches)
        case t.Logic():
            _branch_on_logic(emitter, node, branches)
        case _:
            value = emitter.emit(node)
            _branch_on_value(emitter, value, value, branches)


def _branch_on_logic(emitter: CodeEmitter, node: t.Logic, branches: Branches) -> None:
    fact = single_fact(emitter, node)
    if fact is not None:
        value = emitter.emit(fact)
        test = known_fact_test(emitter, node, value)
        _branch_if_known(emitter, [(fact, value)], test, branches)
    elif _may_go_by_parts(emitter, node, branches):
        _branch_by_parts(emitter, node, branches)
    elif is_eager(emitter, node):
        is_true, is_false = true_test(emitter, node), false_test(emitter, node)
        _branch(emitter, f"if {is_true}:", branches.on_true, *known_where_true(emitter, node))
        _branch(emitter, f"elif {is_false}:", branches.on_false)
        _branch(emitter, "else:", branches.on_unknown)
    else:
        value = emitter.emit(node)
        _branch_on_value(emitter, value, value, branches)


# The branch taken most comes last where it can, as Python then need not jump past the others.


def _branch_on_value(emitter: CodeEmitter, value: str, test: str, branches: Branches) -> None:
    """Emit branches of a test that passes where a value is as it should be, and so known."""
    if not branches.on_true.is_short:
        _branch(emitter, f"if {test}:", branches.on_true, value)
        _branch(emitter, f"elif {value} is None:", branches.on_unknown)
        _branch(emitter, "else:", branches.on_false, value)
        return
    with emitter.code.block(f"if not {test}:"):
        _branch(emitter, f"if {value} is None:", branches.on_unknown)
        _branch(emitter, "else:", branches.on_false, value)
    _branch(emitter, "else:", branches.on_true, value)


def _branch_if_known(
    emitter: CodeEmitter,
    operands: Sequence[tuple[t.Node, str]],
    test: str,
    branches: Branches,
    is_negated: bool = False,
) -> None:
    """Emit branches of a test, or of its opposite, that holds of operands which may be unknown."""
    unknown = emitter.any_unknown(operands)
    if unknown:
        _branch(emitter, f"if {unknown}:", branches.on_unknown)
    word = "elif" if unknown else "if"
    names = [name for node, name in operands if not isinstance(node, t.Constant)]
    if is_negated or branches.on_true.is_short:
        test = test if is_negated else f"not ({test})"
        _branch(emitter, f"{word} {test}:", branches.on_false, *names)
        _branch(emitter, "else:", branches.on_true, *names)
    else:
        _branch(emitter, f"{word} {test}:", branches.on_true, *names)
        _branch(emitter, "else:", branches.on_false, *names)


def _may_go_by_parts(emitter: CodeEmitter, node: t.Logic, branches: Branches) -> bool:
    """Say whether parts are few and small, no deeper than Python reads, and branches short."""
    settled = branches.on_false if node.word == "and" else branches.on_true
    if not (settled.is_short and branches.on_unknown.is_short):
        return False
    if not 1 < len(node.parts) <= _MOST_PARTS or emitter.code.depth > _MOST_DEPTH:
        return False
    nodes = len(list(islice(t.walk(node, {}), _MOST_NODES + 1)))
    return nodes <= _MOST_NODES and is_eager(emitter, node)


def _branch_by_parts(emitter: CodeEmitter, node: t.Logic, branches: Branches) -> None:
    """Emit a branch for each part in turn.

    The parts behind one are emitted twice: for where it is known, and for where it is unknown.
    """
    is_and = node.word == "and"
    further_parts = _joined(node, node.parts[1:])

    def unless_rest_settles() -> None:
        test = false_test(emitter, further_parts) if is_and else true_test(emitter, further_parts)
        _branch(emitter, f"if {test}:", branches.on_false if is_and else branches.on_true)
        _branch(emitter, "else:", branches.on_unknown)

    further = Branch(lambda: emit_branches(emitter, further_parts, branches), is_short=False)
    on_unknown = Branch(unless_rest_settles, is_short=False)
    if is_and:
        outer = Branches(further, branches.on_false, on_unknown)
    else:
        outer = Branches(branches.on_true, further, on_unknown)
    emit_branches(emitter, node.parts[0], outer)


def _branch(emitter: CodeEmitter, head: str, branch: Branch, *known: str) -> None:
    """Emit a branch behind its head, where some values are known."""
    lines = emitter.code.lines
    start = len(lines)
    with emitter.code.block(head, *known):
        branch.emit()
    if head == "else:" and [line.lstrip() for line in lines[start + 1 :]] == ["pass"]:
        del lines[start:]


# -- values that branches compute -----------------------------------------------------------------


def emit_logic(emitter: CodeEmitter, node: t.Logic) -> str:
    """Emit the truth of conditions that are joined by ``and`` or ``or``."""
    if _is_settled(emitter, node):
        truth = true_test(emitter, node) if node.parts else str(node.word == "and")
        return emitter.code.assign(truth)
    if not is_eager(emitter, node):
        settled = tuple(takewhile(lambda part: _is_settled(emitter, part), node.parts))
        return _emit_behind(emitter, settled, node) if settled else _emit_lazily(emitter, node)
    fact = single_fact(emitter, node)
    if fact is not None:
        value = emitter.emit(fact)
        test = known_fact_test(emitter, node, value)
        return emitter.assign_if_known([(fact, value)], test)
    is_true, is_false = true_test(emitter, node), false_test(emitter, node)
    return emitter.code.assign(f"True if {is_true} else False if {is_false} else None")


def _is_settled(emitter: CodeEmitter, node: t.Node) -> bool:
    """Say whether a condition is never unknown, and may be computed even if it is not needed."""
    return is_certain(node) and (emitter.runtime.quantities_first or is_eager(emitter, node))


def _emit_behind(emitter: CodeEmitter, settled: tuple[t.Node, ...], node: t.Logic) -> str:
    """Emit a condition whose first parts are never unknown, and may settle it."""
    first, parts = t.Logic(node.kind, node.start, node.end, node.word, settled), node.parts
    code, result = emitter.code, emitter.code.new_name()
    is_and = node.word == "and"
    test = true_test(emitter, first) if is_and else false_test(emitter, first)
    with code.block(f"if {test}:", *known_where_true(emitter, first)):
        code.line(f"{result} = {emitter.emit(_joined(node, parts[len(settled) :]))}")
    code.line(f"else: {result} = {not is_and}")
    return result


def _emit_lazily(emitter: CodeEmitter, node: t.Logic) -> str:
    """Emit a condition whose further parts are computed only while none has settled it."""
    code = emitter.code
    settled = "{} is False" if node.word == "and" else "{}"
    result = code.assign(emitter.emit(node.parts[0]))
    for part in node.parts[1:]:
        with code.block(f"if not ({settled.format(result)}):"):
            value = emitter.emit(part)
            code.line(f"if {settled.format(value)} or {result} is not None: {result} = {value}")
    return result


def _joined(node: t.Logic, parts: tuple[t.Node, ...]) -> t.Node:
    """Return some parts of a condition, joined as they are in it."""
    if len(parts) == 1:
        return parts[0]
    return t.Logic(node.kind, node.start, node.end, node.word, parts)


def emit_choice(emitter: CodeEmitter, node: t.Choice) -> str:
    """Emit a value that a condition chooses; where it is unknown, both must agree."""
    # Both values are emitted again for an unknown condition, so they should be short.
    if not is_certain(node.condition) and not are_short(node.then, node.otherwise):
        return _emit_long_choice(emitter, node)
    code, result = emitter.code, emitter.code.new_name()

    def branch(value: t.Node) -> Branch:
        is_short = isinstance(value, t.Constant | t.Read)
        return Branch(lambda: code.line(f"{result} = {emitter.operand(value)}"), is_short)

    def agree() -> None:
        first, second = emitter.operand(node.then), emitter.operand(node.otherwise)
        code.line(f"{result} = agreed({first}, {second})")

    on_unknown = Branch(agree, is_short=False)
    branches = Branches(branch(node.then), branch(node.otherwise), on_unknown)
    emit_branches(emitter, node.condition, branches)
    return result


def _emit_long_choice(emitter: CodeEmitter, node: t.Choice) -> str:
    code, condition = emitter.code, emitter.emit(node.condition)
    result = code.new_name()
    with code.block(f"if {condition} is not False:"):
        code.line(f"{result} = {emitter.operand(node.then)}")
    with code.block(f"if not {condition}:"):
        other = emitter.operand(node.otherwise)
        agreed = f"agreed({result}, {other})"
        code.line(f"{result} = {other} if {condition} is False else {agreed}")
    return result
