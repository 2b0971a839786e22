"""rule-engine: expressions close to Python's, in decimal arithmetic."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import rule_engine

from engines.infix import Dialect, Infix
from tundish import Rulebook

DIALECT = Dialect(
    choice="({0} ? {1} : {2})",
    loops={
        "any": "$any([{term} for {variable} in {items}])",
        "all": "$all([{term} for {variable} in {items}])",
        "count": "([1 for {variable} in {items} if {term}].length)",
        "sum": "$sum([{term} for {variable} in {items}])",
        "least": "$min([{term} for {variable} in {items}])",
        "greatest": "$max([{term} for {variable} in {items}])",
        "each": "[{term} for {variable} in {items}]",
    },
    filtered="[{variable} for {variable} in {items} if {test}]",
    length="({items}.length)",
    functions={"absolute": "$abs({0})"},
    power="({0} ** {1})",
)


class Engine:
    """Compiles rules; all rules of a job go into one that gives a list."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.form = Infix(rulebook, DIALECT)

    def alone(self, expression: str) -> Callable[[Any], object]:
        evaluate: Callable[[Any], object] = rule_engine.Rule(expression).evaluate
        return evaluate

    def together(self, expressions: Sequence[str]) -> Callable[[Any], object]:
        return self.alone(f"[{', '.join(expressions)}]")

    def taken(self, document: dict[str, Any]) -> Any:
        return document
