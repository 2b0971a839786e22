"""Writing loops: statements that go through the items of a list."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator
from contextlib import contextmanager

from tundish.language.budget.cost import round_weight
from tundish.language.codegen.code_builder import Statements
from tundish.language.operations.aggregates import AGGREGATES
from tundish.language.tree import tree as t


class LoopEmitter(Statements, ABC):
    """Writes loops; the parts in them are written by what is built on this.

    Args:
        variables: The name that stands for each bound variable's item, and the path of its list.
    """

    def __init__(self, variables: dict[str, tuple[str, str]]) -> None:
        super().__init__()
        self._variables = variables

    @abstractmethod
    def emit(self, node: t.Node) -> str:
        """Write the statements that compute a part, and return the name of its value."""

    def _loop(self, node: t.Loop) -> str:
        items = self.emit(node.items)
        result = self._set("None")
        variable = self._new_name()
        with self._if_known(items):
            self._spend(node.items, round_weight(node))
            self._read_outside(node.variable, node.filter, node.term)
            self._line(f"{result} = {AGGREGATES[node.function].start}")
            self._line(f"for {variable} in {items}:")
            with self._deeper(), self._bound(node.variable, variable, node.items.kind.record):
                self._round(node, result, self._filtered(node))
        return result

    @contextmanager
    def _if_known(self, items: str) -> Iterator[None]:
        """Write something inside a `with` that is done where a list is known."""
        if self._is_known(items):
            yield
            return
        self._line(f"if {items} is not None:")
        with self._deeper(items):
            yield

    def _filtered(self, node: t.Loop | t.Interpolation) -> str:
        """Write what leaves an item out; return the name of whether it counts, or nothing."""
        if node.filter is None:
            return ""
        test = self.emit(node.filter)
        self._line(f"if {test} is False: continue")
        return test

    def _interpolation(self, node: t.Interpolation) -> str:
        items = self.emit(node.items)
        places = "".join(f"{self.emit(place)}, " for place in node.at)
        rows, variable = self._set("None"), self._new_name()
        with self._if_known(items):
            self._spend(node.items, round_weight(node))
            self._read_outside(node.variable, node.filter, *node.keys, node.value)
            self._line(f"{rows} = {{}}")
            self._line(f"for {variable} in {items}:")
            with self._deeper(), self._bound(node.variable, variable, node.items.kind.record):
                test = self._filtered(node)
                keys, value = [self.emit(key) for key in node.keys], self.emit(node.value)
                place = keys[0] if len(keys) == 1 else f"({', '.join(keys)})"
                lost = [f"{cell} is None" for cell in (test, *keys, value) if cell]
                # Of two items at one place nobody knows which it is.
                self._line(f"if {' or '.join(lost)} or {place} in {rows}: {rows} = None; break")
                self._line(f"{rows}[{place}] = {value}")
        return self._set(f"interpolated({rows}, ({places}))")

    def _read_outside(self, variable: str, *parts: t.Node | None) -> None:
        """Read what is no fact of a loop's items before it, once."""
        for part in parts:
            for node, bound in t.walk(part, {}) if part else ():
                if isinstance(node, t.Read) and node.item not in (variable, *bound):
                    self.emit(node)

    @contextmanager
    def _bound(self, variable: str, name: str, path: str) -> Iterator[None]:
        """Let a variable stand for an item inside a `with`, and then for what it did before.

        Args:
            variable: The variable.
            name: The name of the item in what is written.
            path: Path of its list.
        """
        before = self._variables.get(variable)
        self._variables[variable] = (name, path)
        yield
        if before is None:
            del self._variables[variable]
        else:
            self._variables[variable] = before

    def _spend(self, items: t.Read, steps: int) -> None:
        """Write what takes the steps of a loop, so many a round."""
        self._line(f"session.spend({steps} * len({self.emit(items)}))")

    def _round(self, node: t.Loop, result: str, test: str) -> None:
        """Write how one item changes the result of a loop."""
        term = self.emit(node.term)
        unknown = " or ".join(f"{part} is None" for part in (test, term) if part)
        and_counts = f" and {test}" if test else ""
        for line in AGGREGATES[node.function].code:
            values = {"result": result, "term": term, "unknown": unknown}
            self._line(line.format(and_counts=and_counts, **values))
