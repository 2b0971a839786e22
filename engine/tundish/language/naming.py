"""Checking names: facts of the job, of an item of a list, quantities, named numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tundish.language import syntax as s
from tundish.language import tree as t
from tundish.language.functions import CONSTANTS
from tundish.language.kind import PLAIN_NUMBER
from tundish.language.scope import Meaning
from tundish.measure.unit import read_unit
from tundish.reading.nearest import did_you_mean

if TYPE_CHECKING:
    from tundish.language.checker import Checker

_ONE = read_unit("1")


def check_name(checker: Checker, part: s.NameSyntax) -> t.Node | None:
    """Find out what a name stands for."""
    first, _, rest = part.name.partition(".")
    if first in checker.variables:
        return _name_of_item(checker, part, first, rest)
    quantity = checker.scope.quantities.get(("", part.name))
    if quantity is not None:
        return _derived(part, part.name, quantity, None)
    if part.name in CONSTANTS:
        value = CONSTANTS[part.name]
        return t.Constant(PLAIN_NUMBER, part.start, part.end, value, part.name, _ONE)
    fact = checker.scope.facts.get(part.name)
    if fact is None or _is_inside_items(checker, part.name):
        _refuse_unknown(checker, part)
        return None
    return _read(part, part.name, fact, None)


def _name_of_item(checker: Checker, part: s.NameSyntax, variable: str, rest: str) -> t.Node | None:
    path = checker.variables[variable]
    if not rest:
        checker.refuse(part, f"'{variable}' is an item, which has no value: name one of its facts.")
        return None
    quantity = checker.scope.quantities.get((path, rest))
    if quantity is not None:
        return _derived(part, rest, quantity, variable)
    fact = checker.scope.facts.get(f"{path}.{rest}")
    if fact is None or _is_inside_items(checker, rest, path + "."):
        _refuse_unknown(checker, part, variable, rest)
        return None
    return _read(part, rest, fact, variable)


def _read(part: s.Syntax, path: str, fact: Meaning, item: str | None) -> t.Read:
    return t.Read(fact.kind, part.start, part.end, path, fact.label, item, fact.unit)


def _derived(part: s.Syntax, name: str, quantity: Meaning, item: str | None) -> t.Derived:
    return t.Derived(quantity.kind, part.start, part.end, name, quantity.label, quantity.unit, item)


def _is_inside_items(checker: Checker, path: str, prefix: str = "") -> bool:
    """Say whether a path runs through a list without choosing one of its items."""
    steps = path.split(".")
    return any(
        (meaning := checker.scope.facts.get(prefix + ".".join(steps[:length]))) is not None
        and meaning.kind.name == "items"
        for length in range(1, len(steps))
    )


def _refuse_unknown(
    checker: Checker, part: s.NameSyntax, variable: str = "", rest: str = ""
) -> None:
    path, prefix = part.name, ""
    if variable:
        path, prefix = rest, checker.variables[variable] + "."
    if _is_inside_items(checker, path, prefix):
        sentence = f"'{part.name}' is a fact of every item of a list: use a loop over the list."
        checker.refuse(part, sentence)
        return
    hint = did_you_mean(part.name, list(checker.scope.names(checker.variables)))
    checker.refuse(part, f"Nothing is called '{part.name}'.{hint}")
