"""The outline of a TOML text: its headers and the rows below each, commented out or not.

A starter has commented-out headers and lines (`# [water.filter]`, `# fluid = "water"`) for whoever
fills it in.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from dataclasses import field
from typing import TYPE_CHECKING

from tundish.groundwork.dataclass import dataclass
from tundish.text.key_places import Path, key_name, key_segments, syntax_tree, value_of

if TYPE_CHECKING:
    from tree_sitter import Node

IsTable = Callable[[tuple[str, ...]], bool]
"""Says whether a path of names can be that of a table, whose header may be commented out."""

_HEADER = re.compile(rb"^\s*#\s*(\[\[?)\s*([A-Za-z0-9_.-]+)\s*\]\]?\s*(#.*)?$")
_PAIR = re.compile(rb"^\s*#\s*([A-Za-z0-9_.-]+)\s*=")
_MARK = re.compile(rb"^(\s*)#\s*")


@dataclass(slots=True)
class Section:
    """A header with the rows below it, up to the next header; or the rows above the first.

    Attributes:
        path: The way to its table, with positions in lists counted from 0.
        row: The row of its header, counted from 0; -1 for the top of the file.
        commented: Whether the header is commented out.
        item: Whether it is an item of a list, in double brackets.
        end: The row behind its last.
        pairs: The keys and values that stand in it.
    """

    path: Path
    row: int
    commented: bool = False
    item: bool = False
    end: int = 0
    pairs: list[Node] = field(default_factory=list)

    @property
    def names(self) -> tuple[str, ...]:
        """Return the path without positions."""
        return tuple(step for step in self.path if isinstance(step, str))


class Outline:
    """The sections of one TOML text, in their order.

    Args:
        source: The text in UTF-8; it has been read without an error.
        is_table: Says which commented-out headers count; None if none does.

    Attributes:
        source: The text.
        rows: The text row by row, without line breaks.
        sections: The top of the file, then what stands below each header.
    """

    def __init__(self, source: bytes, is_table: IsTable | None) -> None:
        self.source = source
        self.rows = [row.removesuffix(b"\r") for row in source.split(b"\n")]
        self._is_table = is_table
        self._comments: set[int] = set()
        self._counts: dict[Path, int] = {}
        self._in_comments: dict[Path, int] = {}
        self.sections = [Section((), -1)]
        self._read(syntax_tree(source), self.sections[0])
        for section, following in zip(self.sections, self.sections[1:], strict=False):
            section.end = following.row
        self.sections[-1].end = len(self.rows)

    def offset(self, row: int) -> int:
        """Return how many bytes stand before a row."""
        at = 0
        for _ in range(row):
            end = self.source.find(b"\n", at)
            if end < 0:
                return len(self.source)
            at = end + 1
        return at

    @property
    def line_break(self) -> bytes:
        """Return what ends a row."""
        return b"\r\n" if b"\r\n" in self.source else b"\n"

    def spliced(self, start: int, end: int, new: bytes) -> bytes:
        """Return the text with the bytes between two offsets replaced."""
        return self.source[:start] + new + self.source[end:]

    def with_row(self, row: int, new: bytes) -> bytes:
        """Return the text with a row replaced."""
        start = self.offset(row)
        return self.spliced(start, start + len(self.rows[row]), new)

    def with_inserted(self, row: int, rows: list[bytes]) -> bytes:
        """Return the text with rows inserted before a row."""
        at, line_break = self.offset(row), self.line_break
        begins = b"" if at == 0 or self.source[:at].endswith(b"\n") else line_break
        return self.spliced(at, at, begins + b"".join(new + line_break for new in rows))

    def in_comment(self, path: Path) -> Section | None:
        """Return the section of a path whose header is commented out."""
        sections = (section for section in self.sections if section.commented)
        return next((section for section in sections if section.path == path), None)

    def commented_pair(self, section: Section, names: tuple[str, ...]) -> int | None:
        """Return the row of a section with a commented-out key, or None.

        Args:
            section: The section.
            names: The names of the key, one unless it has dots.
        """
        rows = self.commented_below(section, names)
        whole = ".".join(names).encode()
        return next((row for row in rows if self._commented_key(row) == whole), None)

    def commented_below(self, section: Section, names: tuple[str, ...]) -> list[int]:
        """Return the rows of a section with commented-out keys that begin with some names."""
        whole = ".".join(names).encode()
        return [
            row
            for row in range(section.row + 1, section.end)
            if (key := self._commented_key(row))
            and (key == whole or key.startswith(whole + b"."))
            and _is_toml(uncommented(self.rows[row]))
        ]

    def holds_dotted_comment(self, section: Section) -> bool:
        """Return whether a section has a commented-out key with dots."""
        return any(b"." in self._commented_key(row) for row in range(section.row + 1, section.end))

    def _commented_key(self, row: int) -> bytes:
        match = _PAIR.match(self.rows[row]) if self._is_comment(row) else None
        return match[1] if match else b""

    def last_entry(self, section: Section) -> int:
        """Return the last row of a section with a key, commented out or not; else its header's."""
        last = max([section.row, *(node.end_point[0] for node in section.pairs)])
        for row in range(last + 1, section.end):
            if self.holds_pair_in_comment(row):
                last = row
        return last

    def holds_pair_in_comment(self, row: int) -> bool:
        """Return whether a row is a commented-out key and value."""
        return self._is_comment(row) and bool(_PAIR.match(self.rows[row]))

    def lead(self, section: Section) -> int:
        """Return the first row that belongs to a header: that of the comment right above it."""
        row = section.row
        while row - 1 in self._comments and not _PAIR.match(self.rows[row - 1]):
            row -= 1
        return row

    def _is_comment(self, row: int) -> bool:
        return self._is_table is not None and row in self._comments

    def _read(self, parent: Node, section: Section) -> None:
        """Note the pairs and headers in a node, commented out or not, in their order."""
        for node in parent.children:
            if node.type == "pair":
                section.pairs.append(node)
                # The parser hangs comments on a pair, though they have rows of their own.
                for inner in node.children:
                    if inner.type == "comment":
                        self._comment(inner)
            elif node.type == "comment":
                self._comment(node)
            elif node.type in ("table", "table_array_element"):
                self._table(node)

    def _table(self, table: Node) -> None:
        key = next(node for node in table.children if node.type.endswith("key"))
        names = [key_name(node, self.source) for node in key_segments(key)]
        item = table.type == "table_array_element"
        path = self._resolved(names, item)
        if item:
            list_path = path[:-1]
            self._counts[list_path] = self._counts.get(list_path, 0) + 1
            self._in_comments.pop(list_path, None)
        section = Section(path, table.start_point[0], False, item)
        self.sections.append(section)
        self._read(table, section)

    def _comment(self, node: Node) -> None:
        row = node.start_point[0]
        if self.rows[row][: node.start_point[1]].strip():
            return  # it is at the end of a line
        self._comments.add(row)
        match = _HEADER.match(self.rows[row])
        if match is None or self._is_table is None:
            return
        names = match[2].decode().split(".")
        if self._is_table(tuple(names)):
            path = self._resolved(names, match[1] == b"[[")
            if match[1] == b"[[":
                self._in_comments[path[:-1]] = int(path[-1])
            self.sections.append(Section(path, row, True, match[1] == b"[["))

    def _resolved(self, names: list[str], item: bool) -> Path:
        """Return the path of a header, which continues from the newest items of lists."""
        path: Path = ()
        for at, name in enumerate(names):
            path = (*path, name)
            if item and at == len(names) - 1:
                return (*path, self._counts.get(path, 0))
            if path in self._in_comments:
                path = (*path, self._in_comments[path])
            elif path in self._counts:
                path = (*path, self._counts[path] - 1)
        return path


def uncommented(row: bytes) -> bytes:
    """Return a row without the # of its comment, its indentation kept."""
    return _MARK.sub(rb"\1", row)


def _is_toml(row: bytes) -> bool:
    try:
        return len(tomllib.loads(row.decode("utf-8", "replace"))) == 1
    except (tomllib.TOMLDecodeError, ValueError, RecursionError):
        return False


def comment_behind(row: bytes) -> bytes:
    """Return the comment behind the value of a commented-out row, with its #."""
    bare = uncommented(row).lstrip()
    outline = Outline(bare, None)
    pair = outline.sections[0].pairs[0]
    behind = bare[value_of(pair).end_byte :].strip()
    return b"  " + behind if behind.startswith(b"#") else b""
