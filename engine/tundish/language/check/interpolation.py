"""Checking a reading between the items of a list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tundish.language.check.calls import HOW_TO_INTERPOLATE, looped_over
from tundish.language.operations.functions import INTERPOLATE
from tundish.language.syntax import syntax_tree as s
from tundish.language.tree import tree as t
from tundish.language.tree.kind import fits

if TYPE_CHECKING:
    from tundish.language.check.checker import Checker


def check_interpolation(checker: Checker, part: s.InterpolationSyntax) -> t.Node | None:
    """Check where is read, and the keys and value of each item."""
    if part.function != INTERPOLATE:
        checker.refuse(part, f"'{part.function}' takes one value of each item, not several.")
        return None
    if len(part.arguments) % 2 == 0:
        checker.refuse(part, HOW_TO_INTERPOLATE)
        return None
    items = looped_over(checker, part)
    if items is None:
        return None
    places = part.arguments[:-1:2]
    # Where to read is the same for every item, so the item's name has no meaning there.
    at = [checker.quantity(place) for place in places]
    name = part.variable.name
    checker.variables[name] = items.kind.record
    checker.loops += 1
    keys = [checker.quantity(key) for key in part.arguments[1::2]]
    value = checker.quantity(part.arguments[-1])
    test = checker.truth(part.filter) if part.filter is not None else None
    checker.loops -= 1
    del checker.variables[name]
    if value is None or None in at or None in keys or (part.filter is not None and test is None):
        return None
    pairs = [(one, key) for one, key in zip(at, keys, strict=True) if one and key]
    for written, (one, key) in zip(places, pairs, strict=True):
        if not fits(one.kind, key.kind):
            checker.refuse(written, f"The item's key is {key.kind}, and this is {one.kind}.")
            return None
    return t.Interpolation(
        value.kind,
        part.start,
        part.end,
        tuple(one for one, _ in pairs),
        tuple(key for _, key in pairs),
        value,
        name,
        items,
        test,
    )
