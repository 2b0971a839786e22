"""The compiled form: checked trees turned into Python functions.

The source is made only of this module's own words, of numbers and texts as constants, and of
names it numbers itself; nothing of a rule's text becomes code. None stands for unknown.
"""

from __future__ import annotations

from collections.abc import Mapping

from tundish.language import values
from tundish.language.functions import FUNCTIONS
from tundish.language.interpolation import interpolated
from tundish.language.session import Function
from tundish.language.tree import (
    Arithmetic,
    Assumed,
    Call,
    Choice,
    Comparison,
    Constant,
    Count,
    Derived,
    Interpolation,
    Known,
    Logic,
    Lookup,
    Loop,
    Membership,
    Negation,
    Node,
    Not,
    Power,
    Present,
    Read,
)

_CALCULATE = {"+": "total", "-": "difference", "*": "product", "/": "quotient"}
_COMPARE = {
    "<": "less",
    "<=": "at_most",
    ">": "more",
    ">=": "at_least",
    "==": "same",
    "!=": "different",
}
_SURROUNDINGS: dict[str, object] = {
    "__builtins__": {},
    "len": len,
    "apply": values.apply,
    "interpolated": interpolated,
    "functions": {name: function.calculate for name, function in FUNCTIONS.items()},
    **{
        name: getattr(values, name)
        for name in (*_CALCULATE.values(), *_COMPARE.values(), "power", "member", "agreed")
    },
}


def compile_function(root: Node, variables: Mapping[str, str] | None = None) -> Function:
    """Compile one checked expression.

    Args:
        root: The checked tree.
        variables: The variable that is bound to an item, if one is, with its list's path.

    Returns:
        A function of (facts by path, session) and, with a variable, of its item's facts. It
        returns the value, or None where it is unknown.
    """
    bound = {name: ("item", path) for name, path in (variables or {}).items()}
    emitter = _Emitter(bound)
    result = emitter.emit(root)
    parameters = "facts, session, item" if bound else "facts, session"
    body = "\n".join(f"    {line}" for line in [*emitter.lines, f"return {result}"])
    namespace = dict(_SURROUNDINGS)
    exec(f"def function({parameters}):\n{body}\n", namespace)  # source made here, see above
    function = namespace["function"]
    assert callable(function)
    return function


class _Emitter:
    """Writes the statements of one function; each part ends up in a name of its own."""

    def __init__(self, variables: dict[str, tuple[str, str]]) -> None:
        self.lines: list[str] = []
        self._variables = variables
        self._indent = ""
        self._names = 0

    def emit(self, node: Node) -> str:
        """Write the statements that compute a part, and return the name of its value."""
        match node:
            case Constant():
                return self._set(repr(node.value))
            case Read():
                return self._set(f"{self._facts(node.item)}.get({node.path!r})")
            case Derived():
                return self._derived(node)
            case Negation():
                operand = self.emit(node.operand)
                return self._set(f"None if {operand} is None else -{operand}")
            case Arithmetic():
                return self._two(_CALCULATE[node.sign], node.left, node.right)
            case Power():
                return self._two("power", node.radix, node.exponent)
            case Comparison():
                return self._two(_COMPARE[node.sign], node.left, node.right)
            case Membership():
                member = self.emit(node.member)
                options = repr(node.options) if node.texts is None else self.emit(node.texts)
                return self._set(f"member({member}, {options})")
            case Not():
                operand = self.emit(node.operand)
                return self._set(f"None if {operand} is None else not {operand}")
            case Logic():
                return self._logic(node)
            case Choice():
                return self._choice(node)
            case Known():
                return self._set(f"{self.emit(node.operand)} is not None")
            case Present():
                return self.emit(node.operand)
            case Assumed():
                return self._assumed(node)
            case Call():
                arguments = ", ".join(self.emit(argument) for argument in node.arguments)
                return self._set(f"apply(functions[{node.function.name!r}], {arguments})")
            case Lookup():
                keys = "".join(f"{self.emit(argument)}, " for argument in node.arguments)
                return self._set(f"session.look_up({node.table!r}, {node.column!r}, ({keys}))")
            case Count():
                items = self.emit(node.items)
                return self._set(f"None if {items} is None else len({items}) * 1.0")
            case Loop():
                return self._loop(node)
            case Interpolation():
                return self._interpolation(node)
            case _:
                raise TypeError(f"no code is known for {type(node).__name__}")

    # -- parts with branches ----------------------------------------------------------------

    def _logic(self, node: Logic) -> str:
        ends = "False" if node.word == "and" else "True"
        result = self._set("True" if node.word == "and" else "False")
        for part in node.parts:
            # Each further part is looked at only while none has settled the answer.
            self._line(f"if {result} is not {ends}:")
            with self._deeper():
                value = self.emit(part)
                self._line(f"if {value} is {ends} or {result} is not None: {result} = {value}")
        return result

    def _choice(self, node: Choice) -> str:
        condition = self.emit(node.condition)
        then, otherwise = self._set("None"), self._set("None")
        for name, excluded, part in (
            (then, "False", node.then),
            (otherwise, "True", node.otherwise),
        ):
            self._line(f"if {condition} is not {excluded}:")
            with self._deeper():
                self._line(f"{name} = {self.emit(part)}")
        return self._set(
            f"{then} if {condition} is True else {otherwise} if {condition} is False"
            f" else agreed({then}, {otherwise})"
        )

    def _assumed(self, node: Assumed) -> str:
        result = self._set(self.emit(node.operand))
        self._line(f"if {result} is None:")
        with self._deeper():
            self._line(f"{result} = {self.emit(node.fallback)}")
        return result

    def _derived(self, node: Derived) -> str:
        if node.item is None:
            return self._set(f"session.derive('', {node.name!r})")
        name, path = self._variables[node.item]
        return self._set(f"session.derive({path!r}, {node.name!r}, {name})")

    def _loop(self, node: Loop) -> str:
        items = self.emit(node.items)
        result = self._set("None")
        variable = self._new_name()
        self._line(f"if {items} is not None:")
        with self._deeper():
            self._line(f"session.spend(len({items}))")
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

    def _interpolation(self, node: Interpolation) -> str:
        items = self.emit(node.items)
        places = "".join(f"{self.emit(place)}, " for place in node.at)
        rows, variable = self._set("None"), self._new_name()
        self._line(f"if {items} is not None:")
        with self._deeper():
            self._line(f"session.spend(len({items}))")
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

    def _round(self, node: Loop, result: str, test: str, term: str) -> None:
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

    # -- writing ----------------------------------------------------------------------------

    def _facts(self, item: str | None) -> str:
        return "facts" if item is None else self._variables[item][0]

    def _two(self, function: str, left: Node, right: Node) -> str:
        first = self.emit(left)
        return self._set(f"{function}({first}, {self.emit(right)})")

    def _new_name(self) -> str:
        self._names += 1
        return f"v{self._names}"

    def _set(self, expression: str) -> str:
        name = self._new_name()
        self._line(f"{name} = {expression}")
        return name

    def _line(self, text: str) -> None:
        self.lines.append(self._indent + text)

    def _deeper(self) -> _Deeper:
        return _Deeper(self)


class _Deeper:
    """Indents what is written inside a `with`."""

    def __init__(self, emitter: _Emitter) -> None:
        self._emitter = emitter

    def __enter__(self) -> None:
        self._emitter._indent += "    "

    def __exit__(self, *_: object) -> None:
        self._emitter._indent = self._emitter._indent[:-4]
