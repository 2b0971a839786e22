"""Checking loops over lists: functions over their items, and reading between these."""

from __future__ import annotations

from tundish.language.check.context import Context
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.functions import INTERPOLATE
from tundish.language.syntax import syntax_tree as s
from tundish.language.tree import tree as t
from tundish.language.tree.kind import fits
from tundish.text.bounds import DEEPEST_LOOPS

HOW_TO_INTERPOLATE = (
    "'interpolate' takes where to read, an item's key and its value: "
    "interpolate(flow, point.flow, point.head for point in list)."
)


def check_loop(context: Context, part: s.LoopSyntax) -> t.Node | None:
    """Check a function over the items of a list."""
    if part.function == INTERPOLATE:
        context.refuse(part, HOW_TO_INTERPOLATE)
        return None
    aggregate = AGGREGATES.get(part.function)
    if aggregate is None:
        context.refuse(part, f"'{part.function}' takes no loop; {', '.join(AGGREGATES)} do.")
        return None
    items = _list(context, part)
    if items is None:
        return None
    name = part.variable.name
    with context.inside_loop(name, items):
        term = context.node(part.term)
        test = context.node(part.filter) if part.filter is not None else None
    if term is None or (part.filter is not None and test is None):
        return None
    if test is not None and test.kind.name != "truth" and part.filter is not None:
        context.refuse(part.filter, f"After 'if' stands a condition, not {test.kind}.")
        return None
    try:
        kind = aggregate.result(term.kind)
    except ValueError as error:
        context.refuse(part.term, str(error))
        return None
    return t.Loop(kind, part.start, part.end, part.function, term, name, items, test)


def check_interpolation(context: Context, part: s.InterpolationSyntax) -> t.Node | None:
    """Check where is read between the items of a list, and the keys and value of each item."""
    if part.function != INTERPOLATE:
        context.refuse(part, f"'{part.function}' takes one value of each item, not several.")
        return None
    if len(part.arguments) % 2 == 0:
        context.refuse(part, HOW_TO_INTERPOLATE)
        return None
    items = _list(context, part)
    if items is None:
        return None
    places = part.arguments[:-1:2]
    # Where to read is the same for every item, so the item's name has no meaning there.
    at = [context.quantity(place) for place in places]
    name = part.variable.name
    with context.inside_loop(name, items):
        keys = [context.quantity(key) for key in part.arguments[1::2]]
        value = context.quantity(part.arguments[-1])
        test = context.truth(part.filter) if part.filter is not None else None
    if value is None or None in at or None in keys or (part.filter is not None and test is None):
        return None
    pairs = [(place, key) for place, key in zip(at, keys, strict=True) if place and key]
    for written, (place, key) in zip(places, pairs, strict=True):
        if not fits(place.kind, key.kind):
            context.refuse(written, f"The item's key is {key.kind}, and this is {place.kind}.")
            return None
    return t.Interpolation(
        value.kind,
        part.start,
        part.end,
        tuple(place for place, _ in pairs),
        tuple(key for _, key in pairs),
        value,
        name,
        items,
        test,
    )


def _list(context: Context, part: s.LoopSyntax | s.InterpolationSyntax) -> t.Read | None:
    """Check the list that a loop runs over, and the name that its items get."""
    items = context.any_node(part.items)
    if items is None:
        return None
    if not isinstance(items, t.Read) or items.kind.name != "items":
        context.refuse(part.items, f"A loop runs over a list of the job, not over {items.kind}.")
        return None
    name = part.variable.name
    if name in context.variables or context.scope.is_taken(name):
        context.refuse(part.variable, f"'{name}' already names something else here.")
        return None
    if context.loops == DEEPEST_LOOPS:
        context.refuse(part, f"Loops may be nested {DEEPEST_LOOPS} deep.")
        return None
    return items
