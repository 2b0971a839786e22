"""Checking names: facts of the job, of an item of a list, quantities, named numbers."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.language.check.context import Context
from tundish.language.check.scope import Meaning
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.functions import CONSTANTS, FUNCTIONS, INTERPOLATE, SPECIAL
from tundish.language.syntax import syntax_tree as s
from tundish.language.tree import tree as t
from tundish.language.tree.kind import PLAIN_NUMBER
from tundish.text.nearest import did_you_mean
from tundish.units.unit import read_unit

_ONE = read_unit("1")

OF_NO_LIST = ""
"""In place of a list's path, where the list of an item was refused, and nothing more is told."""


def check_name(context: Context, part: s.NameSyntax) -> t.Node | None:
    """Find out what a name stands for."""
    first, _, rest = part.name.partition(".")
    if first in context.variables:
        return _name_of_item(context, part, first, rest)
    quantity = context.scope.quantities.get(("", part.name))
    if quantity is not None:
        return _derived(part, part.name, quantity, None)
    if part.name in CONSTANTS:
        value = CONSTANTS[part.name]
        return t.Constant(PLAIN_NUMBER, part.start, part.end, value, part.name, _ONE)
    fact = context.scope.facts.get(part.name)
    if fact is None or _is_inside_items(context, part.name):
        _refuse_unknown(context, part)
        return None
    return _read(part, part.name, fact, None)


def is_bare_word(context: Context, part: s.Syntax) -> bool:
    """Say whether a part is a single word that names nothing, as a text without its quotes is."""
    return (
        isinstance(part, s.NameSyntax)
        and "." not in part.name
        and part.name not in context.variables
        and part.name not in CONSTANTS
        and part.name not in context.scope.facts
        and ("", part.name) not in context.scope.quantities
        and not context.scope.was_refused(part.name)
    )


def refuse_bare_word(
    context: Context, part: s.NameSyntax, asked: s.Syntax, choices: Sequence[str]
) -> None:
    """Refuse a single word that names nothing, beside what can only be one of some words.

    Args:
        context: The check of the expression.
        part: The word.
        asked: What it is held against.
        choices: The words that can be; none where any text can.
    """
    if not choices:
        sentence = f"Nothing is called '{part.name}'.{_hint(context, part.name)}"
        context.refuse(part, f"{sentence} A text stands in quotes: '{part.name}'.")
        return
    fact = asked.name if isinstance(asked, s.NameSyntax) else "what it is held against"
    listed = ", ".join(f"'{choice}'" for choice in choices)
    if part.name in choices:
        sentence = f"'{part.name}' is one of the choices of {fact}: write '{part.name}' in quotes."
        context.refuse(part, f"{sentence} The choices are {listed}.")
        return
    hint = did_you_mean(part.name, choices)
    sentence = f"Nothing is called '{part.name}'. {fact} can be: {listed}, in quotes."
    context.refuse(part, sentence + hint)


def _name_of_item(context: Context, part: s.NameSyntax, variable: str, rest: str) -> t.Node | None:
    path = context.variables[variable]
    if path == OF_NO_LIST:
        return None
    if not rest:
        context.refuse(part, f"'{variable}' is an item, which has no value: name one of its facts.")
        return None
    quantity = context.scope.quantities.get((path, rest))
    if quantity is not None:
        return _derived(part, rest, quantity, variable)
    fact = context.scope.facts.get(f"{path}.{rest}")
    if fact is None or _is_inside_items(context, rest, path + "."):
        _refuse_unknown(context, part, variable, rest)
        return None
    return _read(part, rest, fact, variable)


def _read(part: s.Syntax, path: str, fact: Meaning, item: str | None) -> t.Read:
    return t.Read(fact.kind, part.start, part.end, path, fact.label, item, fact.unit)


def _derived(part: s.Syntax, name: str, quantity: Meaning, item: str | None) -> t.Derived:
    return t.Derived(quantity.kind, part.start, part.end, name, quantity.label, quantity.unit, item)


def _is_inside_items(context: Context, path: str, prefix: str = "") -> bool:
    """Say whether a path runs through a list without choosing one of its items."""
    steps = path.split(".")
    return any(
        (meaning := context.scope.facts.get(prefix + ".".join(steps[:length]))) is not None
        and meaning.kind.name == "items"
        for length in range(1, len(steps))
    )


def _refuse_unknown(
    context: Context, part: s.NameSyntax, variable: str = "", rest: str = ""
) -> None:
    path, prefix = part.name, ""
    if variable:
        path, prefix = rest, context.variables[variable] + "."
    if _is_inside_items(context, path, prefix):
        sentence = f"'{part.name}' is a fact of every item of a list: use a loop over the list."
        context.refuse(part, sentence)
        return
    if context.scope.was_refused(part.name):
        return
    context.refuse(part, f"Nothing is called '{part.name}'.{_hint(context, part.name)}")


def _hint(context: Context, name: str) -> str:
    if name in FUNCTIONS or name in SPECIAL or name in AGGREGATES or name == INTERPOLATE:
        return f" A function has brackets after it: {name}(...)."
    if name.lower() in _TRUTHS:
        return f" Write {_TRUTHS[name.lower()]}."
    return did_you_mean(name, list(context.scope.names(context.variables)))


_TRUTHS = {"yes": "true", "on": "true", "no": "false", "off": "false"}
