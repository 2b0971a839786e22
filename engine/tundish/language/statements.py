"""Statements: the lines of a generated function, its names, and what is known where."""

from __future__ import annotations


class Statements:
    """Collects the lines of one function.

    Attributes:
        lines: The statements written so far.
    """

    def __init__(self) -> None:
        self.lines: list[str] = []
        self._indent = ""
        self._names = 0
        # What was computed in a block can be seen in the blocks inside it, and nowhere else.
        self._blocks: list[dict[int, str]] = [{}]

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

    def _deeper(self) -> _Deeper:
        return _Deeper(self)


class _Deeper:
    """Indents what is written inside a `with`, and forgets behind it what was computed there."""

    def __init__(self, statements: Statements) -> None:
        self._statements = statements

    def __enter__(self) -> None:
        self._statements._indent += "    "
        self._statements._blocks.append({})

    def __exit__(self, *_: object) -> None:
        self._statements._indent = self._statements._indent[:-4]
        self._statements._blocks.pop()
