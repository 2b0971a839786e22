"""Rules as infix text; each engine's dialect is a handful of templates."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from engines.form import Form, NotExpressible, name_of
from tundish import Rulebook


@dataclass(frozen=True)
class Dialect:
    """How an engine writes what the rules need.

    Attributes:
        choice: With {0} the condition, {1} and {2} the two ways.
        loops: By function, with {items}, {variable}, {term}; what is not there cannot be said.
        filtered: The items for which {test} holds, where loops take no test of their own.
        functions: By the rulebook's name, with {0}, {1} ...
        power: With {0} and {1}; "" = there is none.
        item: A fact {name} of the item that {variable} stands for.
        words: Of and, or, not, null, true, false.
        nested: Whether an inner loop can read the item of an outer one.
        known: That {0} is not {null}.
    """

    choice: str
    loops: Mapping[str, str]
    filtered: str
    length: str
    functions: Mapping[str, str] = field(default_factory=dict)
    power: str = ""
    item: str = "{variable}.{name}"
    words: tuple[str, str, str, str, str, str] = ("and", "or", "not ", "null", "true", "false")
    nested: bool = True
    known: str = "({0} != {null})"


class Infix(Form[str]):
    """Writes rules in a dialect."""

    def __init__(self, rulebook: Rulebook, dialect: Dialect) -> None:
        super().__init__(rulebook)
        self._dialect = dialect
        self._and, self._or, self._not, self._null, self._true, self._false = dialect.words

    def constant(self, value: Any) -> str:
        if isinstance(value, bool):
            return self._true if value else self._false
        if isinstance(value, float):
            # Written out in full, as not every engine reads 1e-06.
            text = repr(value) if "e" not in repr(value) else f"{value:.20f}".rstrip("0")
            return f"({text})" if value < 0 else text
        return json.dumps(value)

    def null(self) -> str:
        return self._null

    def fact(self, path: str) -> str:
        return name_of(path)

    def item_fact(self, variable: str, path: str) -> str:
        return self._dialect.item.format(variable=variable, name=name_of(path))

    def arithmetic(self, sign: str, left: str, right: str) -> str:
        return f"({left} {sign} {right})"

    def power(self, radix: str, exponent: str) -> str:
        if not self._dialect.power:
            raise NotExpressible("power or root")
        return self._dialect.power.format(radix, exponent)

    def comparison(self, sign: str, left: str, right: str) -> str:
        return f"({left} {sign} {right})"

    def among(self, member: str, options: str) -> str:
        return f"({member} in {options})"

    def listed(self, values: Iterable[Any]) -> str:
        return f"[{', '.join(map(self.constant, values))}]"

    def opposite(self, operand: str) -> str:
        return f"({self._not}({operand}))"

    def logic(self, word: str, parts: list[str]) -> str:
        sign = self._and if word == "and" else self._or
        return f"({f' {sign} '.join(parts)})"

    def choice(self, condition: str, then: str, otherwise: str) -> str:
        return self._dialect.choice.format(condition, then, otherwise)

    def known(self, operand: str) -> str:
        return self._dialect.known.format(operand, null=self._null)

    def call(self, name: str, given: list[str]) -> str:
        if name in self._dialect.functions:
            return self._dialect.functions[name].format(*given)
        if name in ("least", "greatest") and len(given) == 2:
            less = self.comparison("<" if name == "least" else ">", *given)
            return self.choice(less, *given)
        if name == "absolute":
            below = self.comparison("<", given[0], "0.0")
            return self.choice(below, f"(0.0 - {given[0]})", given[0])
        if name == "square_root":
            return self.power(given[0], "0.5")
        raise NotExpressible(f"function {name.replace('_', ' ')}")

    def length(self, items: str) -> str:
        return self._dialect.length.format(items=items)

    def loop(self, function: str, items: str, variable: str, term: str, test: str | None) -> str:
        if function not in self._dialect.loops:
            raise NotExpressible(f"'{function}' over a list")
        if test is not None:
            items = self._dialect.filtered.format(items=items, variable=variable, test=test)
        template = self._dialect.loops[function]
        return template.format(items=items, variable=variable, term=term)

    def mapped(self, items: str, variable: str, term: str) -> str:
        if not self._dialect.nested and _loops_in(term):
            raise NotExpressible("loop within a loop that reads the outer item")
        return self._dialect.loops["each"].format(items=items, variable=variable, term=term)


def _loops_in(term: str) -> bool:
    """Say whether a loop stands inside: in the rules, one always reads the outer item."""
    return any(f"{word}(" in term for word in ("some", "all", "map", "filter", "count"))
