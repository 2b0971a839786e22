"""The tables and keys that statements define, and which of them clash."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from dataclasses import replace

from tundish.groundwork.dataclass import dataclass
from tundish.text.header_above import HeaderAbove, marked_header_above
from tundish.text.quoted import printable
from tundish.text.toml_mistakes.scanner import KEY, NAME, Statement

_HEADER = re.compile(rf"[ \t]*(\[\[?)[ \t]*({KEY})[ \t]*\]")
_PAIR = re.compile(rf"[ \t]*({KEY})[ \t]*=[ \t]*")
_NAME = re.compile(NAME)
_EMPTY = re.compile(r"\{[ \t]*\}")
_VALUES = ("value", "braces", "empty")


class _Node:
    """What a name stands for.

    Attributes:
        kind: ``table``, ``implicit``, ``dotted``, ``list``, ``value``, ``braces``, or ``empty``
            for braces with nothing between them.
        place: The statement that it began with.
        inner: What stands in a table, or in the newest item of a list.
    """

    __slots__ = ("inner", "kind", "place")

    def __init__(self, kind: str, place: Statement) -> None:
        self.kind, self.place = kind, place
        self.inner: dict[str, _Node] = {}


@dataclass(frozen=True, slots=True)
class Clash:
    """Two statements of which one excludes the other.

    Attributes:
        at: The statement to be mended.
        start: Index in it of the first character that is meant.
        end: Index after the last.
        sentence: What is wrong and what to write.
        cure: The corrected statement; None where the meaning is unclear.
        needless: Another statement that can be left out, so that this one is valid.
        header: The commented-out header to be put before it for that.
    """

    at: Statement
    start: int
    end: int
    sentence: str
    cure: str | None
    needless: Statement | None = None
    header: Statement | None = None


class Tables:
    """The tables of a file, statement by statement.

    Args:
        rows: The lines of the file.
    """

    def __init__(self, rows: Sequence[str]) -> None:
        self._rows = rows
        self._root: dict[str, _Node] = {}
        self._table = self._root

    def leave(self) -> None:
        """Take the following keys as those of an unknown table."""
        self._table = {}

    def add(self, written: Statement, text: str) -> Clash | None:
        """Add a statement that can be read.

        Args:
            written: The statement as it stands in the file.
            text: The same, mended.

        Returns:
            How it clashes with those before, or None.
        """
        if match := _HEADER.match(text):
            return self._header(written, match)
        match = _PAIR.match(text)
        return self._pair(written, match, text) if match else None

    def _header(self, written: Statement, match: re.Match[str]) -> Clash | None:
        names, clash = _names(match[2]), _Clashes(written, match, self._rows)
        table, needless = self._root, None
        for position, name in enumerate(names[:-1]):
            node = table.setdefault(name, _Node("implicit", written))
            if node.kind == "empty":
                needless = clash.with_empty(names[: position + 1], node, "implicit")
            elif node.kind in _VALUES:
                self.leave()
                return clash.inside_value(names[: position + 1], node)
            table = node.inner
        double, last = match[1] == "[[", names[-1]
        node = table.setdefault(last, _Node("new", written))
        if node.kind == "empty" and not double:
            needless = clash.with_empty(names, node, "new")
        kind = node.kind
        if kind == "new" or (kind == "implicit" and not double):
            node.kind, node.place = ("list" if double else "table"), written
        elif kind == "list" and double:
            node.inner = {}
        else:
            self.leave()
            mistake = clash.of_headers(names, node, double)
            if kind == "table" and double:  # it is taken as a list from here on
                node.kind, node.inner = "list", {}
                self._table = node.inner
            elif kind == "list":
                node.inner = {}
                self._table = node.inner
            return mistake
        self._table = node.inner
        return needless

    def _pair(self, written: Statement, match: re.Match[str], text: str) -> Clash | None:
        names, clash = _names(match[1]), _Clashes(written, match, self._rows)
        table, needless = self._table, None
        for position, name in enumerate(names[:-1]):
            node = table.setdefault(name, _Node("dotted", written))
            if node.kind == "empty":
                needless = clash.with_empty(names[: position + 1], node, "dotted")
            elif node.kind in _VALUES:
                return clash.inside_value(names[: position + 1], node)
            elif node.kind in ("table", "list"):
                return clash.inside_table(names[: position + 1], node)
            table = node.inner
        kind = "braces" if text.startswith("{", match.end()) else "value"
        kind = "empty" if _EMPTY.match(text, match.end()) else kind
        node = table.setdefault(names[-1], _Node("new", written))
        if node.kind != "new":
            return clash.of_keys(names, node, kind)
        node.kind = kind
        return needless


class _Clashes:
    """Builds the clashes of one statement."""

    def __init__(self, written: Statement, match: re.Match[str], rows: Sequence[str]) -> None:
        self._written = written
        self._match = match
        self._rows = rows

    def with_empty(self, names: Sequence[str], node: _Node, kind: str) -> Clash:
        """Report a table that was stated as {} and has facts here, and change its kind."""
        node.kind = kind
        sentence = f"Line {node.place.line} says {{}} of '{_dotted(names)}'; take that line away."
        return replace(self._clash(sentence, None), needless=node.place)

    def of_keys(self, names: Sequence[str], node: _Node, kind: str) -> Clash:
        key, line = _dotted(names), node.place.line
        if node.kind in _VALUES:
            sentence = f"'{key}' stands twice in this table: here and on line {line}"
            header = marked_header_above(self._rows, self._written.line)
            if header is not None and header.line > line:
                return self._below_mark(sentence, header)
            sentence = f"{sentence}; keep one."
        elif kind == "empty":
            sentence = f"More is said of '{key}' from line {line} on; take this line away."
        else:
            sentence = (
                f"'{key}' is a table from line {line} on, so it has no value here; keep one of "
                "the two."
            )
        return self._clash(sentence, "\n" * self._written.text.count("\n"))

    def inside_value(self, names: Sequence[str], node: _Node) -> Clash:
        key, line = _dotted(names), node.place.line
        if node.kind == "braces":
            sentence = f"'{key}' was written whole in braces on line {line}; put this in there."
        else:
            sentence = f"'{key}' has a value on line {line}, so nothing can stand inside it."
        return self._clash(sentence, None)

    def inside_table(self, names: Sequence[str], node: _Node) -> Clash:
        key, line = _dotted(names), node.place.line
        sentence = f"'{key}' has a header of its own on line {line}; put this line below that."
        return self._clash(sentence, None)

    def of_headers(self, names: Sequence[str], node: _Node, double: bool) -> Clash:
        key, line = _dotted(names), node.place.line
        if node.kind == "list":
            sentence = f"'{key}' is a list of tables from line {line} on; write [[{key}]] here too."
            return self._clash(sentence, self._doubled(self._written, self._match))
        if node.kind in _VALUES:
            sentence = f"'{key}' has a value on line {line}, so it is no table here; keep one."
            return self._clash(sentence, None)
        other = _HEADER.match(node.place.text)
        if double and node.kind == "table" and other:
            list_line = self._written.line
            sentence = f"'{key}' is a list of tables on line {list_line}; write [[{key}]] here too."
            return Clash(
                node.place, other.start(1), other.end(), sentence, self._doubled(node.place, other)
            )
        if node.kind == "dotted":
            sentence = (
                f"'{key}' was begun by keys with dots on line {line}; put the lines together: "
                f"write {self._as_there(names, node)} = … there, without the header "
                f"{self._match[0].strip()}{']' * double}."
            )
        elif double:
            sentence = (
                f"'{key}' is a table from line {line} on; write [[{key}]] before its first item."
            )
        else:
            sentence = (
                f"[{key}] is opened twice: here and on line {line}; put the lines together "
                f"there, or write [[{key}]] for both if they are items of a list."
            )
        return self._clash(sentence, None)

    def _below_mark(self, sentence: str, header: HeaderAbove) -> Clash:
        """Return the clash of a key whose header above is still commented out."""
        hint = f"The line '{header.whole}' above it still has its mark; take that off too."
        clash = self._clash(f"{sentence}. {hint}", self._written.text)
        return replace(clash, header=Statement(header.line, header.text))

    def _as_there(self, names: Sequence[str], node: _Node) -> str:
        """Return the first key below a header, as it is written beside a key with dots."""
        beside = _PAIR.match(node.place.text)
        dotted = _names(beside[1]) if beside else []
        depth = max(
            (size for size in range(1, len(dotted)) if dotted[:size] == list(names[-size:])),
            default=0,
        )
        following = self._rows[self._written.line : self._written.line + 1]
        pair = _PAIR.match(following[0]) if following else None
        below = _names(pair[1]) if pair else ["name"]
        repeated = depth if below[:depth] == dotted[:depth] else 0
        return _dotted([*dotted[:depth], *below[repeated:]])

    def _clash(self, sentence: str, cure: str | None) -> Clash:
        start = self._match.start(1)
        end = self._match.end() if self._match[1].startswith("[") else self._match.end(1)
        return Clash(self._written, start, end, sentence, cure)

    @staticmethod
    def _doubled(written: Statement, match: re.Match[str]) -> str | None:
        text = written.text
        if _HEADER.match(text) is None:  # it has been mended itself
            return None
        return (
            f"{text[: match.start(1)]}[{text[match.start(1) : match.end()]}]{text[match.end() :]}"
        )


def _names(key: str) -> list[str]:
    """Return the names of a key, without quotes and escapes."""
    names = []
    for match in _NAME.finditer(key):
        name = match[0]
        if name[0] in "\"'":
            name = next(iter(tomllib.loads(f"{name} = 0"))) if "\\" in name else name[1:-1]
        names.append(name)
    return names


def _dotted(names: Sequence[str]) -> str:
    return printable(".".join(names))
