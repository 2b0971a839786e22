"""Values of parts without branches: arithmetic, comparisons, calls, ``in`` and ``not``."""

from __future__ import annotations

from collections.abc import Callable

from tundish.language.operations import values as v
from tundish.language.operations.operators import RELATIONS, operation_of
from tundish.language.tree import tree as t


def strict_value(node: t.Node, values: list[t.Value | None]) -> t.Value | None:
    """Return the value of a part from those of its own parts, all of which count the same."""
    return _PLAIN[type(node)](node, values)


def _membership(node: t.Node, values: list[t.Value | None]) -> t.Value | None:
    assert isinstance(node, t.Membership)
    options = values[1] if node.texts is not None else node.options
    assert options is None or isinstance(options, tuple)
    return v.member(values[0], options)


def _numbers(values: list[t.Value | None]) -> list[float | None]:
    return [value if isinstance(value, float) else None for value in values]


def _operation(node: t.Node, values: list[t.Value | None]) -> t.Value | None:
    assert isinstance(node, t.Arithmetic | t.Call)
    return v.apply(operation_of(node).calculate, *_numbers(values))


def _comparison(node: t.Node, values: list[t.Value | None]) -> t.Value | None:
    assert isinstance(node, t.Comparison)
    return RELATIONS[node.sign].truth(*values)


def _opposite(_: t.Node, values: list[t.Value | None]) -> t.Value | None:
    assert values[0] is None or isinstance(values[0], bool)
    return v.opposite(values[0])


def _negation(_: t.Node, values: list[t.Value | None]) -> t.Value | None:
    number = _numbers(values)[0]
    return None if number is None else -number


_PLAIN: dict[type[t.Node], Callable[[t.Node, list[t.Value | None]], t.Value | None]] = {
    t.Negation: _negation,
    t.Arithmetic: _operation,
    t.Comparison: _comparison,
    t.Membership: _membership,
    t.Not: _opposite,
    t.Present: lambda _, values: values[0],
    t.Call: _operation,
}


def why_lost(node: t.Node, values: list[t.Value | None]) -> str:
    """Say why a step whose parts are all known has no value."""
    operation = operation_of(node) if isinstance(node, t.Arithmetic | t.Call) else None
    if operation is not None and operation.is_division and values[-1] == 0:
        return "something is divided by zero"
    if isinstance(node, t.Call):
        return f"'{node.function.name}' does not hold for these values"
    return "the result is no finite number"
