"""panzi-json-logic: JsonLogic, walked in Python."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from json_logic import jsonLogic

from engines.json_logic_form import JsonLogic, Part
from tundish import Rulebook


class Engine:
    """Walks the rules; a list of them is one expression."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.form = JsonLogic(rulebook, looks_out=False)

    def alone(self, expression: Part) -> Callable[[Any], object]:
        written = expression(())
        return lambda document: jsonLogic(written, document)

    def together(self, expressions: Sequence[Part]) -> Callable[[Any], object]:
        written = [expression(()) for expression in expressions]
        return lambda document: jsonLogic(written, document)

    def taken(self, document: dict[str, Any]) -> Any:
        return document
