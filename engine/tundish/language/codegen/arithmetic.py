"""Writing arithmetic in the open, and calls of functions, where all that they need is known."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Iterable

from tundish.language.codegen.loops import LoopEmitter
from tundish.language.operations.finiteness import can_overflow
from tundish.language.operations.operators import operation_of
from tundish.language.tree import tree as t


class ArithmeticEmitter(LoopEmitter):
    """Writes sums, products and calls; the parts in them are written by what is built on this."""

    @abstractmethod
    def _found(self, node: t.Node) -> str:
        """Return the name of a value that was computed already, or nothing."""

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
        if not needed and not can_overflow(node):
            self._know(result)
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

    def _need(self, name: str, needed: dict[str, None]) -> str:
        """Add that a value must be known, unless it certainly is; return its name."""
        if not self._is_known(name):
            needed[f"{name} is not None"] = None
        return name

    def _term(self, node: t.Node, needed: dict[str, None]) -> str:
        """Return the text of a term, and add what must hold for it to have a value."""
        if isinstance(node, t.Constant):
            return f"({node.value!r})"
        if isinstance(node, t.Negation) and not self._found(node):
            return f"(-{self._term(node.operand, needed)})"
        if isinstance(node, t.Arithmetic | t.Call) and not self._found(node) and is_inline(node):
            return self._inline(node, needed)
        return self._need(self.emit(node), needed)

    def _inline(self, node: t.Arithmetic | t.Call, needed: dict[str, None]) -> str:
        """Return the text of an operation that is as short as its call."""
        operation, texts = operation_of(node), list[str]()
        parts = t.children(node)
        divisor = parts[-1] if operation.is_division else None
        for at, part in enumerate(parts):
            is_named = part is divisor or operation.uses(at) > 1
            texts.append(self._operand(part) if is_named else self._term(part, needed))
            if part is divisor:
                if not (isinstance(part, t.Constant) and part.value):
                    needed[texts[-1]] = None  # neither unknown nor zero
            elif is_named and not isinstance(part, t.Constant):
                self._need(texts[-1], needed)
        return operation.code.format(*texts)

    def _applied(self, node: t.Arithmetic | t.Call) -> str:
        """Write the call of an operation, which may not hold for what it is given."""
        operation, parts = operation_of(node), t.children(node)
        arguments = [self._operand(part) for part in parts]
        known = self._guarded(zip(parts, arguments, strict=True))
        result = self._new_name()

        def apply() -> None:
            call = f"function_{operation.name}({', '.join(arguments)})"
            self._line(f"try: {result} = {call if operation.is_finite else f'float({call})'}")
            self._line(f"except does_not_hold: {result} = None")
            if operation.is_finite:
                return
            self._line("else:")
            with self._deeper():
                self._line(f"if {result} - {result}: {result} = None")

        self._where(known, result, apply)
        return result

    def _set_where_known(self, parts: Iterable[tuple[t.Node, str]], value: str) -> str:
        """Set a name to a value where all parts are known, elsewhere to nothing."""
        known = self._guarded(parts)
        return self._set(f"{value} if {known} else None" if known else value)

    def _guarded(self, parts: Iterable[tuple[t.Node, str]]) -> str:
        """Return the condition that all parts are known, or nothing where they certainly are."""
        return " and ".join(f"{name} is not None" for name in self._maybe_unknown(parts))

    def _maybe_unknown(self, parts: Iterable[tuple[t.Node, str]]) -> list[str]:
        """Return the names of the parts that are not certainly known."""
        return [
            name
            for node, name in parts
            if not isinstance(node, t.Constant) and not self._is_known(name)
        ]


def is_inline(node: t.Arithmetic | t.Call) -> bool:
    """Say whether an operation is generated inline, as a call would take longer than it does."""
    return operation_of(node).is_inline(len(t.children(node)))
