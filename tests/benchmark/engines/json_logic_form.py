"""Rules as JsonLogic: a tree of operators over a document."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from engines.form import Form, NotExpressible, name_of
from tundish import Rulebook

Scope = tuple[str, ...]
Part = Callable[[Scope], Any]
"""A part as it is written inside some loops, the innermost last."""


class JsonLogic(Form[Part]):
    """Writes rules as JsonLogic.

    Args:
        rulebook: Where quantities and tables stand.
        looks_out: Whether a loop can read what stands outside it, as `{"val": [[2], name]}`.
    """

    def __init__(self, rulebook: Rulebook, looks_out: bool) -> None:
        super().__init__(rulebook)
        self._looks_out = looks_out

    def constant(self, value: Any) -> Part:
        return lambda scope: value

    def null(self) -> Part:
        return lambda scope: None

    def fact(self, path: str) -> Part:
        return lambda scope: self._read(len(scope), name_of(path))

    def item_fact(self, variable: str, path: str) -> Part:
        return lambda scope: self._read(len(scope) - 1 - scope.index(variable), name_of(path))

    def _read(self, outwards: int, name: str) -> Any:
        if outwards and not self._looks_out:
            raise NotExpressible("loop that reads what stands outside it")
        return {"val": [[2 * outwards], name]} if outwards else {"var": name}

    def _made(self, operator: str, *parts: Part) -> Part:
        return lambda scope: {operator: [part(scope) for part in parts]}

    def arithmetic(self, sign: str, left: Part, right: Part) -> Part:
        return self._made(sign, left, right)

    def power(self, radix: Part, exponent: Part) -> Part:
        raise NotExpressible("power or root")

    def comparison(self, sign: str, left: Part, right: Part) -> Part:
        return self._made({"==": "===", "!=": "!=="}.get(sign, sign), left, right)

    def among(self, member: Part, options: Part) -> Part:
        return self._made("in", member, options)

    def listed(self, values: Iterable[Any]) -> Part:
        words = list(values)
        return lambda scope: words

    def opposite(self, operand: Part) -> Part:
        return self._made("!", operand)

    def logic(self, word: str, parts: list[Part]) -> Part:
        return self._made(word, *parts)

    def choice(self, condition: Part, then: Part, otherwise: Part) -> Part:
        return self._made("if", condition, then, otherwise)

    def known(self, operand: Part) -> Part:
        return self._made("!==", operand, self.null())

    def call(self, name: str, given: list[Part]) -> Part:
        if name in ("least", "greatest"):
            return self._made("min" if name == "least" else "max", *given)
        if name == "absolute":
            return self._made("max", given[0], self._made("-", self.constant(0.0), given[0]))
        if name == "square_root":
            return self.power(given[0], self.constant(0.5))
        raise NotExpressible(f"function {name.replace('_', ' ')}")

    def length(self, items: Part) -> Part:
        return self._gathered("+", 0, items, "", self.constant(1))

    def loop(
        self, function: str, items: Part, variable: str, term: Part, test: Part | None
    ) -> Part:
        if test is not None:
            items = self._over("filter", items, variable, test)
        match function:
            case "any":
                return self._over("some", items, variable, term)
            case "all":
                # JsonLogic's own "all" says that all of nothing is false.
                return self.opposite(self._over("some", items, variable, self.opposite(term)))
            case "count":
                one = self.choice(term, self.constant(1), self.constant(0))
                return self._gathered("+", 0, items, variable, one)
            case "sum":
                return self._gathered("+", 0, items, variable, term)
            case _:
                operator, start = ("min", 1e300) if function == "least" else ("max", -1e300)
                return self._gathered(operator, start, items, variable, term)

    def mapped(self, items: Part, variable: str, term: Part) -> Part:
        return self._over("map", items, variable, term)

    def _over(self, operator: str, items: Part, variable: str, term: Part) -> Part:
        return lambda scope: {operator: [items(scope), term((*scope, variable))]}

    def _gathered(
        self, operator: str, start: float, items: Part, variable: str, term: Part
    ) -> Part:
        mapped = self._over("map", items, variable, term)
        step = {operator: [{"var": "current"}, {"var": "accumulator"}]}
        return lambda scope: {"reduce": [mapped(scope), step, start]}
