"""Mutants: a condition or formula with one thing in it put wrong, as an author might put it wrong.

A case that notices none of them proves little: whatever survives shows a part of the expression
that could be otherwise without any case failing.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from tundish.groundwork.dataclass import dataclass
from tundish.language.operations.aggregates import AGGREGATES
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
    known_words: set[str] = set()
    for path, node in _walk(root, ()):
        for change, instead in _changes(node, written):
            where = written[node.start : node.end].strip()
            words = " ".join(f"{where}: {change}".split())
            if words not in known_words:
                known_words.add(words)
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
    (name, at), *further = path
    value: Any = getattr(root, name)
    if at is None:
        value = put_at(value, tuple(further), instead)
    else:
        put = put_at(value[at], tuple(further), instead)
        value = (*value[:at], put, *value[at + 1 :])
    field: dict[str, Any] = {name: value}
    return replace(root, **field)


_Changes = Iterator[tuple[str, t.Node]]


def _changes(node: t.Node, written: str) -> _Changes:
    yield from _changed_condition(node, written)
    yield from _changed_value(node)
    if node.kind.name == "truth" and not isinstance(node, t.Constant | t.Logic):
        for value in (True, False):
            word = str(value).lower()
            constant = t.Constant(TRUTH, node.start, node.end, value, word)
            yield f"always {word}", constant


def _changed_condition(node: t.Node, written: str) -> _Changes:
    match node:
        case t.Comparison(sign=sign):
            for other in RELATIONS[sign].others:
                yield f"{sign} becomes {other}", replace(node, sign=other)
        case t.Logic(word=word, parts=parts):
            other = CONNECTIVES[word].other
            yield f"{word} becomes {other}", replace(node, word=other)
            for at, part in enumerate(parts):
                others = (*parts[:at], *parts[at + 1 :])
                text = " ".join(written[part.start : part.end].split())
                joined = others[0] if len(others) == 1 else replace(node, parts=others)
                yield f"without '{text}'", joined
        case t.Not(operand=operand):
            yield "without not", operand
        case t.Membership(options=options):
            for option in options or ():
                left = tuple(word for word in options or () if word != option)
                yield f"without {option!r}", replace(node, options=left)


def _changed_value(node: t.Node) -> _Changes:
    match node:
        case t.Constant(value=float(value)) if node.kind.name == "quantity":
            step, size = _nudge(node, value)
            yield f"{size} more", replace(node, value=value + step)
            yield f"{size} less", replace(node, value=value - step)
        case t.Arithmetic():
            yield from _changed_arithmetic(node)
        case t.Within(because=str(because)) if because:
            # What the kind of a quantity says of its range is not for its own cases to prove.
            if node.least is not None:
                yield "without at_least", replace(node, least=None)
            if node.greatest is not None:
                yield "without at_most", replace(node, greatest=None)
        case t.Choice(then=then, otherwise=otherwise):
            yield "branches swapped", replace(node, then=otherwise, otherwise=then)
        case t.Loop(function=function):
            if other := AGGREGATES[function].other:
                yield f"{function} becomes {other}", replace(node, function=other)
            if node.filter is not None:
                yield "without its filter", replace(node, filter=None)
        case t.Call(arguments=arguments):
            if node.function.may_be_left_out and len(arguments) == 1:
                yield "without the function", arguments[0]
            elif node.function.may_be_left_out:
                for at, argument in enumerate(arguments, start=1):
                    yield f"argument {at} alone", argument


def _changed_arithmetic(node: t.Arithmetic) -> _Changes:
    other, is_sum = ARITHMETIC[node.sign].inverse, ARITHMETIC[node.sign].is_sum
    both_points = node.left.kind.point and node.right.kind.point
    if other and (not both_points if is_sum else node.right.kind.dimension.is_number):
        yield f"{node.sign} becomes {other}", replace(node, sign=other)
    for side, word in ((node.left, "left"), (node.right, "right")):
        if is_sum and side.kind == node.kind:
            yield f"the {word} side alone", side


def _nudge(node: t.Constant, value: float) -> tuple[float, str]:
    """Return by how much a number is changed, and how to say so."""
    if node.kind.dimension.is_number and value.is_integer() and "%" not in node.shown:
        return 1.0, "1"  # a count changes by ones
    zero = float(node.unit.zero) if node.unit and node.kind.point else 0.0
    # A share of zero, such as of 0 degC, would change nothing.
    size = abs(value - zero) or (float(node.unit.factor) if node.unit else 1.0)
    return size * NUDGE, "2 %"


def is_same(value: object, other: object) -> bool:
    """Say whether two results are one, as an author would see it."""
    if isinstance(value, float) and isinstance(other, float):
        return math.isclose(value, other, rel_tol=1e-9, abs_tol=1e-12)
    return value == other
