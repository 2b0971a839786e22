"""Mutants: a condition or formula with one thing in it put wrong, as an author might put it wrong.

A case that notices none of them proves little: whatever survives shows a part of the expression
that could be otherwise without any case failing.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.operators import ARITHMETIC, CONNECTIVES, RELATIONS
from tundish.language.tree import tree as t
from tundish.language.tree.kind import TRUTH

NUDGE = 0.02
"""Share by which each number is nudged either way; whole numbers go by ones."""


@dataclass(frozen=True, slots=True)
class Mutant:
    """An expression with one thing put wrong.

    Attributes:
        change: What was put wrong, in words that stay the same while the expression does.
        root: The checked tree of it.
        start: Index in the expression of the first character concerned.
        end: Index after the last.
    """

    change: str
    root: t.Node
    start: int
    end: int


def mutants(root: t.Node, written: str) -> Iterator[Mutant]:
    """Give every mutant of an expression.

    Args:
        root: Its checked tree.
        written: Its text, to name what was changed.
    """
    seen: set[str] = set()
    for path, node in _walk(root, ()):
        for change, instead in _changes(node, written):
            where = written[node.start : node.end].strip()
            words = " ".join(f"{where}: {change}".split())
            if words not in seen:
                seen.add(words)
                yield Mutant(words, put_at(root, path, instead), node.start, node.end)


Path = tuple[tuple[str, int | None], ...]
"""The way to a part of a tree: names of fields, with positions where they hold several."""


def _walk(node: t.Node, path: Path) -> Iterator[tuple[Path, t.Node]]:
    yield path, node
    for field in dataclasses.fields(node):
        value = getattr(node, field.name)
        if isinstance(value, t.Node):
            yield from _walk(value, (*path, (field.name, None)))
        elif isinstance(value, tuple):
            for at, part in enumerate(value):
                if isinstance(part, t.Node):
                    yield from _walk(part, (*path, (field.name, at)))


def truths_in(root: t.Node) -> Iterator[tuple[Path, t.Node]]:
    """Give the conditions that a condition is made of, each with the way to it."""
    for path, node in _walk(root, ()):
        joins = isinstance(node, t.Constant | t.Logic | t.Not | t.Choice)
        if node.kind.name == "truth" and not joins:
            yield path, node


def put_at(root: t.Node, path: Path, instead: t.Node) -> t.Node:
    """Return a tree with another part in the place of one.

    Args:
        root: The tree.
        path: The way to the part: names of fields, with positions where they hold several.
        instead: What stands there from now on.
    """
    if not path:
        return instead
    (name, at), *rest = path
    value: Any = getattr(root, name)
    if at is None:
        value = put_at(value, tuple(rest), instead)
    else:
        put = put_at(value[at], tuple(rest), instead)
        value = (*value[:at], put, *value[at + 1 :])
    field: dict[str, Any] = {name: value}
    return replace(root, **field)


_Changes = Iterator[tuple[str, t.Node]]


def _changes(node: t.Node, written: str) -> _Changes:
    for kind, change in _CHANGES.items():
        if isinstance(node, kind):
            yield from change(node, written)
    if node.kind.name == "truth" and not isinstance(node, t.Constant | t.Logic):
        for value in (True, False):
            word = str(value).lower()
            constant = t.Constant(TRUTH, node.start, node.end, value, word)
            yield f"always {word}", constant


def _comparison(node: t.Node, _: str) -> _Changes:
    assert isinstance(node, t.Comparison)
    for sign in RELATIONS[node.sign].others:
        yield f"{node.sign} becomes {sign}", replace(node, sign=sign)


def _constant(node: t.Node, _: str) -> _Changes:
    assert isinstance(node, t.Constant)
    if not isinstance(node.value, float) or node.kind.name != "quantity":
        return
    for sign, word in ((1, "more"), (-1, "less")):
        step, told = _nudge(node)
        yield f"{told} {word}", replace(node, value=node.value + sign * step)


def _nudge(node: t.Constant) -> tuple[float, str]:
    """Return by how much a number is nudged, and how that is told."""
    assert isinstance(node.value, float)
    if node.kind.dimension.is_number and node.value.is_integer() and "%" not in node.shown:
        return 1.0, "1"  # what counts things goes by ones
    zero = float(node.unit.zero) if node.unit and node.kind.point else 0.0
    size = abs(node.value - zero)
    # What is zero, such as 0 degC, has no share to be nudged by.
    return (size or _unit_size(node)) * NUDGE, "2 %"


def _unit_size(node: t.Constant) -> float:
    return float(node.unit.factor) if node.unit else 1.0


def _logic(node: t.Node, written: str) -> _Changes:
    assert isinstance(node, t.Logic)
    other = CONNECTIVES[node.word].other
    yield f"{node.word} becomes {other}", replace(node, word=other)
    for at, part in enumerate(node.parts):
        left = tuple(one for number, one in enumerate(node.parts) if number != at)
        text = " ".join(written[part.start : part.end].split())
        yield f"without '{text}'", left[0] if len(left) == 1 else replace(node, parts=left)


def _not(node: t.Node, _: str) -> _Changes:
    assert isinstance(node, t.Not)
    yield "without not", node.operand


def _membership(node: t.Node, _: str) -> _Changes:
    assert isinstance(node, t.Membership)
    for option in node.options or ():
        left = tuple(one for one in node.options or () if one != option)
        yield f"without {option!r}", replace(node, options=left)


def _arithmetic(node: t.Node, _: str) -> _Changes:
    assert isinstance(node, t.Arithmetic)
    operator = ARITHMETIC[node.sign]
    inverted = f"{node.sign} becomes {operator.inverse}", replace(node, sign=operator.inverse)
    if operator.is_sum:
        if not (node.left.kind.point and node.right.kind.point):
            yield inverted
        for side, word in ((node.left, "left"), (node.right, "right")):
            if side.kind == node.kind:
                yield f"the {word} side alone", side
    elif operator.inverse and node.right.kind.dimension.is_number:
        yield inverted


def _choice(node: t.Node, _: str) -> _Changes:
    assert isinstance(node, t.Choice)
    yield "branches swapped", replace(node, then=node.otherwise, otherwise=node.then)


def _loop(node: t.Node, _: str) -> _Changes:
    assert isinstance(node, t.Loop)
    for one, other in (("all", "any"), ("least", "greatest")):
        for now, then in ((one, other), (other, one)):
            if node.function == now:
                yield f"{now} becomes {then}", replace(node, function=then)
    if node.filter is not None:
        yield "without its filter", replace(node, filter=None)


def _call(node: t.Node, _: str) -> _Changes:
    assert isinstance(node, t.Call)
    if node.function.may_be_left_out:
        for at, argument in enumerate(node.arguments, start=1):
            several = len(node.arguments) > 1
            yield f"argument {at} alone" if several else "without the function", argument


_CHANGES: dict[type[t.Node], Callable[[t.Node, str], _Changes]] = {
    t.Comparison: _comparison,
    t.Constant: _constant,
    t.Logic: _logic,
    t.Not: _not,
    t.Membership: _membership,
    t.Arithmetic: _arithmetic,
    t.Choice: _choice,
    t.Loop: _loop,
    t.Call: _call,
}


def is_same(one: object, other: object) -> bool:
    """Say whether two results are one, as an author would see it."""
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-12)
    return one == other
