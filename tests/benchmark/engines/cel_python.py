"""cel-python: CEL, run by Python; programs are transpiled, its quickest way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import celpy

from engines.cel_text import DIALECT
from engines.infix import Infix
from tundish import Rulebook


class Engine:
    """Compiles programs; all rules of a job go into one that gives a list."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.form = Infix(rulebook, DIALECT)
        self._environment = celpy.Environment(runner_class=celpy.CompiledRunner)

    def alone(self, expression: str) -> Callable[[Any], object]:
        program = self._environment.program(self._environment.compile(expression))
        return program.evaluate

    def together(self, expressions: Sequence[str]) -> Callable[[Any], object]:
        return self.alone(f"[{', '.join(expressions)}]")

    def taken(self, document: dict[str, Any]) -> Any:
        return celpy.json_to_cel(document)
