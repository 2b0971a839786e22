"""Writing Python statements for a checked tree: the one form that compiled functions are made of.

The source is made only of this module's own words, of numbers and texts as constants, and of
names it numbers itself; nothing of a rule's text becomes code. None stands for unknown.
"""

from __future__ import annotations

from tundish.language.codegen.arithmetic import ArithmeticEmitter, is_inline
from tundish.language.codegen.tolerance import comparison_test
from tundish.language.codegen.value_numbering import ValueNumbering
from tundish.language.tree import tree as t


class ExpressionEmitter(ArithmeticEmitter):
    """Writes the statements of one function; each part ends up in a name of its own.

    A part that was computed where it can be seen is not computed again.
    """

    _rows = "session.rows"
    """What the rows of tables are called in what is written."""

    def __init__(self, variables: dict[str, tuple[str, str]]) -> None:
        super().__init__(variables)
        self._numbering = ValueNumbering(variables)

    def emit(self, node: t.Node) -> str:
        """Write the statements that compute a part, and return the name of its value."""
        found = self._found(node)
        if found:
            return found
        name = self._emitted(node)
        key = self._numbering.key(node)
        if key is not None:
            self._keep(key, name)
        return name

    def _found(self, node: t.Node) -> str:
        """Return the name of a value that was computed already, or nothing."""
        key = self._numbering.key(node)
        return "" if key is None else self._kept(key)

    def _emitted(self, node: t.Node) -> str:
        match node:
            case t.Constant():
                return self._set(repr(node.value))
            case t.Read():
                return self._read(node)
            case t.Derived():
                return self._derived(node)
            case t.Negation():
                return self._arithmetic(node)
            case t.Arithmetic() | t.Call():
                return self._arithmetic(node) if is_inline(node) else self._applied(node)
            case t.Comparison():
                return self._comparison(node)
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
        names = [self._operand(argument) for argument in node.arguments]
        keys = f"({', '.join(names)}, )"
        hit = f"{self._rows}[{node.table!r}, {node.column!r}].get"
        hit += f"({names[0]})" if len(names) == 1 else f"({keys})"
        if not any(argument.kind.name == "quantity" for argument in node.arguments):
            return self._set(hit)
        # Only a number can be read at a row that it does not hit.
        near = f"{self._rows}.tables[{node.table!r}].near({node.column!r}, {keys})"
        return self._set(f"{hit} or {near}")

    # -- comparison ---------------------------------------------------------------------------

    def _comparison(self, node: t.Comparison) -> str:
        left, right = self._operand(node.left), self._operand(node.right)
        test, is_negated = comparison_test(node, left, right)
        test = f"not ({test})" if is_negated else f"({test})"
        return self._set_where_known([(node.left, left), (node.right, right)], test)

    def _text_membership(self, node: t.Membership) -> str:
        member = self._operand(node.member)
        options = self.emit(node.texts) if node.texts is not None else ""
        parts = [(node.member, member)]
        if node.texts is not None:
            parts.append((node.texts, options))
        # A set of constants is built once, by Python's own compiler.
        among = options or f"{{{', '.join(map(repr, node.options or ()))}}}"
        return self._set_where_known(parts, f"{member} in {among}")

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
        if isinstance(node.fallback, t.Constant):
            self._know(result)
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
