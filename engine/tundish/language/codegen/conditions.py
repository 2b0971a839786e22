"""Writing conditions as tests: Python's own, which hold or fail and know nothing of the unknown."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.language.codegen.condition_kind import (
    facts_held_against,
    is_between_constants,
    is_of_numbers,
    is_of_text,
)
from tundish.language.codegen.emitter import ExpressionEmitter
from tundish.language.codegen.tolerance import comparison_test
from tundish.language.operations.operators import RELATIONS
from tundish.language.tree import tree as t


class ConditionEmitter(ExpressionEmitter):
    """Writes tests of whether conditions hold or fail."""

    def held(self, node: t.Node) -> str:
        """Return an expression that is true just where a condition holds."""
        return self._tested(node, wanted=True)

    def failed(self, node: t.Node) -> str:
        """Return an expression that is true just where a condition fails."""
        return self._tested(node, wanted=False)

    def _tested(self, node: t.Node, wanted: bool) -> str:
        match node:
            case t.Not():
                return self._tested(node.operand, not wanted)
            case t.Logic() if (fact := self._only_fact(node)) is not None:
                return self._of_fact(node, fact, wanted)
            case t.Logic():
                # An "and" fails where any part fails, an "or" where all do.
                joint = " and " if (node.word == "and") is wanted else " or "
                return f"({joint.join(self._tested(part, wanted) for part in node.parts)})"
            case _:
                return self._atom(node, wanted)

    def _atom(self, node: t.Node, wanted: bool) -> str:
        found = self._found(node)
        if found:
            return found if wanted else f"{found} is False"
        match node:
            case t.Comparison() if is_of_numbers(node):
                left, right = self._operand(node.left), self._operand(node.right)
                test, negated = comparison_test(node, left, right)
                test = f"not ({test})" if negated is wanted else f"({test})"
                return self._known_and([(node.left, left), (node.right, right)], test)
            case t.Comparison() | t.Membership() if is_of_text(node):
                value, test, negated = self._text_test(node)
                if negated is wanted:
                    return self._known_and([(node, value)], f"not {test}")
                return test
            case t.Membership() if node.texts is not None:
                member, texts = self._operand(node.member), self.emit(node.texts)
                test = f"{member} {'in' if wanted else 'not in'} {texts}"
                return self._known_and([(node.member, member), (node.texts, texts)], test)
            case t.Known():
                return f"({self.emit(node.operand)} is {'not ' if wanted else ''}None)"
            case _:
                value = self.emit(node)
                return value if wanted else f"{value} is False"

    def _known_where_held(self, node: t.Node) -> list[str]:
        """Return names of values that are known wherever a condition holds."""
        match node:
            case t.Known():
                return [self.emit(node.operand)]
            case t.Comparison() | t.Membership():
                parts = t.children(node)
                return [self.emit(part) for part in parts if isinstance(part, t.Read | t.Derived)]
            case t.Logic(word="and"):
                return [name for part in node.parts for name in self._known_where_held(part)]
            case _:
                return []

    def _known_and(self, parts: Iterable[tuple[t.Node, str]], test: str) -> str:
        """Return a test that holds where all parts are known and another holds of them."""
        known = self._guarded(parts)
        return f"({known} and {test})" if known else f"({test})"

    def _text_test(self, node: t.Node) -> tuple[str, str, bool]:
        """Return the name of a text, a test that fails where it is unknown, and if it negates."""
        if isinstance(node, t.Membership):
            value = self.emit(node.member)
            options = ", ".join(repr(one) for one in node.options or ())
            return value, f"({value} in {{{options}}})", False
        assert isinstance(node, t.Comparison)
        value = self.emit(node.left)
        assert isinstance(node.right, t.Constant)
        return value, f"({value} == {node.right.value!r})", bool(RELATIONS[node.sign].negates)

    def _is_plain(self, node: t.Node) -> bool:
        """Say whether all parts may be looked at, whatever the others come to: none costs much."""
        return self._numbering.key(node) is not None and not any(
            isinstance(part, t.Choice | t.Call | t.Lookup) for part, _ in t.walk(node, {})
        )

    # -- conditions on one fact, which are decided as soon as that is known -------------------

    def _only_fact(self, node: t.Node) -> t.Read | t.Derived | None:
        """Return the one fact that all parts hold against what is written out, if there is one."""
        facts = facts_held_against(node)
        if not facts or len({self._numbering.key(fact) for fact in facts}) > 1:
            return None
        return facts[0] if self._is_plain(node) else None

    def _held_where_known(self, node: t.Node, value: str) -> str:
        """Return a test of whether a condition on one fact holds, where that is known."""
        with self._knowing(value):
            if not isinstance(node, t.Logic):
                return self.held(node)
            joint = f" {node.word} "
            return f"({joint.join(self.held(part) for part in node.parts)})"

    def _term(self, node: t.Node, needed: dict[str, None]) -> str:
        if not isinstance(node, t.Choice) or self._found(node):
            return super()._term(node, needed)
        fact = self._only_fact(node.condition)
        if fact is None or not is_between_constants(node):
            return super()._term(node, needed)
        value = self._need(self.emit(fact), needed)
        test = self._held_where_known(node.condition, value)
        return f"({self._operand(node.then)} if {test} else {self._operand(node.otherwise)})"

    def _of_fact(self, node: t.Logic, fact: t.Node, wanted: bool) -> str:
        value = self.emit(fact)
        test = self._held_where_known(node, value)
        return self._known_and([(fact, value)], test if wanted else f"not {test}")
