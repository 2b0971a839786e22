"""Checking calls: functions, loops over lists, and the four words of the language itself."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from tundish.language.check.comparisons import not_a_choice
from tundish.language.operations.functions import FUNCTIONS, INTERPOLATE, LOOPS, SPECIAL
from tundish.language.syntax import syntax_tree as s
from tundish.language.tree import tree as t
from tundish.language.tree.kind import PLAIN_NUMBER, TRUTH, Kind, fits, with_words_of
from tundish.text.bounds import DEEPEST_LOOPS
from tundish.text.nearest import did_you_mean

if TYPE_CHECKING:
    from tundish.language.check.checker import Checker


HOW_TO_INTERPOLATE = (
    "'interpolate' takes where to read, an item's key and its value: "
    "interpolate(flow, point.flow, point.head for point in list)."
)


def check_call(checker: Checker, part: s.CallSyntax) -> t.Node | None:
    """Check a function with its arguments."""
    if part.function in SPECIAL:
        return _SPECIAL[part.function](checker, part)
    if part.function == "count" and len(part.arguments) == 1:
        return _count(checker, part)
    function = FUNCTIONS.get(part.function)
    if function is None:
        _unknown_function(checker, part)
        return None
    arguments = _values(checker, part.arguments)
    if arguments is None:
        return None
    try:
        kind = function.result(tuple(argument.kind for argument in arguments))
    except ValueError as error:
        checker.refuse(part, f"'{part.function}' {error}.")
        return None
    return t.Call(kind, part.start, part.end, function, arguments)


def check_loop(checker: Checker, part: s.LoopSyntax) -> t.Node | None:
    """Check a function over the items of a list."""
    if part.function == INTERPOLATE:
        checker.refuse(part, HOW_TO_INTERPOLATE)
        return None
    if part.function not in LOOPS:
        checker.refuse(part, f"'{part.function}' takes no loop; {', '.join(LOOPS)} do.")
        return None
    items = looped_over(checker, part)
    return None if items is None else _inside(checker, part, items)


def looped_over(checker: Checker, part: s.LoopSyntax | s.InterpolationSyntax) -> t.Read | None:
    """Check the list that is looked through and the name that its items get."""
    items = checker.any_node(part.items)
    if items is None:
        return None
    if not isinstance(items, t.Read) or items.kind.name != "items":
        checker.refuse(part.items, f"A loop runs over a list of the job, not over {items.kind}.")
        return None
    name = part.variable.name
    if name in checker.variables or checker.scope.is_taken(name):
        checker.refuse(part.variable, f"'{name}' already names something else here.")
        return None
    if checker.loops == DEEPEST_LOOPS:
        checker.refuse(part, f"Loops may be nested {DEEPEST_LOOPS} deep.")
        return None
    return items


def _inside(checker: Checker, part: s.LoopSyntax, items: t.Read) -> t.Node | None:
    name = part.variable.name
    checker.variables[name] = items.kind.record
    checker.loops += 1
    term = checker.node(part.term)
    test = checker.node(part.filter) if part.filter is not None else None
    checker.loops -= 1
    del checker.variables[name]
    if term is None or (part.filter is not None and test is None):
        return None
    if test is not None and test.kind.name != "truth" and part.filter is not None:
        checker.refuse(part.filter, f"After 'if' stands a condition, not {test.kind}.")
        return None
    try:
        kind = _loop_kind(part.function, term.kind)
    except ValueError as error:
        checker.refuse(part.term, str(error))
        return None
    return t.Loop(kind, part.start, part.end, part.function, term, name, items, test)


def _loop_kind(function: str, term: Kind) -> Kind:
    if function in ("all", "any", "count"):
        if term.name != "truth":
            raise ValueError(f"'{function}' looks at a condition for each item, not at {term}.")
        return PLAIN_NUMBER if function == "count" else TRUTH
    if term.name != "quantity":
        raise ValueError(f"'{function}' takes a quantity of each item, not {term}.")
    if function == "sum" and term.point:
        raise ValueError(f"'sum' cannot add {term} to another.")
    return term


def _known(checker: Checker, part: s.CallSyntax) -> t.Node | None:
    operand = _single(checker, part)
    if operand is None:
        return None
    if not isinstance(operand, t.Read | t.Derived):
        checker.refuse(part, "'known' takes the name of a fact or a quantity.")
        return None
    return t.Known(TRUTH, part.start, part.end, operand)


def _present(checker: Checker, part: s.CallSyntax) -> t.Node | None:
    operand = _single(checker, part)
    if operand is None:
        return None
    if not isinstance(operand, t.Read) or operand.kind.name != "record":
        sentence = "'present' takes the name of a group of facts, such as 'water.bypass'."
        checker.refuse(part, sentence)
        return None
    return t.Present(TRUTH, part.start, part.end, operand)


def _assume(checker: Checker, part: s.CallSyntax) -> t.Node | None:
    if len(part.arguments) != 2:
        checker.refuse(part, "'assume' takes a value and what stands in where it is unknown.")
        return None
    values = _values(checker, part.arguments)
    if values is None:
        return None
    first, second = values[0].kind, values[1].kind
    if not fits(first, second):
        checker.refuse(part, f"'assume' cannot put {second} in the place of {first}.")
        return None
    fallback = values[1]
    sentence = not_a_choice(fallback.value, first) if isinstance(fallback, t.Constant) else ""
    if sentence:
        checker.refuse(part.arguments[1], sentence)
        return None
    return t.Assumed(with_words_of(first, second), part.start, part.end, values[0], fallback)


def _lookup(checker: Checker, part: s.CallSyntax) -> t.Node | None:
    if not part.arguments or not isinstance(part.arguments[0], s.TextSyntax):
        checker.refuse(part, "'lookup' begins with the name of a table: lookup('table', key).")
        return None
    first = part.arguments[0]
    name, _, column = first.text.partition(".")
    table = checker.scope.tables.get(name)
    if table is None and checker.scope.was_refused(name):
        return None
    if table is None:
        hint = did_you_mean(name, list(checker.scope.tables))
        checker.refuse(first, f"No table is called '{name}'.{hint}")
        return None
    column = column or next(iter(table.columns))
    if column not in table.columns or ("." not in first.text and len(table.columns) > 1):
        columns = ", ".join(f"'{name}.{given}'" for given in table.columns)
        checker.refuse(first, f"Say which column to read: {columns}.")
        return None
    keys = _values(checker, part.arguments[1:])
    if keys is None:
        return None
    if len(keys) != len(table.keys):
        names = ", ".join(key.name for key in table.keys)
        checker.refuse(part, f"The table '{name}' is entered by {names}.")
        return None
    for key, given, written in zip(table.keys, keys, part.arguments[1:], strict=True):
        same = (given.kind.name, given.kind.dimension, given.kind.point)
        if same != (key.kind.name, key.kind.dimension, key.kind.point):
            checker.refuse(written, f"'{key.name}' takes {key.kind}, not {given.kind}.")
            return None
    found = table.columns[column]
    return t.Lookup(found.kind, part.start, part.end, name, column, keys, found.unit)


def _count(checker: Checker, part: s.CallSyntax) -> t.Node | None:
    items = checker.any_node(part.arguments[0])
    if items is None:
        return None
    if not isinstance(items, t.Read) or items.kind.name != "items":
        checker.refuse(part, f"'count' counts the items of a list, not {items.kind}.")
        return None
    return t.Count(PLAIN_NUMBER, part.start, part.end, items)


def _single(checker: Checker, part: s.CallSyntax) -> t.Node | None:
    if len(part.arguments) != 1:
        checker.refuse(part, f"'{part.function}' takes 1 name, not {len(part.arguments)}.")
        return None
    return checker.any_node(part.arguments[0])


def _values(checker: Checker, parts: tuple[s.Syntax, ...]) -> tuple[t.Node, ...] | None:
    checked = [checker.node(part) for part in parts]
    values = tuple(node for node in checked if node is not None)
    return values if len(values) == len(checked) else None


def _unknown_function(checker: Checker, part: s.CallSyntax) -> None:
    if part.function in LOOPS:
        checker.refuse(
            part, f"'{part.function}' runs over a list: {part.function}(... for item in list)."
        )
        return
    if part.function == INTERPOLATE:
        checker.refuse(part, HOW_TO_INTERPOLATE)
        return
    meant = _ELSEWHERE.get(part.function.lower(), "")
    hint = f" Write {meant}(...)." if meant else ""
    hint = hint or did_you_mean(part.function, [*FUNCTIONS, *LOOPS, *SPECIAL, INTERPOLATE])
    checker.refuse(part, f"No function is called '{part.function}'.{hint}")


_ELSEWHERE: dict[str, str] = {
    # how other languages call a function: how this one does
    **dict.fromkeys(("min", "minimum", "smallest", "lowest"), "least"),
    **dict.fromkeys(("max", "maximum", "largest", "highest"), "greatest"),
    **dict.fromkeys(("abs",), "absolute"),
    **dict.fromkeys(("sqrt", "root"), "square_root"),
    **dict.fromkeys(("exp",), "exponential"),
    **dict.fromkeys(("ln", "log"), "logarithm"),
    **dict.fromkeys(("total", "add"), "sum"),
    **dict.fromkeys(("len", "length", "number"), "count"),
    **dict.fromkeys(("every", "each"), "all"),
    **dict.fromkeys(("some",), "any"),
    **dict.fromkeys(("exists", "has"), "present"),
    **dict.fromkeys(("ceil", "ceiling", "roundup", "round_up"), "whole_above"),
    **dict.fromkeys(("vlookup", "table"), "lookup"),
    **dict.fromkeys(("default", "coalesce"), "assume"),
}

_SPECIAL: dict[str, Callable[[Checker, s.CallSyntax], t.Node | None]] = {
    "known": _known,
    "present": _present,
    "assume": _assume,
    "lookup": _lookup,
}
