"""datalogic-py taught what is not known: the same rules, with a place for "not known" in each part.

A value that is not known is thrown as an error, a truth that is not known is null; each comparison
catches what is thrown. Of the rulebook's meaning, one thing is missing: a choice whose condition is
not known is not known, even where both ways come to the same.
"""

from __future__ import annotations

from typing import Any

import datalogic_py

from engines import datalogic_py_engine
from engines.form import BREACHED, MET, NOT_APPLICABLE, Names
from engines.json_logic_form import JsonLogic, Part
from tundish import Rulebook
from tundish.language.tree import tree as t
from tundish.rulebook.model.rule import Rule

THROWN = {"throw": "not known"}


class ThreeValued(JsonLogic):
    """Writes rules in JsonLogic with strong three-valued logic."""

    def rule(self, rule: Rule) -> Part:
        written = super().rule(rule)
        return written if rule.each is None else _caught(written)

    def _verdict(self, rule: Rule, bound: Names) -> Part:
        met = _cases(self.part(rule.requires, bound), _told(MET), _told(BREACHED), _told(None))
        if isinstance(rule.applies, t.Constant):
            return met
        return _cases(self.part(rule.applies, bound), met, _told(NOT_APPLICABLE), _told(None))

    def part(self, node: t.Node, bound: Names) -> Part:
        truth = node.kind.name == "truth"
        match node:
            case t.Read() if truth or node.kind.name == "record":
                return _caught(super().part(node, bound))
            case t.Assumed() if truth:
                operand, fallback = (self.part(one, bound) for one in (node.operand, node.fallback))
                return self._made("??", operand, fallback)
            case t.Choice():
                condition, then, otherwise = (
                    self.part(one, bound) for one in (node.condition, node.then, node.otherwise)
                )
                return _cases(condition, then, otherwise, _told(None if truth else THROWN))
            case t.Comparison() if node.left.kind.name == "truth":
                return _cases(
                    self.part(node.left, bound),
                    self.part(node.right, bound),
                    self.opposite(self.part(node.right, bound)),
                    _told(None),
                )
            case _:
                return super().part(node, bound)

    def null(self) -> Part:
        return _told(None)

    def known(self, operand: Part) -> Part:
        # What "try" falls back on must read nothing: it sees the error in place of the document.
        there = self._made("!==", operand, self.null())
        return lambda scope: {"try": [there(scope), False]}

    def _rows(self, table: Any, level: Any, keys: list[Part], column: int) -> Part:
        found = super()._rows(table, level, keys, column)
        return self._made("??", found, _told(THROWN))

    def comparison(self, sign: str, left: Part, right: Part) -> Part:
        return _caught(super().comparison(sign, left, right))

    def among(self, member: Part, options: Part) -> Part:
        return _caught(super().among(member, options))

    def opposite(self, operand: Part) -> Part:
        return _cases(operand, _told(False), _told(True), _told(None))

    def logic(self, word: str, parts: list[Part]) -> Part:
        first, *others = parts
        if not others:
            return first
        rest, both = self.logic(word, others), word == "and"
        # What settles the answer does so even where the first is not known.
        settled = lambda scope: {  # noqa: E731
            "switch": [rest(scope), [[not both, not both]], None]
        }
        if both:
            return _cases(first, rest, _told(False), settled)
        return _cases(first, _told(True), rest, settled)

    def loop(
        self, function: str, items: Part, variable: str, term: Part, test: Part | None
    ) -> Part:
        if function in ("any", "all"):
            if test is not None:
                items, test = self._over("filter", items, variable, test), None
            ends = function == "any"
            mapped = self._over("map", items, variable, term)
            return _caught(
                lambda scope: {
                    "if": [
                        {"in": [ends, mapped(scope)]},
                        ends,
                        {"in": [None, mapped(scope)]},
                        None,
                        not ends,
                    ]
                }
            )
        if function == "count":
            one = _cases(term, self.constant(1), self.constant(0), _told(THROWN))
            return self._gathered("+", 0, items, variable, one)
        return super().loop(function, items, variable, term, test)


def _told(value: Any) -> Part:
    return lambda scope: value


def _caught(part: Part) -> Part:
    return lambda scope: {"try": [part(scope), None]}


def _cases(condition: Part, true: Part, false: Part, unknown: Part) -> Part:
    return lambda scope: {
        "switch": [
            condition(scope),
            [[True, true(scope)], [False, false(scope)]],
            unknown(scope),
        ]
    }


class Engine(datalogic_py_engine.Engine):
    """As the engine without it, but a fact that is not known is left out and reading it fails."""

    def __init__(self, rulebook: Rulebook) -> None:
        super().__init__(rulebook)
        self.form = ThreeValued(rulebook, looks_out=True)
        self._engine = datalogic_py.Engine(config={"missing_var": "error"})
        self._session = self._engine.session()

    def taken(self, document: dict[str, Any]) -> Any:
        return datalogic_py.DataHandle(_without_nulls(document))


def _without_nulls(document: Any) -> Any:
    if isinstance(document, list):
        return [_without_nulls(one) for one in document]
    if isinstance(document, dict):
        return {name: _without_nulls(one) for name, one in document.items() if one is not None}
    return document
