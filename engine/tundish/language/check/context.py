"""The context of one check: what all functions share that check parts of an expression."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager

from tundish.language.check.scope import Scope
from tundish.language.syntax import syntax_tree as s
from tundish.language.syntax.problem import ExpressionProblem
from tundish.language.tree import tree as t
from tundish.text.bounds import DEEPEST_TREE

_ONE_OF_SEVERAL = " To ask for one of several texts, write: name in ['a', 'b']."


class Context:
    """One check of one expression; a part that fails is None, and its parents stay silent.

    Args:
        scope: What names mean.
        variables: The path of the list that each bound loop variable runs over.
        check: Checks a part of any sort.

    Attributes:
        loops: How many loops stand around the part that is being checked.
        problems: What is wrong so far.
    """

    def __init__(
        self,
        scope: Scope,
        variables: dict[str, str],
        check: Callable[[Context, s.Syntax], t.Node | None],
    ) -> None:
        self.scope = scope
        self.variables = variables
        self.loops = 0
        self.problems: list[ExpressionProblem] = []
        self._check = check
        self._depth = 0
        self._is_too_deep = False

    def refuse(self, part: s.Syntax, sentence: str) -> None:
        """Note a problem at a part."""
        self.problems.append(ExpressionProblem(part.start, part.end, sentence))

    def any_node(self, part: s.Syntax) -> t.Node | None:
        """Check a part of any kind."""
        if self._depth == DEEPEST_TREE:
            if not self._is_too_deep:
                self.refuse(part, f"Parts stand more than {DEEPEST_TREE} deep inside each other.")
            self._is_too_deep = True
            return None
        self._depth += 1
        node = self._check(self, part)
        self._depth -= 1
        return node

    def node(self, part: s.Syntax) -> t.Node | None:
        """Check a part that must have a value of its own (no group, no list)."""
        node = self.any_node(part)
        if node is not None and node.kind.name in ("record", "items"):
            words = "present(...) or one of its facts" if node.kind.name == "record" else "a loop"
            self.refuse(part, f"This is {node.kind}, which has no value: use {words}.")
            return None
        return node

    def nodes(self, parts: Sequence[s.Syntax]) -> tuple[t.Node, ...] | None:
        """Check parts that must all have a value of their own; None where one is refused."""
        checked = [self.node(part) for part in parts]
        values = tuple(node for node in checked if node is not None)
        return values if len(values) == len(checked) else None

    def truth(self, part: s.Syntax) -> t.Node | None:
        """Check a part that must be a condition."""
        node = self.node(part)
        if node is not None and node.kind.name != "truth":
            is_word = isinstance(node, t.Constant) and node.kind.name == "text"
            hint = _ONE_OF_SEVERAL if is_word else ""
            self.refuse(part, f"A condition is asked for here, not {node.kind}.{hint}")
            return None
        return node

    def quantity(self, part: s.Syntax) -> t.Node | None:
        """Check a part that must be a quantity."""
        node = self.node(part)
        if node is not None and node.kind.name != "quantity":
            self.refuse(part, f"A quantity is asked for here, not {node.kind}.")
            return None
        return node

    @contextmanager
    def inside_loop(self, variable: str, items: t.Read) -> Iterator[None]:
        """Bind a variable to the items of a list inside a `with`."""
        self.variables[variable] = items.kind.record
        self.loops += 1
        yield
        self.loops -= 1
        del self.variables[variable]
