"""common-expression-language: CEL, run by Rust."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import cel

from engines.cel_text import DIALECT
from engines.infix import Infix
from tundish import Rulebook


class Engine:
    """Compiles programs; all rules of a job go into one that gives a list."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.form = Infix(rulebook, DIALECT)

    def alone(self, expression: str) -> Callable[[Any], object]:
        return cel.compile(expression).execute

    def together(self, expressions: Sequence[str]) -> Callable[[Any], object]:
        return cel.compile(f"[{', '.join(expressions)}]").execute

    def taken(self, document: dict[str, Any]) -> Any:
        return cel.Context(document)
