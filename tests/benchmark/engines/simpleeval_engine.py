"""simpleeval: expressions in Python's own syntax, walked as a tree; parsed once."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

import simpleeval

from engines.infix import Dialect, Infix
from tundish import Rulebook

DIALECT = Dialect(
    choice="({1} if {0} else {2})",
    loops={
        "any": "any([{term} for {variable} in {items}])",
        "all": "all([{term} for {variable} in {items}])",
        "count": "len([1 for {variable} in {items} if {term}])",
        "sum": "sum([{term} for {variable} in {items}])",
        "least": "min([{term} for {variable} in {items}])",
        "greatest": "max([{term} for {variable} in {items}])",
        "each": "[{term} for {variable} in {items}]",
    },
    filtered="[{variable} for {variable} in {items} if {test}]",
    length="len({items})",
    functions={
        "absolute": "abs({0})",
        "least": "min({0}, {1})",
        "greatest": "max({0}, {1})",
        "square_root": "sqrt({0})",
        "logarithm": "log({0})",
        "exponential": "exp({0})",
    },
    power="({0} ** {1})",
    item="{variable}['{name}']",
    words=("and", "or", "not ", "None", "True", "False"),
)

# Python's own functions, which the engine has to be handed.
FUNCTIONS: dict[str, Callable[..., Any]] = {
    **{one.__name__: one for one in (any, all, len, sum, min, max, abs)},
    **{one.__name__: one for one in (math.sqrt, math.log, math.exp)},
}


class Engine:
    """Keeps parsed expressions; all rules of a job go into one that gives a list."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.form = Infix(rulebook, DIALECT)
        self._evaluator = simpleeval.EvalWithCompoundTypes(functions=FUNCTIONS)

    def alone(self, expression: str) -> Callable[[Any], object]:
        parsed, evaluator = self._evaluator.parse(expression), self._evaluator

        def evaluate(document: Any) -> object:
            evaluator.names = document
            return evaluator.eval(expression, previously_parsed=parsed)

        return evaluate

    def together(self, expressions: Sequence[str]) -> Callable[[Any], object]:
        return self.alone(f"[{', '.join(expressions)}]")

    def taken(self, document: dict[str, Any]) -> Any:
        return document
