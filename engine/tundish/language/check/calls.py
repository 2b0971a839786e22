"""Checking calls: functions, and the four words of the language itself."""

from __future__ import annotations

from collections.abc import Callable

from tundish.language.check.comparisons import not_a_choice
from tundish.language.check.context import Context
from tundish.language.check.loops import HOW_TO_INTERPOLATE
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.functions import FUNCTIONS, INTERPOLATE, SPECIAL
from tundish.language.syntax import syntax_tree as s
from tundish.language.tree import tree as t
from tundish.language.tree.kind import PLAIN_NUMBER, TRUTH, fits, with_words_of
from tundish.text.nearest import did_you_mean


def check_call(context: Context, part: s.CallSyntax) -> t.Node | None:
    """Check a function with its arguments."""
    if part.function in SPECIAL:
        return _SPECIAL[part.function](context, part)
    if part.function == "count" and len(part.arguments) == 1:
        return _count(context, part)
    function = FUNCTIONS.get(part.function)
    if function is None:
        _unknown_function(context, part)
        return None
    arguments = context.nodes(part.arguments)
    if arguments is None:
        return None
    try:
        kind = function.result(arguments)
    except ValueError as error:
        context.refuse(part, f"'{part.function}' {error}.")
        return None
    return t.Call(kind, part.start, part.end, function, arguments)


def _known(context: Context, part: s.CallSyntax) -> t.Node | None:
    operand = _single(context, part)
    if operand is None:
        return None
    if not isinstance(operand, t.Read | t.Derived):
        context.refuse(part, "'known' takes the name of a fact or a quantity.")
        return None
    return t.Known(TRUTH, part.start, part.end, operand)


def _present(context: Context, part: s.CallSyntax) -> t.Node | None:
    operand = _single(context, part)
    if operand is None:
        return None
    if not isinstance(operand, t.Read) or operand.kind.name != "record":
        sentence = "'present' takes the name of a group of facts, such as 'water.bypass'."
        context.refuse(part, sentence)
        return None
    return t.Present(TRUTH, part.start, part.end, operand)


def _assume(context: Context, part: s.CallSyntax) -> t.Node | None:
    if len(part.arguments) != 2:
        context.refuse(part, "'assume' takes a value and what stands in where it is unknown.")
        return None
    values = context.nodes(part.arguments)
    if values is None:
        return None
    first, second = values[0].kind, values[1].kind
    if not fits(first, second):
        context.refuse(part, f"'assume' cannot put {second} in the place of {first}.")
        return None
    fallback = values[1]
    sentence = not_a_choice(fallback.value, first) if isinstance(fallback, t.Constant) else ""
    if sentence:
        context.refuse(part.arguments[1], sentence)
        return None
    return t.Assumed(with_words_of(first, second), part.start, part.end, values[0], fallback)


def _lookup(context: Context, part: s.CallSyntax) -> t.Node | None:
    if not part.arguments or not isinstance(part.arguments[0], s.TextSyntax):
        context.refuse(part, "'lookup' begins with the name of a table: lookup('table', key).")
        return None
    first = part.arguments[0]
    name, _, column = first.text.partition(".")
    table = context.scope.tables.get(name)
    if table is None and context.scope.was_refused(name):
        return None
    if table is None:
        hint = did_you_mean(name, list(context.scope.tables))
        context.refuse(first, f"No table is called '{name}'.{hint}")
        return None
    column = column or next(iter(table.columns))
    if column not in table.columns or ("." not in first.text and len(table.columns) > 1):
        columns = ", ".join(f"'{name}.{other}'" for other in table.columns)
        context.refuse(first, f"Say which column to read: {columns}.")
        return None
    keys = context.nodes(part.arguments[1:])
    if keys is None:
        return None
    if len(keys) != len(table.keys):
        names = ", ".join(key.name for key in table.keys)
        context.refuse(part, f"The table '{name}' is entered by {names}.")
        return None
    for key, node, written in zip(table.keys, keys, part.arguments[1:], strict=True):
        if not fits(node.kind, key.kind):
            context.refuse(written, f"'{key.name}' takes {key.kind}, not {node.kind}.")
            return None
    read = table.columns[column]
    return t.Lookup(read.kind, part.start, part.end, name, column, keys, read.unit)


def _count(context: Context, part: s.CallSyntax) -> t.Node | None:
    items = context.any_node(part.arguments[0])
    if items is None:
        return None
    if not isinstance(items, t.Read) or items.kind.name != "items":
        context.refuse(part, f"'count' counts the items of a list, not {items.kind}.")
        return None
    return t.Count(PLAIN_NUMBER, part.start, part.end, items)


def _single(context: Context, part: s.CallSyntax) -> t.Node | None:
    if len(part.arguments) != 1:
        context.refuse(part, f"'{part.function}' takes 1 name, not {len(part.arguments)}.")
        return None
    return context.any_node(part.arguments[0])


def _unknown_function(context: Context, part: s.CallSyntax) -> None:
    if part.function in AGGREGATES:
        context.refuse(
            part, f"'{part.function}' runs over a list: {part.function}(... for item in list)."
        )
        return
    if part.function == INTERPOLATE:
        context.refuse(part, HOW_TO_INTERPOLATE)
        return
    meant = _ELSEWHERE.get(part.function.lower(), "")
    hint = f" Write {meant}(...)." if meant else ""
    hint = hint or did_you_mean(part.function, [*FUNCTIONS, *AGGREGATES, *SPECIAL, INTERPOLATE])
    context.refuse(part, f"No function is called '{part.function}'.{hint}")


_ELSEWHERE: dict[str, str] = {
    **{word: name for name, function in FUNCTIONS.items() for word in function.elsewhere},
    **{word: name for name, aggregate in AGGREGATES.items() for word in aggregate.elsewhere},
    **dict.fromkeys(("exists", "has"), "present"),
    **dict.fromkeys(("vlookup", "table"), "lookup"),
    **dict.fromkeys(("default", "coalesce"), "assume"),
}
"""What other languages call a function, with what this one calls it."""

_SPECIAL: dict[str, Callable[[Context, s.CallSyntax], t.Node | None]] = {
    "known": _known,
    "present": _present,
    "assume": _assume,
    "lookup": _lookup,
}
