"""cel-python: CEL, run by Python; programs are transpiled, its quickest way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import celpy

from engines.cel_text import DIALECT
from engines.infix import Infix
from tundish import Rulebook

# It refuses to compare a number or a list with null, but not their types.
OWN_DIALECT = replace(DIALECT, known="(type({0}) != null_type)")


class Engine:
    """Compiles programs; all rules of a job go into one that gives a list."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.form = Infix(rulebook, OWN_DIALECT)
        self._environment = celpy.Environment(runner_class=celpy.CompiledRunner)

    def alone(self, expression: str) -> Callable[[Any], object]:
        program = self._environment.program(self._environment.compile(expression))
        return program.evaluate

    def together(self, expressions: Sequence[str]) -> Callable[[Any], object]:
        return self.alone(f"[{', '.join(expressions)}]")

    def taken(self, document: dict[str, Any]) -> Any:
        return celpy.json_to_cel(document)
