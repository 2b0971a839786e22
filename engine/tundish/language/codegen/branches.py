"""Branching: conditions written as the ways they can go, instead of as values to be looked at."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice, takewhile

from tundish.groundwork.dataclass import dataclass
from tundish.language.codegen.condition_kind import are_short, is_certain, is_of_text
from tundish.language.codegen.conditions import ConditionEmitter
from tundish.language.codegen.tolerance import comparison_test
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.tree import tree as t


@dataclass(frozen=True, slots=True)
class Way:
    """What is done where a condition goes one way.

    Attributes:
        write: Writes it.
        is_short: Whether it may be written several times.
    """

    write: Callable[[], None]
    is_short: bool = True


_FEW_PARTS, _SMALL = 3, 20
"""Parts, and nodes in all, of a condition that is written part by part."""

_DEEP = 4 * 30
"""Spaces before a line past which nothing goes deeper that need not; Python reads 100 levels."""


class BranchingEmitter(ConditionEmitter):
    """Writes conditions as branches."""

    def branch(self, node: t.Node, holds: Way, fails: Way, is_open: Way) -> None:
        """Write what is done where a condition holds, fails, or is not decided."""
        match node:
            case t.Constant():
                (holds if node.value else fails).write()
            case t.Not():
                self.branch(node.operand, fails, holds, is_open)
            case t.Known():
                value = self.emit(node.operand)
                self._way(f"if {value} is not None:", holds, value)
                self._way("else:", fails)
            case t.Comparison() | t.Membership() if is_of_text(node) and not self._found(node):
                value, test, negated = self._text_test(node)
                first, second = (fails, holds) if negated else (holds, fails)
                self._three_ways(value, test, first, second, is_open)
            case t.Comparison() if not self._found(node):
                sides = self._operand(node.left), self._operand(node.right)
                test, negated = comparison_test(node, *sides)
                parts = list(zip((node.left, node.right), sides, strict=True))
                self._where_known(parts, test, negated, holds, fails, is_open)
            case t.Membership() if node.texts is not None and not self._found(node):
                member, texts = self._operand(node.member), self.emit(node.texts)
                parts = [(node.member, member), (node.texts, texts)]
                self._where_known(parts, f"{member} in {texts}", False, holds, fails, is_open)
            case t.Logic() if (fact := self._only_fact(node)) is not None:
                value = self.emit(fact)
                test = self._held_where_known(node, value)
                self._where_known([(fact, value)], test, False, holds, fails, is_open)
            case t.Logic() if self._goes_by_parts(node, holds, fails, is_open):
                pass
            case t.Logic() if self._is_plain(node):
                held, failed = self.held(node), self.failed(node)
                self._way(f"if {held}:", holds, *self._known_where_held(node))
                self._way(f"elif {failed}:", fails)
                self._way("else:", is_open)
            case _:
                value = self.emit(node)
                self._three_ways(value, value, holds, fails, is_open)

    # What holds is written last where it can, as Python then need not jump past the rest.

    def _three_ways(self, value: str, test: str, first: Way, second: Way, is_open: Way) -> None:
        """Write what is done where a test passes, or else where a value is known or not."""
        if not first.is_short:
            self._way(f"if {test}:", first, value)
            self._way(f"elif {value} is None:", is_open)
            self._way("else:", second, value)
            return
        self._line(f"if not {test}:")
        with self._deeper():
            self._way(f"if {value} is None:", is_open)
            self._way("else:", second, value)
        self._way("else:", first, value)

    def _where_known(
        self,
        parts: Sequence[tuple[t.Node, str]],
        test: str,
        negated: bool,
        holds: Way,
        fails: Way,
        is_open: Way,
    ) -> None:
        """Write what is done where all parts are known and pass a test, or fail it."""
        unknown = " or ".join(f"{name} is None" for name in self._maybe_unknown(parts))
        if unknown:
            self._way(f"if {unknown}:", is_open)
        if_word = "elif" if unknown else "if"
        names = [name for node, name in parts if not isinstance(node, t.Constant)]
        if negated or holds.is_short:
            self._way(f"{if_word} {test if negated else f'not ({test})'}:", fails, *names)
            self._way("else:", holds, *names)
        else:
            self._way(f"{if_word} {test}:", holds, *names)
            self._way("else:", fails, *names)

    def _goes_by_parts(self, node: t.Logic, holds: Way, fails: Way, is_open: Way) -> bool:
        """Write a branch for each part in turn, if the ways each may go are short.

        What stands behind a part is written once for where that holds or fails, and once for where
        it is open, so that the whole must be small.

        Returns:
            Whether it was written.
        """
        is_and = node.word == "and"
        settled = fails if is_and else holds
        if not (settled.is_short and is_open.is_short and self._is_small(node)):
            return False
        first, *others = node.parts
        rest = t.Logic(node.kind, node.start, node.end, node.word, tuple(others))
        rest_alone = others[0] if len(others) == 1 else rest
        test = self.failed if is_and else self.held

        def as_the_rest_settles() -> None:
            self._way(f"if {test(rest_alone)}:", settled)
            self._way("else:", is_open)

        further = Way(lambda: self.branch(rest_alone, holds, fails, is_open), is_short=False)
        while_open = Way(as_the_rest_settles, is_short=False)
        if is_and:
            self.branch(first, further, fails, while_open)
        else:
            self.branch(first, holds, further, while_open)
        return True

    def _is_small(self, node: t.Logic) -> bool:
        """Say whether parts are few, short and no deeper than Python can read them."""
        if not 1 < len(node.parts) <= _FEW_PARTS or len(self._indent) > _DEEP:
            return False
        return len(list(islice(t.walk(node, {}), _SMALL + 1))) <= _SMALL and self._is_plain(node)

    def _logic(self, node: t.Logic) -> str:
        if is_certain(node):
            return self._set(self.held(node) if node.parts else str(node.word == "and"))
        if not self._is_plain(node):
            certain = tuple(takewhile(is_certain, node.parts))
            return self._behind(certain, node) if certain else super()._logic(node)
        fact = self._only_fact(node)
        if fact is not None:
            value = self.emit(fact)
            return self._set_where_known([(fact, value)], self._held_where_known(node, value))
        held, failed = self.held(node), self.failed(node)
        return self._set(f"True if {held} else False if {failed} else None")

    def _behind(self, certain: tuple[t.Node, ...], node: t.Logic) -> str:
        """Write a condition whose first parts are never open, and may settle it."""
        first = t.Logic(node.kind, node.start, node.end, node.word, certain)
        others = node.parts[len(certain) :]
        rest = t.Logic(node.kind, node.start, node.end, node.word, others)
        result = self._new_name()
        is_and = node.word == "and"
        self._line(f"if {self.held(first) if is_and else self.failed(first)}:")
        with self._deeper(*self._known_where_held(first)):
            self._line(f"{result} = {self.emit(others[0] if len(others) == 1 else rest)}")
        self._line(f"else: {result} = {not is_and}")
        return result

    def _choice(self, node: t.Choice) -> str:
        # What is written for an open condition is both ways once more, so they had best be short.
        if not is_certain(node.condition) and not are_short(node.then, node.otherwise):
            return super()._choice(node)
        result = self._new_name()

        def way(part: t.Node) -> Way:
            is_short = isinstance(part, t.Constant | t.Read)
            return Way(lambda: self._line(f"{result} = {self._operand(part)}"), is_short)

        def both() -> None:
            first, second = self._operand(node.then), self._operand(node.otherwise)
            self._line(f"{result} = agreed({first}, {second})")

        self.branch(node.condition, way(node.then), way(node.otherwise), Way(both, is_short=False))
        return result

    def _round(self, node: t.Loop, result: str, test: str) -> None:
        settles = AGGREGATES[node.function].settles
        if settles is None and node.function != "count":
            super()._round(node, result, test)
            return

        def none() -> None:
            self._line("pass")

        def unknown() -> None:
            self._line(f"{result} = None")
            if settles is None:
                self._line("break")

        def counts() -> None:
            if test:
                self._line(f"if {test} is None:")
                with self._deeper():
                    unknown()
                    self._line("continue")
            self._line(f"{result} += 1.0" if settles is None else f"{result} = {settles}; break")

        if settles is False:
            self.branch(node.term, Way(none), Way(counts), Way(unknown))
        else:
            self.branch(node.term, Way(counts), Way(none), Way(unknown))

    def _way(self, head: str, way: Way, *known: str) -> None:
        """Write a way behind its head, where some values are known."""
        start = len(self.lines)
        self._line(head)
        with self._deeper(*known):
            way.write()
        if head == "else:" and [line.lstrip() for line in self.lines[start + 1 :]] == ["pass"]:
            del self.lines[start:]
