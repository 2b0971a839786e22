"""Writing loops: statements that go through the items of a list."""

from __future__ import annotations

from tundish.language import tree as t
from tundish.language.statements import Statements
from tundish.language.weighing import weight


class LoopEmitter(Statements):
    """Writes loops; the parts in them are written by what is built on this.

    Args:
        variables: The name that stands for each bound variable's item, and the path of its list.
    """

    def __init__(self, variables: dict[str, tuple[str, str]]) -> None:
        super().__init__()
        self._variables = variables

    def emit(self, node: t.Node) -> str:
        """Write the statements that compute a part, and return the name of its value."""
        raise NotImplementedError

    def _loop(self, node: t.Loop) -> str:
        items = self.emit(node.items)
        result = self._set("None")
        variable = self._new_name()
        self._line(f"if {items} is not None:")
        with self._deeper():
            self._spend(items, weight(node.filter, node.term))
            if node.function not in ("least", "greatest"):
                start = {"all": "True", "any": "False"}.get(node.function, "0.0")
                self._line(f"{result} = {start}")
            self._line(f"for {variable} in {items}:")
            with self._deeper():
                self._variables[node.variable] = (variable, node.items.kind.record)
                test = "True" if node.filter is None else self.emit(node.filter)
                self._line(f"if {test} is False: continue")
                self._round(node, result, test, self.emit(node.term))
                del self._variables[node.variable]
        return result

    def _interpolation(self, node: t.Interpolation) -> str:
        items = self.emit(node.items)
        places = "".join(f"{self.emit(place)}, " for place in node.at)
        rows, variable = self._set("None"), self._new_name()
        self._line(f"if {items} is not None:")
        with self._deeper():
            self._spend(items, weight(node.filter, *node.keys, node.value))
            self._line(f"{rows} = []")
            self._line(f"for {variable} in {items}:")
            with self._deeper():
                self._variables[node.variable] = (variable, node.items.kind.record)
                test = "True" if node.filter is None else self.emit(node.filter)
                self._line(f"if {test} is False: continue")
                cells = [self.emit(part) for part in (*node.keys, node.value)]
                known = " or ".join(f"{cell} is None" for cell in (test, *cells))
                self._line(f"if {known}: {rows} = None; break")
                self._line(f"{rows} += [({', '.join(cells)})]")
                del self._variables[node.variable]
        return self._set(f"interpolated({rows}, ({places}))")

    def _spend(self, items: str, steps: int) -> None:
        self._line(f"session.spend({steps} * len({items}))")

    def _round(self, node: t.Loop, result: str, test: str, term: str) -> None:
        """Write how one item changes the result of a loop."""
        unknown = f"if {test} is None or {term} is None: {result} = None; break"
        match node.function:
            case "all" | "any":
                settles, other = ("False", "True") if node.function == "all" else ("True", "False")
                self._line(f"if {term} is {settles} and {test} is True:")
                self._line(f"    {result} = {settles}; break")
                self._line(f"if {term} is not {other}: {result} = None")
            case "sum":
                self._line(unknown)
                self._line(f"{result} = total({result}, {term})")
                self._line(f"if {result} is None: break")
            case "count":
                self._line(f"if {term} is False: continue")
                self._line(unknown)
                self._line(f"{result} += 1.0")
            case _:
                sign = "<" if node.function == "least" else ">"
                self._line(unknown)
                self._line(f"if {result} is None or {term} {sign} {result}: {result} = {term}")
