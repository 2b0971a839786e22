"""Loops through the items of a list."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from tundish.language.budget.cost import round_cost
from tundish.language.codegen.branches import Branch, Branches, emit_branches
from tundish.language.codegen.emitter import CodeEmitter
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.tree import tree as t


def emit_loop(emitter: CodeEmitter, node: t.Loop) -> str:
    """Emit what a function makes of the items of a list."""
    code, items = emitter.code, emitter.emit(node.items)
    result = code.assign("None")
    item = code.new_name()
    with _if_known(emitter, items):
        emitter.runtime.charge(emitter, node.items, round_cost(node))
        _read_before(emitter, node.variable, node.filter, node.term)
        if AGGREGATES[node.function].start != "None":
            code.line(f"{result} = {AGGREGATES[node.function].start}")
        with _each_item(emitter, node, items, item) as test:
            if AGGREGATES[node.function].of_truths:
                _emit_truth_round(emitter, node, result, test)
            else:
                _emit_number_round(emitter, node, result, test)
        _emit_open_end(emitter, node, result, items)
    return result


def emit_interpolation(emitter: CodeEmitter, node: t.Interpolation) -> str:
    """Emit the reading of a value between the items of a list."""
    code, items = emitter.code, emitter.emit(node.items)
    places = "".join(f"{emitter.emit(place)}, " for place in node.at)
    rows, item = code.assign("None"), code.new_name()
    # What stands between two items changes with each one that is added between them.
    with (
        _if_known(emitter, items),
        emitter.code.block(f"if {items}.__class__ is not open_list:"),
    ):
        emitter.runtime.charge(emitter, node.items, round_cost(node))
        _read_before(emitter, node.variable, node.filter, *node.keys, node.value)
        code.line(f"{rows} = {{}}")
        with _each_item(emitter, node, items, item) as test:
            keys, value = [emitter.emit(key) for key in node.keys], emitter.emit(node.value)
            place = keys[0] if len(keys) == 1 else f"({', '.join(keys)})"
            unknown = [f"{cell} is None" for cell in (test, *keys, value) if cell]
            # Where two items have the same keys, it is not known which is meant.
            code.line(f"if {' or '.join(unknown)} or {place} in {rows}: {rows} = None; break")
            code.line(f"{rows}[{place}] = {value}")
    return code.assign(f"interpolated({rows}, ({places}))")


@contextmanager
def _if_known(emitter: CodeEmitter, items: str) -> Iterator[None]:
    """Emit, inside a `with`, what is done where a list is known."""
    if emitter.code.is_known(items):
        yield
    else:
        with emitter.code.block(f"if {items} is not None:", items):
            yield


@contextmanager
def _each_item(
    emitter: CodeEmitter, node: t.Loop | t.Interpolation, items: str, item: str
) -> Iterator[str]:
    """Emit, inside a `with`, what is done with each item that the filter does not leave out.

    Yields:
        The name of whether the item counts, which is true or unknown; "" without a filter.
    """
    with (
        emitter.code.block(f"for {item} in {items}:"),
        emitter.bound(node.variable, item, node.items.kind.record),
    ):
        test = ""
        if node.filter is not None:
            test = emitter.emit(node.filter)
            emitter.code.line(f"if {test} is False: continue")
        yield test


def _read_before(emitter: CodeEmitter, variable: str, *parts: t.Node | None) -> None:
    """Read, once and before a loop, the facts in it that are not those of its items."""
    for part in parts:
        for node, bound in t.walk(part, {}) if part else ():
            if isinstance(node, t.Read) and node.item not in (variable, *bound):
                emitter.emit(node)


def _emit_number_round(emitter: CodeEmitter, node: t.Loop, result: str, test: str) -> None:
    """Emit how one item changes a function of quantities."""
    code, term = emitter.code, emitter.emit(node.term)
    unknown = " or ".join(f"{value} is None" for value in (test, term) if value)
    code.line(f"if {unknown}: {result} = None; break")
    for line in AGGREGATES[node.function].code:
        code.line(line.format(result=result, term=term))


def _emit_open_end(emitter: CodeEmitter, node: t.Loop, result: str, items: str) -> None:
    """Emit what makes unknown whatever another item might change, where there may be more."""
    settles = AGGREGATES[node.function].settles
    test = f"{items}.__class__ is open_list"
    test += "" if settles is None else f" and {result} is not {settles}"
    emitter.code.line(f"if {test}: {result} = None")


def _emit_truth_round(emitter: CodeEmitter, node: t.Loop, result: str, test: str) -> None:
    """Emit how one item changes a function of conditions."""
    code, aggregate = emitter.code, AGGREGATES[node.function]

    def unknown() -> None:
        # One unknown item settles nothing: a later one still may.
        go_on = aggregate.settles is not None
        code.line(f"{result} = None" if go_on else f"{result} = None; break")

    def counts() -> None:
        if test:
            with code.block(f"if {test} is None:"):
                unknown()
                code.line("continue")
        for line in aggregate.code:
            code.line(line.format(result=result))

    branches = Branches(Branch(counts), Branch(lambda: code.line("pass")), Branch(unknown))
    emit_branches(emitter, node.term, branches.negated(aggregate.neutral is True))
