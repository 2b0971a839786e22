"""Writing Python statements for a checked tree: the one form that compiled functions are made of.

The source is made only of this module's own words, of numbers and texts as constants, and of
names it numbers itself; nothing of a rule's text becomes code. None stands for unknown.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from tundish.language import tree as t
from tundish.language.conditions import is_of_numbers
from tundish.language.finite import can_overflow
from tundish.language.loop_emitter import LoopEmitter
from tundish.language.sameness import Sameness

_GIVE_FINITE = frozenset(
    ("raised", "function_square_root", "function_logarithm", "function_exponential")
)
"""Functions that give a finite float, or raise what says that they do not hold."""
_NEAR = "abs({0} - {1}) <= 1e-9 * max(abs({0}), abs({1}))"
_COMPARED = {
    "<": f"{{0}} < {{1}} and not ({_NEAR})",
    ">": f"{{0}} > {{1}} and not ({_NEAR})",
    "<=": f"{{0}} <= {{1}} or {_NEAR}",
    ">=": f"{{0}} >= {{1}} or {_NEAR}",
    "==": _NEAR,
    "!=": f"not ({_NEAR})",
}


class Emitter(LoopEmitter):
    """Writes the statements of one function; each part ends up in a name of its own.

    A part that was computed where it can be seen is not computed again.
    """

    _tables = "session.tables"
    """What the tables are called in what is written."""

    def __init__(self, variables: dict[str, tuple[str, str]]) -> None:
        super().__init__(variables)
        self._sameness = Sameness(variables)

    def emit(self, node: t.Node) -> str:
        """Write the statements that compute a part, and return the name of its value."""
        found = self._found(node)
        if found:
            return found
        name = self._emitted(node)
        key = self._sameness.key(node)
        if key is not None:
            self._keep(key, name)
        return name

    def _found(self, node: t.Node) -> str:
        """Return the name of a value that was computed already, or nothing."""
        key = self._sameness.key(node)
        return "" if key is None else self._kept(key)

    def _emitted(self, node: t.Node) -> str:
        match node:
            case t.Constant():
                return self._set(repr(node.value))
            case t.Read():
                return self._read(node)
            case t.Derived():
                return self._derived(node)
            case t.Negation() | t.Arithmetic():
                return self._arithmetic(node)
            case t.Call() if _is_in_the_open(node):
                return self._arithmetic(node)
            case t.Power():
                return self._applied("raised", (node.radix, node.exponent))
            case t.Comparison() if is_of_numbers(node):
                return self._comparison(node)
            case t.Comparison():
                return self._equality(node)
            case t.Membership() if node.member.kind.name != "quantity":
                return self._text_membership(node)
            case t.Membership():
                member = self.emit(node.member)
                options = repr(node.options) if node.texts is None else self.emit(node.texts)
                return self._set(f"member({member}, {options})")
            case t.Not():
                operand = self.emit(node.operand)
                return self._set(f"None if {operand} is None else not {operand}")
            case t.Logic():
                return self._logic(node)
            case t.Choice():
                return self._choice(node)
            case t.Known():
                return self._set(f"{self.emit(node.operand)} is not None")
            case t.Present():
                return self.emit(node.operand)
            case t.Assumed():
                return self._assumed(node)
            case t.Call():
                return self._applied(f"function_{node.function.name}", node.arguments)
            case t.Lookup():
                return self._lookup(node)
            case t.Count():
                items = self.emit(node.items)
                return self._set(f"None if {items} is None else len({items}) * 1.0")
            case t.Loop():
                return self._loop(node)
            case t.Interpolation():
                return self._interpolation(node)
            case _:
                raise TypeError(f"no code is known for {type(node).__name__}")

    def _lookup(self, node: t.Lookup) -> str:
        keys = "".join(f"{self._operand(argument)}, " for argument in node.arguments)
        table = f"{self._tables}[{node.table!r}]"
        hit = f"{table}.rows[{node.column!r}].get(({keys}))"
        if not any(argument.kind.name == "quantity" for argument in node.arguments):
            return self._set(hit)
        # Only a number can be read at a row that it does not hit.
        return self._set(f"{hit} or {table}.near({node.column!r}, ({keys}))")

    # -- arithmetic and comparison, in the open instead of behind a call ----------------------

    def _operand(self, node: t.Node) -> str:
        """Return the name of a value, or a constant itself, in brackets as a sign may follow."""
        return f"({node.value!r})" if isinstance(node, t.Constant) else self.emit(node)

    def _arithmetic(self, node: t.Node) -> str:
        """Write a sum, product or quotient with all its terms as one expression.

        What is not finite stays so through ``+ - *``, so that one look at the end is enough; a
        divisor, which could make it finite again, has a name and a look of its own.
        """
        needed: dict[str, None] = {}
        text = self._term(node, needed)
        result = self._new_name()

        def work_out() -> None:
            self._line(f"{result} = {text}")
            if can_overflow(node):
                self._line(f"if {result} - {result}: {result} = None")

        self._where(" and ".join(needed), result, work_out)
        return result

    def _where(self, known: str, result: str, work_out: Callable[[], None]) -> None:
        """Write what is worked out where all is known that it needs; elsewhere nothing is."""
        if not known:
            work_out()
            return
        self._line(f"if {known}:")
        with self._deeper():
            work_out()
        self._line(f"else: {result} = None")

    def _term(self, node: t.Node, needed: dict[str, None]) -> str:
        """Return the text of a term, and add what must hold for it to have a value."""
        if isinstance(node, t.Constant):
            return f"({node.value!r})"
        if isinstance(node, t.Negation) and not self._found(node):
            return f"(-{self._term(node.operand, needed)})"
        if isinstance(node, t.Arithmetic) and not self._found(node):
            left = self._term(node.left, needed)
            if node.sign != "/":
                return f"({left} {node.sign} {self._term(node.right, needed)})"
            divisor = self._operand(node.right)
            if not (isinstance(node.right, t.Constant) and node.right.value):
                needed[divisor] = None  # neither unknown nor zero
            return f"({left} / {divisor})"
        if isinstance(node, t.Call) and _is_in_the_open(node) and not self._found(node):
            return self._call_in_the_open(node, needed)
        name = self.emit(node)
        needed[f"{name} is not None"] = None
        return name

    def _call_in_the_open(self, node: t.Call, needed: dict[str, None]) -> str:
        """Return the text of a function that is as short as its call."""
        if node.function.name == "absolute":
            return f"abs({self._term(node.arguments[0], needed)})"
        first, second = (self._operand(argument) for argument in node.arguments)
        for argument, name in zip(node.arguments, (first, second), strict=True):
            if not isinstance(argument, t.Constant):
                needed[f"{name} is not None"] = None
        sign = "<" if node.function.name == "least" else ">"
        return f"({second} if {second} {sign} {first} else {first})"

    def _applied(self, function: str, given: Sequence[t.Node]) -> str:
        """Write the call of a function, which may not hold for what it is given."""
        arguments = [self._operand(argument) for argument in given]
        known = self._guarded(zip(given, arguments, strict=True))
        result = self._new_name()

        def apply() -> None:
            call = f"{function}({', '.join(arguments)})"
            is_finite = function in _GIVE_FINITE
            self._line(f"try: {result} = {call if is_finite else f'float({call})'}")
            self._line(f"except does_not_hold: {result} = None")
            if is_finite:
                return
            self._line("else:")
            with self._deeper():
                self._line(f"if {result} - {result}: {result} = None")

        self._where("" if known == "True" else known, result, apply)
        return result

    def _comparison(self, node: t.Comparison) -> str:
        left, right = self._operand(node.left), self._operand(node.right)
        result = self._set(self._guarded([(node.left, left), (node.right, right)]))
        self._line(f"if {result}:")
        with self._deeper():
            self._line(f"{result} = {_COMPARED[node.sign].format(left, right)}")
        self._line(f"else: {result} = None")
        return result

    def _equality(self, node: t.Comparison) -> str:
        """Compare texts or truths, which are equal or not without a tolerance."""
        left, right = self._operand(node.left), self._operand(node.right)
        known = self._guarded([(node.left, left), (node.right, right)])
        return self._set(f"{left} {node.sign} {right} if {known} else None")

    def _text_membership(self, node: t.Membership) -> str:
        member = self._operand(node.member)
        options = self.emit(node.texts) if node.texts is not None else ""
        parts = [(node.member, member)]
        if node.texts is not None:
            parts.append((node.texts, options))
        known = self._guarded(parts)
        # A set of constants is built once, by Python's own compiler.
        among = options or f"{{{', '.join(map(repr, node.options or ()))}}}"
        return self._set(f"{member} in {among} if {known} else None")

    def _guarded(self, parts: Iterable[tuple[t.Node, str]]) -> str:
        """Return the condition that all parts are known; what is written out always is."""
        names = [name for node, name in parts if not isinstance(node, t.Constant)]
        return " and ".join(f"{name} is not None" for name in names) or "True"

    # -- parts with branches ----------------------------------------------------------------

    def _logic(self, node: t.Logic) -> str:
        settled = "{} is False" if node.word == "and" else "{}"
        result = self._set(self.emit(node.parts[0]) if node.parts else str(node.word == "and"))
        for part in node.parts[1:]:
            # Each further part is looked at only while none has settled the answer.
            self._line(f"if not ({settled.format(result)}):")
            with self._deeper():
                value = self.emit(part)
                settles = settled.format(value)
                self._line(f"if {settles} or {result} is not None: {result} = {value}")
        return result

    def _choice(self, node: t.Choice) -> str:
        condition = self.emit(node.condition)
        result = self._new_name()
        self._line(f"if {condition} is not False:")
        with self._deeper():
            self._line(f"{result} = {self._operand(node.then)}")
        self._line(f"if not {condition}:")
        with self._deeper():
            other = self._operand(node.otherwise)
            both = f"agreed({result}, {other})"
            self._line(f"{result} = {other} if {condition} is False else {both}")
        return result

    def _assumed(self, node: t.Assumed) -> str:
        result = self._set(self.emit(node.operand))
        self._line(f"if {result} is None:")
        with self._deeper():
            self._line(f"{result} = {self._operand(node.fallback)}")
        return result

    def _read(self, node: t.Read) -> str:
        return self._set(f"{self._facts(node.item)}.get({node.path!r})")

    def _derived(self, node: t.Derived) -> str:
        if node.item is None:
            return self._set(f"session.derive('', {node.name!r})")
        name, path = self._variables[node.item]
        return self._set(f"session.derive({path!r}, {node.name!r}, {name})")

    # -- writing ----------------------------------------------------------------------------

    def _facts(self, item: str | None) -> str:
        return "facts" if item is None else self._variables[item][0]


def _is_in_the_open(node: t.Call) -> bool:
    """Say whether a function is written out, as its call would take longer than what it does."""
    name, count = node.function.name, len(node.arguments)
    return name == "absolute" or (name in ("least", "greatest") and count == 2)
