"""zen-engine: a Rust engine with an expression language of its own."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import zen

from engines.infix import Dialect, Infix
from tundish import Rulebook

DIALECT = Dialect(
    choice="({0} ? {1} : {2})",
    loops={
        "any": "some({items}, {term})",
        "all": "all({items}, {term})",
        "count": "count({items}, {term})",
        "sum": "sum(map({items}, {term}))",
        "least": "min(map({items}, {term}))",
        "greatest": "max(map({items}, {term}))",
        "each": "map({items}, {term})",
    },
    filtered="filter({items}, {test})",
    length="len({items})",
    functions={"absolute": "abs({0})", "least": "min([{0}, {1}])", "greatest": "max([{0}, {1}])"},
    power="({0} ^ {1})",
    item="#.{name}",
    nested=False,
)


class Engine:
    """Compiles expressions; all rules of a job go into one that gives a list."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.form = Infix(rulebook, DIALECT)

    def alone(self, expression: str) -> Callable[[Any], object]:
        return zen.compile_expression(expression).evaluate

    def together(self, expressions: Sequence[str]) -> Callable[[Any], object]:
        return zen.compile_expression(f"[{', '.join(expressions)}]").evaluate

    def taken(self, document: dict[str, Any]) -> Any:
        return document
