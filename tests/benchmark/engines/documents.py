"""Documents: a job's facts as one flat record that names every fact the rules read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from engines.form import name_of
from tundish import Rulebook
from tundish.language.tree import tree as t
from tundish.rulebook.model.rule import Rule


class Documents:
    """Makes documents in which a fact that is not known is null, as most engines want it.

    Args:
        rulebook: Where quantities stand.
        rules: The rules that will be asked.
    """

    def __init__(self, rulebook: Rulebook, rules: Iterable[Rule]) -> None:
        self._rulebook = rulebook
        self._reads: dict[str, dict[str, None]] = {"": {}}
        self._walked: set[tuple[str, str]] = set()
        for rule in rules:
            bound = {rule.each.variable: rule.each.path} if rule.each else {}
            if rule.each:
                self._reads[""][rule.each.path] = None
            for root in (rule.applies, rule.requires):
                self._walk(root, bound)

    def _walk(self, root: t.Node, bound: Mapping[str, str]) -> None:
        for node, inner in t.walk(root, bound):
            path = inner[node.item] if isinstance(node, t.Read | t.Derived) and node.item else ""
            if isinstance(node, t.Read):
                self._reads.setdefault(path, {})[node.path] = None
            elif isinstance(node, t.Derived) and (path, node.name) not in self._walked:
                self._walked.add((path, node.name))
                quantity = self._rulebook.quantities[path, node.name]
                each = quantity.each
                self._walk(quantity.formula.root, {each.variable: each.path} if each else {})

    def of(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """Return the facts of a job as a document."""
        return dict(self._record("", values))

    def _record(self, under: str, values: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
        for path in self._reads.get(under, ()):
            value = values.get(path)
            if isinstance(value, list):
                value = [dict(self._record(path, item)) for item in value]
            elif isinstance(value, tuple):
                value = list(value)
            yield name_of(path), value
