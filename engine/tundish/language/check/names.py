"""Checking names: facts of the job, of an item of a list, quantities, named numbers."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.language.check.context import Context
from tundish.language.check.scope import Scope
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.operations.functions import CONSTANTS, FUNCTIONS, INTERPOLATE, SPECIAL
from tundish.language.syntax import syntax_tree as s
from tundish.language.tree import tree as t
from tundish.language.tree.kind import PLAIN_NUMBER
from tundish.text.nearest import did_you_mean
from tundish.units.unit import read_unit

_ONE = read_unit("1")

OF_NO_LIST = ""
"""Stands for the path of a list that was refused, so that its items cause no more problems."""


def check_name(context: Context, part: s.NameSyntax) -> t.Node | None:
    """Find out what a name stands for."""
    scope, place = context.scope, (part.start, part.end)
    first, _, inner_path = part.name.partition(".")
    item, of, name, prefix = None, "", part.name, ""
    if first in context.variables:
        item, of, name = first, context.variables[first], inner_path
        prefix = f"{of}."
        if of == OF_NO_LIST:
            return None
        if not inner_path:
            sentence = f"'{item}' is an item, which has no value: name one of its facts."
            context.refuse(part, sentence)
            return None
    if quantity := scope.quantities.get((of, name)):
        return t.Derived(quantity.kind, *place, name, quantity.label, quantity.unit, item)
    if item is None and name in CONSTANTS:
        return t.Constant(PLAIN_NUMBER, *place, CONSTANTS[name], name, _ONE)
    if _is_inside_items(scope, name, prefix):
        sentence = f"'{part.name}' is a fact of every item of a list: use a loop over the list."
        context.refuse(part, sentence)
    elif fact := scope.facts.get(prefix + name):
        return t.Read(fact.kind, *place, name, fact.label, item, fact.unit)
    elif not scope.was_refused(part.name):
        context.refuse(part, f"Nothing is called '{part.name}'.{_hint(context, part.name)}")
    return None


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
    """Refuse a word that names nothing, where a text is compared: its quotes are missing.

    Args:
        context: The check of the expression.
        part: The word.
        asked: What it is compared with.
        choices: The words that can stand there; none where any text can.
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


def _is_inside_items(scope: Scope, path: str, prefix: str) -> bool:
    """Say whether a path runs through a list without choosing one of its items."""
    steps = path.split(".")
    above = (prefix + ".".join(steps[:length]) for length in range(1, len(steps)))
    return any(group in scope.facts and scope.facts[group].kind.name == "items" for group in above)


def _hint(context: Context, name: str) -> str:
    if name in FUNCTIONS or name in SPECIAL or name in AGGREGATES or name == INTERPOLATE:
        return f" A function has brackets after it: {name}(...)."
    if name.lower() in _TRUTHS:
        return f" Write {_TRUTHS[name.lower()]}."
    return did_you_mean(name, list(context.scope.names(context.variables)))


_TRUTHS = {"yes": "true", "on": "true", "no": "false", "off": "false"}
