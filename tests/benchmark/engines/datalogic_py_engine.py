"""datalogic-py: JsonLogic, run by Rust; many rules are asked of one document in one call."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import datalogic_py

from engines.json_logic_form import JsonLogic, Part
from tundish import Rulebook


class Engine:
    """Compiles rules; a session asks all of them of a document that was prepared beforehand."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.form = JsonLogic(rulebook, looks_out=True)
        self._engine = datalogic_py.Engine()
        self._session = self._engine.session()

    def alone(self, expression: Part) -> Callable[[Any], object]:
        return self._engine.compile(expression(())).evaluate_data

    def together(self, expressions: Sequence[Part]) -> Callable[[Any], object]:
        rules = [self._engine.compile(expression(())) for expression in expressions]
        session = self._session
        return lambda document: session.evaluate_many(rules, document)

    def taken(self, document: dict[str, Any]) -> Any:
        return datalogic_py.DataHandle(document)
