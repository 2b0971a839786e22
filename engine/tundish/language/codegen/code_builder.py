"""The lines of a generated function, its names, and which values are available or known where."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager


class CodeBuilder:
    """Collects the statements of one function.

    A value that a block computes is available in that block and the blocks inside it, nowhere
    else. The same holds for what is known there: the names whose values are certainly not None.

    Attributes:
        lines: The statements so far.
    """

    def __init__(self) -> None:
        self.lines: list[str] = []
        self._indent = ""
        self._names = 0
        self._available: list[dict[int, str]] = [{}]
        self._known: list[set[str]] = [set()]

    @property
    def depth(self) -> int:
        """Return how many blocks the next line stands in."""
        return len(self._indent) // 4

    def new_name(self) -> str:
        """Return a name that nothing has yet."""
        self._names += 1
        return f"v{self._names}"

    def assign(self, expression: str) -> str:
        """Add the assignment of an expression to a new name; return the name."""
        name = self.new_name()
        self.line(f"{name} = {expression}")
        return name

    def line(self, text: str) -> None:
        """Add a statement of one line."""
        self.lines.append(self._indent + text)

    @contextmanager
    def block(self, head: str, *known: str) -> Iterator[None]:
        """Add the head of a block; what is added inside the `with` stands in it.

        Args:
            head: The line that opens it.
            known: Names whose values are known in it.
        """
        self.line(head)
        self._indent += "    "
        self._available.append({})
        with self.knowing(*known):
            yield
        self._available.pop()
        self._indent = self._indent[:-4]

    @contextmanager
    def knowing(self, *names: str) -> Iterator[None]:
        """Treat the values of some names as known inside the `with`."""
        self._known.append(set(names))
        yield
        self._known.pop()

    def mark_known(self, name: str) -> None:
        """Note that a value is known in this block."""
        self._known[-1].add(name)

    def is_known(self, name: str) -> bool:
        """Say whether a value is known in this block."""
        return any(name in names for names in self._known)

    def make_available(self, number: int, name: str) -> None:
        """Note the name under which this block computed a value."""
        self._available[-1][number] = name

    def available(self, number: int) -> str:
        """Return the name of a value that this block or one around it has computed, or ""."""
        for block in reversed(self._available):
            if number in block:
                return block[number]
        return ""
