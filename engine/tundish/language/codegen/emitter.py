"""The emitter: the state of generating one function, and what its parts share.

Generated source consists of this package's own words, of numbers and texts as constants, and of
names that are numbered here; nothing of a rule's text becomes code. None stands for unknown.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any, Protocol

from tundish.language.codegen.code_builder import CodeBuilder
from tundish.language.codegen.value_numbering import ValueNumbering
from tundish.language.tree import tree as t

Operands = Iterable[tuple[t.Node, str]]
"""Nodes, each with the name of its value."""

Form = Callable[["CodeEmitter", Any], str]
"""Emits the statements that compute a node; returns the name of its value."""


class Runtime(Protocol):
    """How a generated function reaches quantities, tables and the budget."""

    @property
    def rows(self) -> str:
        """Return the expression for the rows of tables."""

    @property
    def quantities_first(self) -> bool:
        """Say whether quantities that loop are computed before the conditions that need them.

        If not, reading one may cost steps of a budget, and it must not be read before it is needed.
        """

    def derived(self, emitter: CodeEmitter, node: t.Derived) -> str:
        """Emit what gives a quantity's value; return the name of the value."""

    def charge(self, emitter: CodeEmitter, items: t.Read, steps: int) -> None:
        """Emit what charges a loop for its rounds.

        Args:
            emitter: The emitter.
            items: The list that the loop goes through.
            steps: The cost of a round.
        """


class CodeEmitter:
    """Emits the statements of one function; a value that is available is not computed again.

    Args:
        forms: How to emit each type of node.
        runtime: How the function reaches quantities, tables and its budget.
        variables: The name that stands for each bound variable's item, and the path of its list.
        loop_free: Quantities of items without loops, by path of their list and name.

    Attributes:
        code: The statements.
        numbering: Tells which nodes have the same value.
    """

    def __init__(
        self,
        forms: Mapping[type[t.Node], Form],
        runtime: Runtime,
        variables: Mapping[str, tuple[str, str]] | None = None,
        loop_free: frozenset[tuple[str, str]] = frozenset(),
    ) -> None:
        self.code = CodeBuilder()
        self.runtime = runtime
        self.variables = dict(variables or {})
        self.numbering = ValueNumbering(self.variables, loop_free)
        self._forms = forms

    @property
    def lists(self) -> dict[str, str]:
        """Return the list of each bound variable."""
        return {variable: path for variable, (_, path) in self.variables.items()}

    def emit(self, node: t.Node) -> str:
        """Emit the statements that compute a node, and return the name of its value."""
        number = self.numbering.number(node)
        if number is None:
            return self._compute(node)
        name = self.code.available(number)
        if not name:
            name = self._compute(node)
            self.code.make_available(number, name)
        return name

    def _compute(self, node: t.Node) -> str:
        form = self._forms.get(type(node))
        if form is None:
            raise TypeError(f"no code is known for {type(node).__name__}")
        return form(self, node)

    def available(self, node: t.Node) -> str:
        """Return the name of a value that is computed already, or ""."""
        number = self.numbering.number(node)
        return "" if number is None else self.code.available(number)

    def operand(self, node: t.Node) -> str:
        """Return the name of a value, or a constant itself, in brackets as a sign may follow."""
        return f"({node.value!r})" if isinstance(node, t.Constant) else self.emit(node)

    def item(self, variable: str | None) -> str:
        """Return the name of the facts of a variable's item, or of the whole job."""
        return "facts" if variable is None else self.variables[variable][0]

    @contextmanager
    def bound(self, variable: str, name: str, path: str) -> Iterator[None]:
        """Let a variable stand for an item inside a `with`, and then for what it did before.

        Args:
            variable: The variable.
            name: The name of the item in the generated code.
            path: Path of its list.
        """
        outer = self.variables.get(variable)
        self.variables[variable] = (name, path)
        yield
        if outer is None:
            del self.variables[variable]
        else:
            self.variables[variable] = outer

    # -- values that may be unknown -------------------------------------------------------------

    def maybe_unknown(self, operands: Operands) -> list[str]:
        """Return the names of the operands that are not certainly known."""
        return [
            name
            for node, name in operands
            if not isinstance(node, t.Constant) and not self.code.is_known(name)
        ]

    def all_known(self, operands: Operands) -> str:
        """Return the test that all operands are known, or "" where they certainly are."""
        return " and ".join(f"{name} is not None" for name in self.maybe_unknown(operands))

    def any_unknown(self, operands: Operands) -> str:
        """Return the test that an operand is unknown, or "" where none can be."""
        return " or ".join(f"{name} is None" for name in self.maybe_unknown(operands))

    def assign_if_known(self, operands: Operands, expression: str) -> str:
        """Assign an expression where all operands are known, elsewhere None; return the name."""
        known = self.all_known(operands)
        return self.code.assign(f"{expression} if {known} else None" if known else expression)
