"""Statements: the lines of a generated function, its names, and what is known where."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager


class Statements:
    """Collects the lines of one function.

    Attributes:
        lines: The statements written so far.
    """

    def __init__(self) -> None:
        self.lines: list[str] = []
        self._indent = ""
        self._names = 0
        # What was computed in a block can be seen in the blocks inside it, and nowhere else; so can
        # the names of values that are certainly known there.
        self._blocks: list[dict[int, str]] = [{}]
        self._known_names: list[set[str]] = [set()]

    def _new_name(self) -> str:
        self._names += 1
        return f"v{self._names}"

    def _set(self, expression: str) -> str:
        name = self._new_name()
        self._line(f"{name} = {expression}")
        return name

    def _line(self, text: str) -> None:
        self.lines.append(self._indent + text)

    def _keep(self, key: int, name: str) -> None:
        """Remember the name of what was computed in this block."""
        self._blocks[-1][key] = name

    def _kept(self, key: int) -> str:
        """Return the name of what was computed in this block or one around it, or nothing."""
        for block in reversed(self._blocks):
            if key in block:
                return block[key]
        return ""

    def _know(self, name: str) -> None:
        """Remember that a value is certainly known in this block."""
        self._known_names[-1].add(name)

    def _is_known(self, name: str) -> bool:
        """Say whether a value is certainly known in this block."""
        return any(name in names for names in self._known_names)

    @contextmanager
    def _knowing(self, *names: str) -> Iterator[None]:
        """Write something inside a `with` that is looked at only where some values are known."""
        self._known_names.append(set(names))
        yield
        self._known_names.pop()

    def _deeper(self, *known: str) -> _Deeper:
        """Write what is done inside a `with` one level deeper, where some values are known."""
        return _Deeper(self, known)


class _Deeper:
    """Indents what is written inside a `with`, and forgets behind it what was computed there."""

    def __init__(self, statements: Statements, known: Iterable[str]) -> None:
        self._statements = statements
        self._known = known

    def __enter__(self) -> None:
        self._statements._indent += "    "
        self._statements._blocks.append({})
        self._statements._known_names.append(set(self._known))

    def __exit__(self, *_: object) -> None:
        self._statements._indent = self._statements._indent[:-4]
        self._statements._blocks.pop()
        self._statements._known_names.pop()
